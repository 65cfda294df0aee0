"""Chords: what a chord symbol means, taken apart into third, fifth, seventh and tensions.

Degrees are texts such as "b9". The root comes first, and a slash bass stands apart. "N.C." (no chord) has no
root and no degrees. Symbols are read and printed by `chord_symbol`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.degrees import FAMILY_DEGREES


@dataclass(frozen=True, slots=True)
class Chord:
    """One chord.

    Attributes:
        text: what the author wrote.
        root: the root, or None for no chord.
        third: "3" or "b3"; "4" or "2" where it is suspended; "" where it is left out.
        fifth: "5", "b5" or "#5"; "" where it is left out.
        seventh: "7", "b7" or "bb7"; "6" where a sixth stands in its place; "" where there is none.
        tensions: the tensions that the symbol names, in the order b9 9 #9 11 #11 b13 13.
        bass: the slash bass, or None.
        altered: whether the chord is written "alt".
    """

    text: str
    root: NoteName | None
    third: str = "3"
    fifth: str = "5"
    seventh: str = ""
    tensions: tuple[str, ...] = ()
    bass: NoteName | None = None
    altered: bool = False

    @property
    def degrees(self) -> tuple[str, ...]:
        """The degrees that the symbol names, the root first and the tensions last; () for N.C."""
        if self.root is None:
            return ()
        core = ("1", self.third, self.fifth, self.seventh)
        return tuple(degree for degree in core if degree) + self.tensions

    @property
    def tones(self) -> tuple[NoteName, ...]:
        """The names of the chord tones, in the order of `degrees`; no tension has a double accidental."""
        root = self.root
        if root is None:
            return ()
        core = len(self.degrees) - len(self.tensions)
        names = tuple(name_over(root, degree) for degree in self.degrees)
        return names[:core] + tuple(plain_name(name) for name in names[core:])

    @property
    def pitch_classes(self) -> frozenset[int]:
        """The pitch classes of the chord tones, without the slash bass."""
        return frozenset(tone.pitch_class for tone in self.tones)

    @property
    def meaning(self) -> tuple[object, ...]:
        """Everything that the chord means, but not how it is written: equal for chords of one meaning."""
        return self.root, self.third, self.fifth, self.seventh, self.tensions, self.bass, self.altered

    @property
    def family(self) -> str:
        """The family, a key of `tables.degrees.FAMILY_DEGREES`, by which the degrees of notes are named."""
        if self.third in ("4", "2"):
            return "suspended"
        if self.seventh == "bb7":
            return "diminished"
        if self.third == "b3":
            if self.fifth != "b5":
                return "minor"
            return "half-diminished" if self.seventh == "b7" else "diminished"
        return "dominant" if self.seventh == "b7" else "major"

    def degree_of(self, pitch_class: int) -> str:
        """Return the degree that a sounding pitch class is over this chord, such as "b9"; "" over N.C.

        What the symbol names keeps the symbol's name: A over Db7#5 is the #5, and Gb over C7b5 the b5.
        """
        if self.root is None:
            return ""
        semitones = (pitch_class - self.root.pitch_class) % 12
        for degree in (self.fifth, *self.tensions):
            if degree and degree_interval(degree).semitones % 12 == semitones:
                return degree
        degree = FAMILY_DEGREES[self.family][semitones]
        if degree in ("13", "bb7") and self.seventh == "6":
            return "6"
        return degree

    def transposed(self, interval: Interval) -> Chord:
        """Return the chord moved by an interval; the author's way of writing its quality is kept."""
        if self.root is None:
            return self
        root = self.root + interval
        bass = None if self.bass is None else self.bass + interval
        slash = "" if bass is None else f"/{bass}"
        return replace(self, text=f"{root}{self.split_text()[1]}{slash}", root=root, bass=bass)

    def split_text(self) -> tuple[str, str]:
        """Return the author's text divided into root and quality, without a slash bass: ("Bb", "m7b5")."""
        if self.root is None:
            return self.text, ""
        body = self.text if self.bass is None else self.text.rpartition("/")[0]
        length = 1
        while length < len(body) and body[length] in "b#♭♯𝄫𝄪x♮":
            length += 1
        return body[:length], body[length:]


def name_over(root: NoteName, degree: str) -> NoteName:
    """Return the name of a degree over a root, spelled by the degree's letter.

    A #9 is written as the minor third, as players write it: G over E, and not F double sharp (common
    practice).
    """
    return root + degree_interval("b3" if degree == "#9" else degree)


def plain_name(name: NoteName) -> NoteName:
    """Return a name without a double accidental, by another letter where need be: G for F##."""
    while abs(name.alteration) > 1:
        name = NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name


_AWKWARD = tuple(NoteName.parse(text) for text in ("E#", "B#", "Cb", "Fb"))


def easy_name(name: NoteName) -> NoteName:
    """Return the name of the same sound that is read most quickly: F for E#, and no double accidental."""
    name = plain_name(name)
    if name in _AWKWARD:
        return NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name
