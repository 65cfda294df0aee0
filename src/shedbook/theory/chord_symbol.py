"""Reading and printing chord symbols.

`parse_chord` reads a symbol, `canonical` prints the one form that this project uses, and `symbol_parts` gives
the author's own symbol in the pieces that a page draws.

A symbol has no white space. A root takes every accidental that follows it, so that "Cb9" is the ninth chord
on C flat; C with a flat ninth is written "C(b9)" or "C7b9". "C-7" is C minor seventh.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from shedbook.errors import ChordSymbolError
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol_meaning import chord_meant
from shedbook.theory.chord_symbol_tokens import Token, symbol_tokens
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.chord_qualities import NO_CHORD

_NOTE = r"([A-G])(♮|𝄫|𝄪|x|[b♭]{1,2}|[#♯]{1,2}|)"
_ROOT = re.compile(_NOTE)
_BASS = re.compile(f"/{_NOTE}")
_ACCIDENTALS = str.maketrans({"♭": "b", "♯": "#", "𝄫": "bb", "𝄪": "##", "x": "##", "♮": ""})
_LONGEST = 64
_RUN_ON = ("b", "#", "♭", "♯")


@dataclass(frozen=True, slots=True)
class SymbolParts:
    """A chord symbol in the pieces in which it is drawn.

    Accidentals are b and # here, and brackets and commas are left out, because a page draws its own.

    Attributes:
        root: the root, or "N.C.".
        base: the quality on the base line, with the author's signs: "m7", "Δ7", "ø7", "6/9", "7sus4".
        raised: the alterations that are drawn raised, in order.
        bass: the slash bass, or "".
    """

    root: str
    base: str
    raised: tuple[str, ...]
    bass: str


@lru_cache(maxsize=4096)
def parse_chord(text: str) -> Chord:
    """Read a chord symbol, such as "Cm7b5", "F#7alt" or "N.C.".

    Raises:
        ChordSymbolError: if the symbol cannot be read. It points at the first character that was not
            understood and says what could stand there, or at the token that contradicts those before it.
    """
    if len(text) > _LONGEST:
        raise ChordSymbolError(
            f'"{text[:12]}…" is longer than any chord symbol.',
            hint="Divide chords by white space and bars by |.",
            start=_LONGEST,
            end=len(text),
        )
    if text in NO_CHORD:
        return Chord(text, None, third="", fifth="")
    found = _ROOT.match(text)
    if found is None:
        raise _no_root(text)
    if text[found.end() : found.end() + 1] in _RUN_ON:
        raise ChordSymbolError(
            f'"{text[found.end()]}" in "{text}" runs on from the root.',
            hint="Set an alteration that follows the root in brackets, C#(b9), or say the seventh, C#7b9.",
            start=found.end(),
        )
    slash = text.rfind("/")
    bass = _BASS.fullmatch(text, slash) if slash >= 0 else None
    end = len(text) if bass is None else slash
    chord = chord_meant(text, symbol_tokens(text, found.end(), end))
    return replace(chord, root=_name(found), bass=None if bass is None else _name(bass))


def _name(found: re.Match[str]) -> NoteName:
    return NoteName.parse(found[1] + found[2].translate(_ACCIDENTALS))


def _no_root(text: str) -> ChordSymbolError:
    """Return the error for a text that does not begin with a root."""
    if not text:
        return ChordSymbolError("A chord symbol is missing.", hint='Write one, such as "Cm7", or "N.C."')
    letter = text[0]
    hint = "A chord begins with its root, a capital letter A to G with its accidental."
    if letter in "abcdefg":
        hint = f'A root is a capital letter: "{letter.upper()}{text[1:]}".'
    elif letter in "Hh":
        hint = 'There is no H here: write "B" for B natural and "Bb" for B flat.'
    return ChordSymbolError(f'"{letter}" in "{text}" is not the root of a chord.', hint=hint)


def symbol_parts(chord: Chord) -> SymbolParts:
    """Return the author's own symbol in the pieces that a page draws."""
    if chord.root is None:
        return SymbolParts("N.C.", "", (), "")
    base, raised = _author_parts(chord.split_text()[1])
    return SymbolParts(str(chord.root), base, raised, "" if chord.bass is None else str(chord.bass))


@lru_cache(maxsize=4096)
def _author_parts(kind: str) -> tuple[str, tuple[str, ...]]:
    """Divide the author's quality into what stands on the base line and what is raised."""
    # The quality is read after a root, so that its first sign opens a symbol.
    base = ""
    raised: list[str] = []
    last: Token | None = None
    up = False
    for token in symbol_tokens("C" + kind, 1, 1 + len(kind)):
        # A quality and the number after it are drawn as one, in brackets too: (maj7).
        joined = token.kind == "number" and last is not None and last.kind == "quality"
        joined = joined and last is not None and last.end == token.start
        if not joined:
            up = _is_raised(token, last)
        if not up:
            base += token.text
        elif joined:
            raised[-1] += token.text
        else:
            raised.append(token.text)
        last = token
    return base, tuple(raised)


