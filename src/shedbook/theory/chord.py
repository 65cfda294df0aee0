"""Chords: what a symbol means, taken apart into third, fifth, seventh and tensions.

Conventions: degrees are text such as "b9"; the root comes first and a slash bass stands apart. "N.C."
(no chord) has no root and no degrees. How a symbol is read and printed is `chord_symbol`'s business.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.degrees import FAMILY_DEGREES


@dataclass(frozen=True, slots=True)
class Chord:
    """One chord.

    `third` is "3", "b3", "4" or "2" (suspended) or "" (omitted); `fifth` is "5", "b5", "#5" or "";
    `seventh` is "7", "b7", "bb7", "6" or ""; `tensions` are degrees in ascending order ("b9", "9",
    "#9", "11", "#11", "b13", "13"). `altered` marks a chord written "alt". `text` is what the author wrote.
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
        """The degrees that the symbol names, root first, tensions last; empty for N.C."""
        if self.root is None:
            return ()
        core = ("1", self.third, self.fifth, self.seventh)
        return tuple(degree for degree in core if degree) + self.tensions

    @property
    def tones(self) -> tuple[NoteName, ...]:
        """The spelled chord tones, in the order of `degrees`; no tension has a double accidental."""
        root = self.root
        if root is None:
            return ()
        core = len(self.degrees) - len(self.tensions)
        names = tuple(name_over(root, degree) for degree in self.degrees)
        return names[:core] + tuple(plain_name(name) for name in names[core:])

    @property
    def pitch_classes(self) -> frozenset[int]:
        """The pitch classes of the chord tones, the slash bass not among them."""
        return frozenset(tone.pitch_class for tone in self.tones)

    @property
    def meaning(self) -> tuple[object, ...]:
        """What the chord means without the author's way of writing it, to compare."""
        return self.root, self.third, self.fifth, self.seventh, self.tensions, self.bass, self.altered

    @property
    def family(self) -> str:
        """The row of the degree table: dominant, major, minor, half-diminished, diminished, suspended."""
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
        """Return what a sounding pitch class is over this chord ("b9", "3", …); "" over N.C."""
        if self.root is None:
            return ""
        degree = FAMILY_DEGREES[self.family][(pitch_class - self.root.pitch_class) % 12]
        if degree in ("13", "bb7") and self.seventh == "6":
            return "6"
        return degree

    def transposed(self, interval: Interval) -> Chord:
        """Return the chord moved by an interval; `text` keeps the author's way of writing the kind."""
        if self.root is None:
            return self
        root = self.root + interval
        bass = None if self.bass is None else self.bass + interval
        slash = "" if bass is None else f"/{bass}"
        return replace(self, text=f"{root}{self.split_text()[1]}{slash}", root=root, bass=bass)

    def split_text(self) -> tuple[str, str]:
        """Return the author's text as root and kind, without a slash bass: ("Bb", "m7b5")."""
        if self.root is None:
            return self.text, ""
        body = self.text if self.bass is None else self.text.rpartition("/")[0]
        length = 1
        while length < len(body) and body[length] in "b#♭♯𝄫𝄪x♮":
            length += 1
        return body[:length], body[length:]


def name_over(root: NoteName, degree: str) -> NoteName:
    """Return the note name of a degree over a root, spelled by the degree's letter.

    #9 is the plain minor third, as players write it: G over E, never F double sharp.
    """
    return root + degree_interval("b3" if degree == "#9" else degree)


def plain_name(name: NoteName) -> NoteName:
    """Return the plain name of what a double accidental stands for (F## is G); other names as they are."""
    while abs(name.alteration) > 1:
        name = NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name


_AWKWARD = tuple(NoteName.parse(text) for text in ("E#", "B#", "Cb", "Fb"))


def easy_name(name: NoteName) -> NoteName:
    """Return the name that is read most quickly: no double accidental, and none of E#, B#, Cb and Fb."""
    name = plain_name(name)
    if name in _AWKWARD:
        return NoteName(name.fifths - 12 if name.alteration > 0 else name.fifths + 12)
    return name
