"""Words of a line that are written otherwise here: what the person meant, and how it is written.

Signs that have one meaning are read as they stand (`with_plain_signs`). For any other word that cannot be
read, `meant` says in a sentence what it was, with the text to write in its place. The rows stand in
`tables.other_ways`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from shedbook.errors import ChordSymbolError
from shedbook.phrase.model import MARKS
from shedbook.phrase.tables.other_ways import (
    ACCEPTED_SIGNS,
    LETTERS_ELSEWHERE,
    MARK_SIGNS,
    SIGN_WORDS,
    VALUE_WORDS,
)
from shedbook.theory.chord_symbol import parse_chord

_ACCEPTED = re.compile("|".join(re.escape(sign) for sign in sorted(ACCEPTED_SIGNS, key=len, reverse=True)))
_NOTE = r"[A-Ga-g](?:##|bb|#|b|)"
_ELSEWHERE = re.compile(
    rf"({'|'.join(sorted(LETTERS_ELSEWHERE, key=len, reverse=True))})[ -]?"
    rf"(##|bb|#|b|{'|'.join(sorted(SIGN_WORDS, key=len, reverse=True))})?(-?\d)?",
    re.IGNORECASE,
)
_SPELLED_OUT = re.compile(rf"([a-g])[-_]?({'|'.join(SIGN_WORDS)})[-_]?(-?\d)?", re.IGNORECASE)
_OCTAVE_MARKS = re.compile(rf"({_NOTE})('+|’+|′+|,{{2,}}|,(?=$))")
_STOPPED = re.compile(rf"({_NOTE}-?\d?|1/\d+\.*t?|-)[,;:]")
_TIED = re.compile(rf"({_NOTE}-?\d?)[~_]|[~_]({_NOTE}-?\d?)|~")
_SIGN_LAST = re.compile(r"([A-Ga-g])(\d)(##|bb|#|b)")
_SIGN_FIRST = re.compile(r"(##|bb|#|b)([A-Ga-g])(-?\d)?")
_TOGETHER = re.compile(rf"(?>(?:{_NOTE}-?\d?[-~/]?){{2,}}+)")
_ONE_OF_THEM = re.compile(rf"{_NOTE}-?\d?")
_VALUE_AND_NOTE = re.compile(rf"(1/\d+\.*t?)({_NOTE}-?\d?)")
_NOTE_AND_VALUE = re.compile(rf"({_NOTE}-?\d?)[/:*](1/)?(1|2|4|8|16|32)")
_VALUE_TYPED = re.compile(r"1[\\:_](1|2|4|8|16|32)(\.*)")
_DOTTED_NOTE = re.compile(rf"({_NOTE}-?\d?)\.{{1,2}}")
_MARKED = re.compile(rf"([>^!*x]?)({_NOTE}-?\d?)([>^!*x]?)")
_TUPLET = re.compile(r"[\[({](\d)(?::\d)?|(\d)[\[({:]")
_HOW_HIGH = "Octaves are numbers, and c4 is middle C"


class Meant(NamedTuple):
    """What a word meant, a sentence, and how that is written here, another."""

    message: str
    hint: str


def with_plain_signs(word: str) -> str:
    """Return a word with the letters that stand for its signs: "bb" for "b♭", "1/4" for "¼"."""
    if word.isascii():
        return word
    return _ACCEPTED.sub(lambda found: ACCEPTED_SIGNS[found[0]], word)


def meant(word: str) -> Meant | None:
    """Return what a word that cannot be read meant, or None where nobody knows."""
    for reader in _READERS:
        found = reader(word)
        if found is not None:
            return found
    return None


def _value(word: str) -> Meant | None:
    known = VALUE_WORDS.get(word.lower())
    if known is None:
        return None
    value, name = known
    if word.lower() == "h":
        return Meant('"h" is not a word of a line.', 'A half note is "1/2"; the German H is "b".')
    return Meant(f'"{word}" is a {name}.', f'Write it "{value}".')


def _number(word: str) -> Meant | None:
    if not word.isdigit():
        return None
    if word in ("1", "2", "4", "8", "16", "32"):
        return Meant(
            f'"{word}" stands alone.',
            f'As a note value write "1/{word}"; an octave number stands close: "d{word}".',
        )
    return Meant(f'"{word}" stands alone.', f'An octave number stands close to its letter: "d{word}".')


def _elsewhere(word: str) -> Meant | None:
    """Read a note's name in another language: "fis", "sib5", "re"."""
    found = _ELSEWHERE.fullmatch(word)
    if found is None:
        return None
    name, whose = LETTERS_ELSEWHERE[found[1].lower()]
    sign = SIGN_WORDS.get((found[2] or "").lower(), found[2] or "")
    note = f"{name}{sign}{found[3] or ''}"
    return Meant(f'"{word}" is a note by its {whose} name.', f'Here it is "{note}".')


