"""When each context of a chord holds, in one text that a person can read: tests/theory/golden/contexts.txt.

For each context, each mode (or no key) and each kind of chord that may follow: the degrees on which a seventh
chord stands in it; what is not said holds on none. UPDATE_GOLDEN=1 writes the text anew; read it before it is
kept. Source: common practice, as the table of chord scales; what is expected of single chords stands in
test_chord_scales.py.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from shedbook.theory.chord import Chord
from shedbook.theory.chord_context import CONTEXTS, Context, leads
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key

GOLDEN = Path(__file__).parent / "golden" / "contexts.txt"
ROOTS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
NUMERALS = ("I", "bII", "II", "bIII", "III", "IV", "#IV", "V", "bVI", "VI", "bVII", "VII")
KEYS = {"C major": Key.parse("C"), "C minor": Key.parse("C minor"), "no key": None}
FOLLOWING = {
    "nothing": None, "a fourth up to major": (5, "maj7"), "a fourth up to a dominant": (5, "7"),
    "a fourth up to minor": (5, "m7"), "a half step up to minor": (1, "m7"),
    "a half step up to major": (1, "6"), "a half step up to a suspended chord": (1, "sus4"),
    "a whole step up to major": (2, "maj7"), "a whole step up to a dominant": (2, "7"),
    "a half step down to minor": (11, "m7"), "a fifth up to minor": (7, "m7"),
}  # fmt: skip


def contexts() -> Iterator[str]:
    for name, holds in CONTEXTS.items():
        yield f"# {name}"
        for said, key in KEYS.items():
            rows: dict[str, list[str]] = {}
            for words, move in FOLLOWING.items():
                degrees = [
                    numeral
                    for degree, numeral in enumerate(NUMERALS)
                    if holds(parse_chord(f"{ROOTS[degree]}7"), context_of(degree, move, key))
                ]
                text = "every degree" if len(degrees) == 12 else " ".join(degrees)
                rows.setdefault(text, []).append(words)
            for text, followed in rows.items():
                if text:
                    yield f"  {said}, {by_what(followed)}: {text}"
        yield ""


def by_what(followed: list[str]) -> str:
    rest = [words for words in FOLLOWING if words not in followed]
    if len(rest) > len(followed):
        return "; ".join(followed)
    return "whatever follows" + ("; not " + ", ".join(rest) if rest else "")


def context_of(degree: int, move: tuple[int, str] | None, key: Key | None) -> Context:
    following = None if move is None else parse_chord(f"{ROOTS[(degree + move[0]) % 12]}{move[1]}")
    return Context(following=following, key=key)


def test_when_each_context_holds() -> None:
    found = "\n".join(contexts())
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize("numeral", [*NUMERALS, "#II", "bV", "vi", "bvii", "#iv"])
def test_a_numeral_says_the_degree_as_the_key_does(numeral: str) -> None:
    """The numeral stands before the key: with it no key is needed, and another one changes no degree."""
    plain = numeral.upper().replace("B", "b")
    degree = NUMERALS.index({"#II": "bIII", "bV": "#IV"}.get(plain, plain))
    chord = parse_chord(f"{ROOTS[degree]}7")
    for name in ("II7", "bVI7", "dominant", "leading note", "ii", "iii", "vi", "bVII7", "off the tonic"):
        holds = CONTEXTS[name]
        by_key = holds(chord, Context(key=Key.parse("C")))
        assert holds(chord, Context(function=numeral)) is by_key
        assert holds(chord, Context(function=numeral, key=Key.parse("E"))) is by_key


@pytest.mark.parametrize(("one", "other"), [("N.C.", "C7"), ("C7", "N.C."), ("C7", "")])
def test_nothing_leads_from_silence_or_to_it(one: str, other: str) -> None:
    following: Chord | None = parse_chord(other) if other else None
    assert not any(leads(parse_chord(one), Context(following=following), move) for move in range(12))