def _is_raised(token: Token, last: Token | None) -> bool:
    """Say whether a token is drawn raised.

    Alterations, added and omitted tones are, and what stands in brackets.
    """
    if token.kind in ("alteration", "signed", "add", "omit"):
        return True
    if token.bracketed:
        return token.kind not in ("suspension", "altered") and (last is not None or token.kind == "number")
    after = last is not None and last.kind in ("alteration", "signed", "add", "suspension")
    return token.kind == "number" and after


def canonical(chord: Chord) -> str:
    """Return the one form in which this project prints a chord, in plain ASCII.

    The form is made from what the chord means, and never from how it was written. Reading it gives a chord of
    the same meaning.
    """
    if chord.root is None:
        return "N.C."
    base, left = _base(chord)
    slash = "" if chord.bass is None else f"/{chord.bass}"
    return f"{chord.root}{base}{_extras(base, left)}{slash}"


def _base(chord: Chord) -> tuple[str, list[str]]:
    """Return the base of the canonical form, and in order what must be added to it."""
    if chord.altered:
        return "7alt", ["no3"] if not chord.third else []
    if not chord.third and chord.fifth == "5" and not chord.seventh:
        return "5", [_written(degree, chord) for degree in chord.tensions]
    stack, tensions = _stack(chord)
    left = [_written(degree, chord) for degree in tensions]
    fifth = [chord.fifth] if chord.fifth in ("b5", "#5") else []
    omitted = [] if chord.fifth else ["no5"]
    if chord.third in ("2", "4"):
        return f"{stack}sus{chord.third}", fifth + left + omitted
    if chord.third == "b3" or chord.seventh == "bb7":
        base, said = _minor_base(chord, stack)
        return base, ([] if said else fifth) + left + omitted + ([] if chord.third else ["no3"])
    if chord.fifth == "#5" and not chord.seventh:
        return "aug", left + ([] if chord.third else ["no3"])
    if not chord.third and stack != "11":
        omitted.append("no3")
    return stack, fifth + left + omitted


def _minor_base(chord: Chord, stack: str) -> tuple[str, bool]:
    """Return the base for a minor third, and whether it already says that the fifth is diminished."""
    if chord.seventh == "bb7":
        return "dim7", True
    if chord.fifth == "b5" and chord.seventh != "6":
        if chord.seventh == "b7":
            return f"m{stack}b5", True
        return f"dim({stack})" if chord.seventh else "dim", True
    return f"m({stack})" if stack.startswith("maj") else f"m{stack}", False


def _stack(chord: Chord) -> tuple[str, list[str]]:
    """Return the number for the seventh and the stacked tensions, and the tensions that it does not say."""
    tensions = list(chord.tensions)
    if chord.seventh == "6":
        if "9" in tensions:
            tensions.remove("9")
            return "6/9", tensions
        return "6", tensions
    if chord.seventh not in ("b7", "7"):
        return ("7" if chord.seventh else ""), tensions
    number, said = _number(chord)
    prefix = "maj" if chord.seventh == "7" else ""
    return f"{prefix}{number}", [degree for degree in tensions if degree not in said]


def _number(chord: Chord) -> tuple[str, tuple[str, ...]]:
    """Return the highest number below which all tensions are there, and the natural tensions that it says."""
    nines = [degree for degree in chord.tensions if degree.endswith("9")]
    elevens = [degree for degree in chord.tensions if degree.endswith("11")]
    with_eleven = chord.third == "b3"
    if "13" in chord.tensions and nines and (elevens or not with_eleven) and _third_stands(chord):
        return "13", ("9", "11", "13") if with_eleven else ("9", "13")
    if "11" in chord.tensions and nines and (with_eleven or not _third_stands(chord)):
        return "11", ("9", "11")
    if "9" in chord.tensions:
        return "9", ("9",)
    return "7", ()


def _third_stands(chord: Chord) -> bool:
    """Say whether the third is there, or is missing for another reason than in an eleventh chord."""
    return bool(chord.third) or chord.seventh == "7" or "11" not in chord.tensions


def _written(degree: str, chord: Chord) -> str:
    """Return how one tension is written: an altered one as it is, a natural one as an added tone."""
    bare = degree[0] in "b#" and bool(chord.seventh)
    return degree if bare else f"add{degree}"


def _extras(base: str, left: list[str]) -> str:
    """Return what must be added to the base: one alteration straight after a number, others in brackets."""
    if not left:
        return ""
    # After sus4, m7b5, 6/9 and brackets an alteration without brackets would be hard to read.
    if len(left) == 1 and left[0][0] in "b#" and re.fullmatch(r"(maj|m)?\d+", base):
        return left[0]
    if len(left) == 1 and not base and left[0].startswith("add"):
        return left[0]
    return f"({','.join(left)})"
