"""How a score looks: real sizes in millimetres, and the sizes of lettering relative to the staff."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shedbook.engrave.notation.mei_score import CLEFS
from shedbook.errors import RenderError

SPACE = 180
"""A staff space in drawing units, the units of Verovio's pictures; the staff is four spaces high."""


@dataclass(frozen=True, slots=True)
class ScoreStyle:
    """The look of every score of an edition.

    Attributes:
        staff_mm: the height of the staff. Players' parts usually have 7 mm, and 6.5 mm at the least (piano
            style guides).
        width_mm: the length of the longest line, without the margin.
        label_mm: the width of the margin at the left, in which the name of the key stands.
        label: the name of the key, such as "B♭ minor"; "" for none.
        clef: one of `mei_score.CLEFS`.
        signature: whether the key signature is printed.
        courtesy: a rule of `editions.spelling.courtesy_accidentals.COURTESY_RULES`.
        tempo: whether the feel and the tempo stand over the score.
        feel: the words beside the tempo, where the phrase's own feel is not wanted.
        quiet: whether feel and tempo are set in thinner and smaller letters.
        fill: whether every line is as long as `width_mm`, however few notes stand on it.
        column_mm: the shorter line on which a phrase of one or two bars is set where it goes on one; 0 for
            none.
        most_white: the most white between two systems, in staff spaces.
        prefix: opens every id of the picture: a letter, then letters and digits.

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
    fill: bool = False
    column_mm: float = 0.0
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


# The em of each kind of lettering, in drawing units.
CHORD_EM = 2.45 * SPACE
DEGREE_EM = 1.5 * SPACE
SCALE_EM = 1.55 * SPACE
TEMPO_EM = 1.65 * SPACE
QUIET_TEMPO_EM = 1.4 * SPACE
NUMBER_EM = 1.4 * SPACE
LABEL_EM = 2.3 * SPACE