def _spelled_out(word: str) -> Meant | None:
    """Read "b-flat", "Fsharp5", or the word for a sign by itself."""
    found = _SPELLED_OUT.fullmatch(word)
    if found is not None:
        note = f"{found[1].lower()}{SIGN_WORDS[found[2].lower()]}{found[3] or ''}"
        return Meant(f'"{word}" spells a note out.', f'Flats are b and sharps #: write "{note}".')
    sign = SIGN_WORDS.get(word.lower())
    if sign is None:
        return None
    example = f"b{sign}"
    return Meant(
        f'"{word}" stands apart from its note.', f'The sign stands close to the letter: "{example}".'
    )


def _octave_marks(word: str) -> Meant | None:
    found = _OCTAVE_MARKS.fullmatch(word)
    if found is None:
        return None
    note, marks = found[1].lower(), found[2]
    octave = 3 + len(marks) if marks[0] != "," else 3 - len(marks)
    return Meant(f'"{word}" says its octave by strokes.', f'{_HOW_HIGH}: write "{note}{octave}".')


def _comma(word: str) -> Meant | None:
    found = _STOPPED.fullmatch(word)
    if found is None:
        return None
    return Meant(f'"{word}" ends with "{word[-1]}".', f'White space alone divides notes: write "{found[1]}".')


def _tied(word: str) -> Meant | None:
    found = _TIED.fullmatch(word)
    if found is None:
        return None
    note = (found[1] or found[2] or "f").lower()
    return Meant(
        f'"{word}" ties a note.',
        f'A tie adds lengths before the note: "1/8+1/4 {note}"; over a bar line, "| + 1/4".',
    )


def _misplaced_sign(word: str) -> Meant | None:
    found = _SIGN_LAST.fullmatch(word)
    if found is not None:
        note = f"{found[1].lower()}{found[3]}{found[2]}"
        return Meant(f'"{word}" has its sign behind the number.', f'The sign comes first: "{note}".')
    found = _SIGN_FIRST.fullmatch(word)
    if found is None or (found[1] in ("b", "bb") and found[3] is None):
        return None
    note = f"{found[2].lower()}{found[1]}{found[3] or ''}"
    return Meant(f'"{word}" has its sign before the letter.', f'The sign comes after it: "{note}".')


def _chord(word: str) -> Meant | None:
    """Read a chord symbol in the line."""
    if len(word) < 2 or not word[0].isupper() or word[1:].isdigit():
        return None
    if not _is_chord(word):
        return None
    return Meant(f'"{word}" is a chord symbol.', f'Chords stand in the changes: changes = "{word} | …".')


def _together(word: str) -> Meant | None:
    if _TOGETHER.fullmatch(word) is None or re.match("[a-g]b{3}", word, re.IGNORECASE):
        return None
    apart = " ".join(note.lower() for note in _ONE_OF_THEM.findall(word))
    note = f'; one flat note is "{word.lower()}"' if re.fullmatch("[A-G]B", word) else ""
    return Meant(f'"{word}" runs notes together.', f'White space divides them: "{apart}"{note}.')


def _value_beside_note(word: str) -> Meant | None:
    found = _VALUE_AND_NOTE.fullmatch(word)
    if found is not None:
        return Meant(f'"{word}" runs a value and a note together.', f'Write "{found[1]} {found[2].lower()}".')
    found = _NOTE_AND_VALUE.fullmatch(word)
    if found is None:
        return None
    return Meant(
        f'"{word}" has its value behind the note.',
        f'A value stands before its notes and holds: "1/{found[3]} {found[1].lower()}".',
    )


def _value_typed(word: str) -> Meant | None:
    found = _VALUE_TYPED.fullmatch(word)
    if found is None:
        return None
    return Meant(f'"{word}" is not a note value.', f'A value has a slash: "1/{found[1]}{found[2]}".')


def _dotted(word: str) -> Meant | None:
    found = _DOTTED_NOTE.fullmatch(word)
    if found is None:
        return None
    note = found[1].lower()
    return Meant(
        f'"{word}" puts a dot behind a note.',
        f'A dot lengthens the value: "1/4. {note}"; a mark has its name: "{note}.staccato".',
    )


