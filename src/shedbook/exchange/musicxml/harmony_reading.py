"""What stands over and before the notes: chord symbols, metres and transpositions of MusicXML."""

from __future__ import annotations

from fractions import Fraction

from shedbook.errors import ChordSymbolError
from shedbook.exchange.ground.safe_xml import Element, bad_number, child_text, number, text_of
from shedbook.exchange.musicxml.harmony_elements import DegreeElement, HarmonyElement, ReadChord, chord_of
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import LETTERS, NoteName

_ZERO = Fraction(0)
_MOST_KNOWN = 1000


def metre_of(beats: list[str], units: list[str]) -> Metre:
    """Return the metre of a time signature; 3+2/8 and 3/8 + 2/8 are five eighths.

    Raises:
        ValueError: if no metre says it.
    """
    finest = max(int(unit) for unit in units if unit.isdecimal() and len(unit) < 4)
    total = 0
    for many, unit in zip(beats, units, strict=True):
        parts = many.split("+")
        if not unit.isdecimal() or not int(unit) or finest % int(unit):
            raise ValueError(unit)
        if not all(part.strip().isdecimal() and len(part.strip()) < 4 for part in parts):
            raise ValueError(many)
        total += sum(int(part) for part in parts) * (finest // int(unit))
    return Metre.parse(f"{total}/{finest}")


def steps_of(semitones: int) -> int:
    """Return the letters that a transposition moves by where the file counts half steps alone."""
    octaves, rest = divmod(abs(semitones), 12)
    steps = 7 * octaves + (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)[rest]
    return steps if semitones >= 0 else -steps


def read_transpose(name: str, transpose: Element) -> Interval:
    """Return what must be added to a written pitch to get the sounding one.

    Raises:
        ReadError: if it names no half steps.
    """
    text = child_text(transpose, "chromatic")
    chromatic = number(text)
    if chromatic is None or chromatic.denominator != 1 or abs(chromatic) > 48:
        raise bad_number(name, text, "a transposition")
    semitones = int(chromatic)
    diatonic = number(child_text(transpose, "diatonic") or "x")
    steps = steps_of(semitones) if diatonic is None or abs(diatonic) > 48 else int(diatonic)
    octaves = number(child_text(transpose, "octave-change") or "0") or _ZERO
    whole = max(-4, min(4, int(octaves)))
    return Interval(steps + 7 * whole, semitones + 12 * whole)


def concert_fifths(written: int | None, shift: Interval) -> tuple[int | None, int]:
    """Return a key signature as it sounds, by its plainer name where a transposing part makes it odd.

    With it comes how many letters the notes of the part must go up to be called by that name.

    Signatures of seven signs are only left to a part that is written as it sounds.
    """
    if written is None:
        return None, 0
    fifths = written + shift.fifths
    while abs(fifths) > (7 if shift == UNISON else 6):
        fifths += -12 if fifths > 0 else 12
    return fifths, (written + shift.fifths - fifths) // 12


KnownChords = dict[tuple[str | None, ...], ReadChord]
"""Chords that were read before, by all the words of their elements, under one transposition."""


def read_chord(element: Element, shift: Interval, known: KnownChords) -> ReadChord:
    """Return the chord of a `harmony` element in concert pitch."""
    words: list[str | None] = []
    for child in element.iter():
        words += (child.tag, child.text, child.get("text"))
    key = tuple(words)
    found = known.get(key)
    if found is None:
        found = chord_of(read_harmony(element, shift))
        if len(known) < _MOST_KNOWN:
            known[key] = found
    return found


def read_harmony(element: Element, shift: Interval) -> HarmonyElement:
    """Return what a `harmony` element says, its root and bass in concert pitch."""
    kind = element.find("kind")
    degrees = []
    for child in element.findall("degree"):
        value, alter = (
            number(child_text(child, "degree-value")),
            number(child_text(child, "degree-alter") or "0"),
        )
        if value is not None and alter is not None and 0 < value <= 13 and abs(alter) < 4:
            degrees.append(DegreeElement(int(value), int(alter), child_text(child, "degree-type")))
    inversion = number(child_text(element, "inversion") or "0") or _ZERO
    return HarmonyElement(
        _name(element.find("root"), "root", shift),
        "" if kind is None else text_of(kind),
        None if kind is None else kind.get("text"),
        tuple(degrees),
        _name(element.find("bass"), "bass", shift),
        int(inversion) if 0 < inversion < 8 else 0,
    )


def _name(element: Element | None, tag: str, shift: Interval) -> NoteName | None:
    """Return the sounding name of a root or bass."""
    step = "" if element is None else child_text(element, f"{tag}-step")
    if element is None or not step or step not in LETTERS:
        return None
    alter = number(child_text(element, f"{tag}-alter") or "0") or _ZERO
    name = NoteName.of(step, max(-2, min(2, round(alter)))) + shift
    while abs(name.alteration) > 2:
        name = NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name


def chord_in_words(text: str) -> Chord | None:
    """Return the chord that words say, if they are one; white space inside is dropped."""
    if len(text) > 24 or text[0] not in "ABCDEFGN":
        return None
    try:
        return parse_chord("".join(text.split()))
    except ChordSymbolError:
        return None
