"""How a score looks: real sizes in millimetres, and the sizes of lettering relative to the staff."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shedbook.engrave.notation.mei_score import CLEFS
from shedbook.errors import RenderError

SPACE = 180
"""A staff space in drawing units; the staff is four spaces high."""


@dataclass(frozen=True, slots=True)
class ScoreStyle:
    """The look of every score of an edition.

    `staff_mm` is the height of the staff (7 mm is usual in players' parts, 6.5 mm the least: piano style
    guides), `width_mm` the longest line without the margin, `label_mm` the margin at the left in which the
    name of the key stands. `courtesy` is a rule of `editions.courtesy`. `feel` are the words that stand
    beside the tempo where the phrase's own are not wanted. A `quiet` score has its
    tempo in thin, smaller letters. `most_white` is the most white between two systems, in staff spaces.
    `prefix` opens every id of the
    picture; it is a letter, then letters and digits.

    Raises:
        RenderError: if the clef is not in the table or the prefix is no XML name.
    """

    staff_mm: float = 7.0
    width_mm: float = 170.0
    label_mm: float = 0.0
    label: str = ""
    clef: str = "G2"
    signature: bool = False
    courtesy: str = "none"
    tempo: bool = True
    feel: str = ""
    quiet: bool = False
    most_white: float = 1_000.0
    prefix: str = "s"

    def __post_init__(self) -> None:
        if self.clef not in CLEFS:
            raise RenderError(f'"{self.clef}" is not a clef.', hint=f"The clefs are {', '.join(CLEFS)}.")
        if re.fullmatch(r"[A-Za-z_][\w.-]*", self.prefix) is None:
            raise RenderError(f'"{self.prefix}" cannot open the ids of a picture.')

    @property
    def mm(self) -> float:
        """One drawing unit in millimetres."""
        return self.staff_mm / (4 * SPACE)


CHORD_EM = 2.45 * SPACE
DEGREE_EM = 1.5 * SPACE
SCALE_EM = 1.55 * SPACE
TEMPO_EM = 1.65 * SPACE
QUIET_TEMPO_EM = 1.4 * SPACE
NUMBER_EM = 1.4 * SPACE
LABEL_EM = 2.3 * SPACE