def _marked(word: str) -> Meant | None:
    found = _MARKED.fullmatch(word)
    sign = (found[1] or found[3]) if found else ""
    if found is None or not sign:
        return None
    return Meant(
        f'"{word}" has a mark as a sign.', f'Marks have names: "{found[2].lower()}.{MARK_SIGNS[sign]}".'
    )


def _mark_alone(word: str) -> Meant | None:
    if word.lower() in MARKS:
        return Meant(
            f'"{word}" stands apart from its note.', f'A mark follows a full stop: "g.{word.lower()}".'
        )
    if word.lower() in ("grace", "grace:"):
        return Meant(f'"{word}" stands apart from its note.', 'A grace note is written "grace:f#".')
    return None


def _tuplet(word: str) -> Meant | None:
    found = _TUPLET.match(word)
    if found is None:
        return None
    if (found[1] or found[2]) == "3":
        return Meant(f'"{word}" opens a triplet.', 'A triplet is in its value: "1/8t c d e".')
    return Meant(f'"{word}" opens a tuplet.', 'A tuplet is in its value: "1/16(5:4) c d e f g".')


def _repeat(word: str) -> Meant | None:
    if word in ("%", "//", "𝄎"):
        return Meant(f'"{word}" repeats a bar.', 'Only changes have "%": write the notes of the bar again.')
    if word in (":", ":|", "|:", "D.C.", "D.S.", "Coda"):
        return Meant(f'"{word}" is a sign of repeat.', "A line is written out: write the bars again.")
    return None


_READERS: tuple[Callable[[str], Meant | None], ...] = (
    _value, _number, _octave_marks, _elsewhere, _spelled_out, _comma, _tied, _misplaced_sign, _chord,
    _value_beside_note, _together, _value_typed, _dotted, _mark_alone, _marked, _tuplet, _repeat,
)  # fmt: skip


# Chord symbols

_NUMERAL = re.compile(r"[b#]?(?:IV|VII|VI|V|III|II|I|iv|vii|vi|v|iii|ii|i)(?:[^A-Za-z].*|m.*|maj.*|dim.*)?")
_ROOT_ELSEWHERE = re.compile(
    rf"({'|'.join(sorted((name for name in LETTERS_ELSEWHERE if len(name) > 1), key=len, reverse=True))})"
    r"([#b♭♯]?)(.*)",
    re.IGNORECASE,
)


def meant_chord(symbol: str, before: str = "") -> Meant | None:
    """Return what a chord symbol that cannot be read meant, or None where nobody knows.

    Args:
        symbol: the word that cannot be read.
        before: the word before it in its bar, "" for none.
    """
    if before and _is_chord(before + symbol):
        return Meant(
            f'"{symbol}" stands apart from its root.',
            f'A symbol holds no white space: write "{before}{symbol}".',
        )
    if len(symbol) > 1 and symbol[-1] in ",;:" and _is_chord(symbol[:-1]):
        return Meant(
            f'"{symbol}" ends with "{symbol[-1]}".', f'White space divides chords: write "{symbol[:-1]}".'
        )
    if symbol in ("/", "//", "-", ".", "~"):
        return Meant(f'"{symbol}" marks a beat.', "A chord holds until the next one: leave the strokes out.")
    for divided in ("-", ",", ";", "–"):
        parts = symbol.split(divided)
        if len(parts) > 1 and all(_is_chord(part) for part in parts):
            return Meant(
                f'"{symbol}" runs chords together.', f'White space divides them: "{" ".join(parts)}".'
            )
    if _NUMERAL.fullmatch(symbol):
        return Meant(f'"{symbol}" is a numeral.', 'Write the chord by its root, as in the home key: "Dm7".')
    return _chord_elsewhere(symbol)


def _is_chord(text: str) -> bool:
    try:
        parse_chord(text)
    except ChordSymbolError:
        return False
    return True


def _chord_elsewhere(symbol: str) -> Meant | None:
    """Read a root by its name in another language: "Solm7", "Es7", "Fism7"."""
    found = _ROOT_ELSEWHERE.fullmatch(symbol)
    if found is None:
        return None
    name, whose = LETTERS_ELSEWHERE[found[1].lower()]
    written = f"{name[0].upper()}{name[1:]}{found[2]}{found[3]}"
    if not _is_chord(written):
        return None
    return Meant(f'"{symbol}" has its root by the {whose} name.', f'Here it is "{written}".')
