"""The names of notes, chords, scales and keys in an author's sentences: found, and put into another key.

A name is found by the book's language. Many names are everyday words: "A fifth below", "la note", "si".
Such a word is a name only where something near it says so: a capital inside an English sentence, an
accidental or a mode behind it, an article that everyday speech would not put there, or names beside it in a
list. What stands in braces is meant literally and is never a name: "the {G} string". Braces are not printed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from shedbook.analysis.naming.tables.prose_languages import PROSE_LANGUAGES, ProseRow
from shedbook.errors import ShedbookError
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import NoteName

NOTE, CHORD, SCALE = "note", "chord", "scale"

_ROWS: Mapping[str, ProseRow] = MappingProxyType({row.language: row for row in PROSE_LANGUAGES})
_LITERAL = re.compile(r"\{([^{}]*)\}")
_SYMBOL = re.compile(
    r"(?<![\w♭♯#'’])([A-G])(bb(?=[\dm♭♯#(])|[#b♭♯]?)"
    r"((?:maj|min|dim|aug|sus|add|alt|mi|ma|m|M|o|°|ø|Δ|\+|-(?=\d)|\d|[#b♭♯]\d|\([^()\s]*\))*)"
    r"(?:/([A-G])([#b♭♯]?))?(?![\w#♯♭])"
)
"""A chord symbol, or a letter with its sign; the bass of a slash chord is a name of its own."""
_SMALL = re.compile(r"(?<![\w♭♯#'’])([a-g])([#♯♭])(?![\w#♯♭])")
_SENTENCE_START = re.compile(r"(?:^|[.!?:…]|\n\s*\n|[–—])[\s\"'“”‘’(]*$")
_INITIAL = re.compile(r"(?:[A-Z][a-z]+|[A-Z]\.) $")
_LIST_GAP = re.compile(r"\s*(?:[,;–—→-]|\.\.\.|…)?\s*")
_WORD_BEFORE = re.compile(r"([^\W\d_]+)[\s-]*$")
_WORD_AFTER = re.compile(r"[\s-]*([\w♭♯#]+)")
_NEXT_WORD = re.compile(r"[\s\u00a0-]*([\w♭♯#]+(?:-\w+)*)")
_ARTICLE = re.compile(r"(?<!\w)([Aa]n?)(\s+)$")
_VOWEL_LETTERS = "AEF"
"""The letters whose English names begin with a vowel."""
_TRUE_SIGNS = str.maketrans({"♭": "b", "♯": "#"})
_FEWEST_IN_LIST = 3


@dataclass(frozen=True, slots=True)
class NameInProse:
    """One name in a text.

    Attributes:
        start, end: the offsets of the name, its accidental included, but not the quality of a chord.
        name: the note that it names, or the root of its chord, scale or key.
        kind: `NOTE`, `CHORD` or `SCALE`; a key is a scale here.
        tight: whether a sign or a quality stands close to the letter, as in a symbol: "Bb", "Cm7".
        natural: whether the name is said to be natural.
    """

    start: int
    end: int
    name: NoteName
    kind: str = NOTE
    tight: bool = False
    natural: bool = False


@dataclass(frozen=True, slots=True)
class _Candidate:
    found: NameInProse
    certain: bool


def prose_language(tag: str) -> str:
    """Return the language of a tag ("en" for "en-GB") whose names are known, or ""."""
    language = tag.lower().partition("-")[0]
    return language if language in _ROWS else ""


@lru_cache(maxsize=256)
def names_in_prose(
    text: str, language: str = "en", known: frozenset[NoteName] = frozenset()
) -> tuple[NameInProse, ...]:
    """Return the names in a text, in order.

    Args:
        text: sentences of the author.
        language: the book's language, a tag such as "en" or "de-AT". In one that has no row only symbols
            with a sign or a quality are found.
        known: roots of the phrase's chords, which settle what "A flat 7" means where a sentence begins.
    """
    row = _ROWS.get(prose_language(language))
    bare = _LITERAL.sub(lambda found: " " * len(found[0]), text)
    found = [*_symbols(bare, row)]
    if row is not None:
        found += _words(bare, row, known)
    found = _without_overlaps(found)
    return tuple(one.found for one in _settled(bare, found, row) if one.certain)


def without_marks(text: str) -> str:
    """Return a text as it is printed, without the braces round words that are meant literally."""
    return _LITERAL.sub(lambda found: found[1], text)


def renamed_prose(
    text: str,
    call: Callable[[NameInProse], NoteName],
    spoken: Callable[[NoteName, bool], str],
    language: str = "en",
    known: frozenset[NoteName] = frozenset(),
) -> str:
    """Return a text with every name in it called as `call` says, ready to be printed.

    A name close to its sign, or to the quality of a chord, is plain text: "Bb", to which the page gives its
    sign. Any other is as `spoken` gives it.

    Args:
        text: sentences of the author.
        call: gives the new name of a name in the text.
        spoken: gives a note's name: "B♭"; the second argument says whether the text calls it natural.
        language: the book's language.
        known: as for `names_in_prose`.
    """
    names = names_in_prose(text, language, known)
    said, at = "", 0
    for name in names:
        new = call(name)
        before = text[at : name.start]
        if prose_language(language) == "en" and new != name.name:
            before = _with_article(before, new)
        natural = name.natural and not new.alteration
        said += before + (str(new) if name.tight else spoken(new, natural))
        at = name.end
    return without_marks(said + text[at:])


def _with_article(before: str, name: NoteName) -> str:
    """Return the text before a name, its "a" or "an" as the new name wants it."""
    found = _ARTICLE.search(before)
    if found is None:
        return before
    article = found[1][0] + ("n" if name.letter in _VOWEL_LETTERS else "")
    return before[: found.start()] + article + found[2]


# Candidates


def _symbols(text: str, row: ProseRow | None) -> Iterator[_Candidate]:
    """Yield symbols with a sign or a quality, and the basses of slash chords."""
    for found in _SYMBOL.finditer(text):
        letter, sign, quality, bass, bass_sign = found.groups()
        if not sign and not quality and bass is None:
            continue
        if not _is_symbol(found[0]):
            continue
        kind = CHORD if quality or bass else NOTE
        name = NameInProse(
            found.start(1), found.end(2), _name(letter, sign), _kind(text, found.end(), kind, row), tight=True
        )
        literal = row is not None and not quality and _is_literal(text, found.start(), found.end(), row)
        if not literal:
            yield _Candidate(name, certain=True)
        if bass is not None:
            yield _Candidate(
                NameInProse(found.start(4), found.end(5), _name(bass, bass_sign), CHORD, tight=True), True
            )
    for found in _SMALL.finditer(text):
        yield _Candidate(NameInProse(*found.span(), _name(found[1].upper(), found[2]), tight=True), True)


def _is_symbol(text: str) -> bool:
    """Say whether a text is a chord symbol or a note with its sign; "Go" and "Do" are words."""
    if text[1:] == "o":
        return False
    try:
        parse_chord(text.translate(_TRUE_SIGNS))
    except ShedbookError:
        return False
    return True


def _words(text: str, row: ProseRow, known: frozenset[NoteName]) -> Iterator[_Candidate]:
    """Yield names that are words of the language, with the words of their accidentals."""
    meant = {(name.lower() if row.fold else name): note for name, note in row.names}
    for found in _word_pattern(row).finditer(text):
        word, sign, plural = found.group("name"), found.group("sign"), found.group("plural")
        base = NoteName.parse(meant[word.lower() if row.fold else word])
        if _is_literal(text, found.start(), found.end(), row):
            continue
        accidental = dict(row.signs).get(_spaced(sign), "") if sign else ""
        if accidental:
            base = NoteName.of(base.letter, {"b": -1, "bb": -2, "#": 1, "##": 2}[accidental])
        end = found.start("plural") if plural else found.end()
        name = NameInProse(
            found.start(),
            end,
            base,
            _kind(text, found.end(), NOTE, row),
            natural=bool(sign) and not accidental,
        )
        yield from _judged(text, found, name, row, known)


def _judged(
    text: str, found: re.Match[str], name: NameInProse, row: ProseRow, known: frozenset[NoteName]
) -> Iterator[_Candidate]:
    """Yield the candidate, and whether it is certain by what stands beside it; nothing where it is a word."""
    word, sign, plural = found.group("name"), found.group("sign"), found.group("plural")
    opens = _SENTENCE_START.search(text[: found.start()]) is not None
    if word not in row.everyday and (row.language == "de" or word.lower() not in row.everyday):
        capital = not row.fold or not word[0].islower() or len(word) > 1
        yield _Candidate(name, certain=capital or bool(sign))
    elif row.language == "en":
        if not opens or (not plural and _opens_as_name(text, found, name, row, known)):
            yield _Candidate(name, certain=True)
    elif row.language == "de":
        yield _Candidate(name, certain=name.kind == SCALE or (word[0].isupper() and not opens))
    else:
        before = _word_before(text, found.start())
        number = text[found.end() : found.end() + 1].isdigit()
        yield _Candidate(name, certain=bool(sign) or number or name.kind == SCALE or before in row.before)


def _opens_as_name(
    text: str, found: re.Match[str], name: NameInProse, row: ProseRow, known: frozenset[NoteName]
) -> bool:
    """Say whether the "A" that opens an English sentence is the note, and no article.

    It is where a comma or stop, a verb, or another name in a list follows, and in "A minor" or "A diminished"
    where the phrase has a chord on A. With an accidental it is, unless
    the word for a degree follows: "A flat, the third", but "A flat ninth". "A flat 7" is the chord where the
    phrase has that chord.
    """
    after, sign = _word_after(text, found.end()), found.group("sign")
    rest = text[found.end() :]
    stop = rest.lstrip()[:1] in tuple(",;:.)–—") or re.match(r"-[A-G](?!\w)", rest) is not None
    if stop or after in row.verbs or (after in row.joined and _name_follows(text, found.end(), row)):
        return True
    if not sign and name.name in known and name.kind != NOTE:
        behind = _NEXT_WORD.match(text, found.end())
        thing = "" if behind is None else _word_after(text, behind.end()).partition("-")[0]
        return thing not in (*row.degrees, "ii")
    if not sign or sign == "natural" or after in row.degrees:
        return False
    return after != "7" or name.name in known


def _name_follows(text: str, end: int, row: ProseRow) -> bool:
    """Say whether a joining word is followed by a name: "A and C"."""
    found = _WORD_AFTER.match(text, end)
    following = "" if found is None else text[found.end() :].lstrip()
    return _word_pattern(row).match(following) is not None or _SYMBOL.match(following) is not None


@lru_cache(maxsize=16)
def _word_pattern(row: ProseRow) -> re.Pattern[str]:
    """Return what finds a name in words with its accidental: "B flat", "si bémol", "Ds"."""
    names = "|".join(sorted((re.escape(name) for name, _ in row.names), key=len, reverse=True))
    signs = "|".join(re.escape(word).replace(r"\ ", r"[\s\u00a0]+") for word, _ in row.signs) or "(?!)"
    plural = r"(?P<plural>['’]?s)?" if row.language == "en" else r"(?P<plural>(?!))?"
    flags = "(?i:" if row.fold else "(?:"
    return re.compile(
        rf"(?<![\w♭♯#'’/])(?P<name>{flags}{names}))"
        rf"(?:[\s\u00a0-]+(?P<sign>{signs})(?=s?(?:[\W\d]|$)))?{plural}(?![^\W\d]|[♭♯#_]|['’]\w)"
    )


def _kind(text: str, end: int, kind: str, row: ProseRow | None) -> str:
    """Return the kind of a name by the word behind it."""
    after = _word_after(text, end)
    if kind == NOTE and row is not None:
        if after in row.modes:
            return SCALE
        if after in ("7", "9", "6", "chord", "alt"):
            return CHORD
    return kind


def _is_literal(text: str, start: int, end: int, row: ProseRow) -> bool:
    """Say whether a letter is no note: "the G string", "part B", "C. Parker" after another name, "A-side"."""
    if _word_after(text, end) in row.literal_after or _word_before(text, start) in row.literal_before:
        return True
    behind = text[end : end + 2]
    if row.language == "en" and len(behind) == 2 and behind[0] == "-" and behind[1].islower():
        return _word_after(text, end) not in (*row.modes, "flat", "sharp", "natural")
    rest = text[end : end + 3]
    initial = _INITIAL.search(text[:start]) is not None and _SENTENCE_START.search(text[:start]) is None
    if end - start != 1 or not rest.startswith("."):
        return False
    return rest[1:2] == "," or rest[2:].islower() or (initial and rest[2:].isupper())


def _word_before(text: str, start: int) -> str:
    found = _WORD_BEFORE.search(text[max(0, start - 40) : start])
    return "" if found is None else found[1].lower()


def _word_after(text: str, end: int) -> str:
    """Return the next word, hyphens kept, in lower case; "" where a stop or a comma comes first."""
    found = _NEXT_WORD.match(text, end)
    return "" if found is None else found[1].lower()


def _spaced(sign: str) -> str:
    return " ".join(sign.split())


def _name(letter: str, sign: str) -> NoteName:
    return NoteName.parse(letter + sign.translate(_TRUE_SIGNS))


# Which of them are names


def _without_overlaps(found: list[_Candidate]) -> list[_Candidate]:
    """Return the candidates in order, of two that overlap the longer."""
    kept: list[_Candidate] = []
    for one in sorted(found, key=lambda one: (one.found.start, -one.found.end)):
        if not kept or one.found.start >= kept[-1].found.end:
            kept.append(one)
    return kept


def _settled(text: str, found: list[_Candidate], row: ProseRow | None) -> list[_Candidate]:
    """Return the candidates with the doubtful ones settled by the list in which they stand.

    In a list a doubtful name is certain beside a certain one, and three doubtful ones in a row are certain.
    """
    if row is None or row.language == "en":
        return found
    lists: list[list[_Candidate]] = []
    for one in found:
        if lists and _in_one_list(text, lists[-1][-1].found, one.found, row):
            lists[-1].append(one)
        else:
            lists.append([one])
    settled = []
    for members in lists:
        certain = len(members) > 1 and (
            any(one.certain for one in members) or len(members) >= _FEWEST_IN_LIST
        )
        settled += [replace(one, certain=one.certain or certain) for one in members]
    return settled


def _in_one_list(text: str, before: NameInProse, after: NameInProse, row: ProseRow) -> bool:
    """Say whether two names stand in one list.

    Only a comma or a dash stands between them, or a joining word where a stop follows the second.
    """
    gap = text[before.end : after.start]
    if gap.strip().lower() in row.joined:
        return not text[after.end :].lstrip()[:1].isalnum()
    return bool(gap.strip()) and _LIST_GAP.fullmatch(gap) is not None
