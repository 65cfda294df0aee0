"""The words of MusicXML for what a phrase can hold, and for what it cannot.

The row format stands at each table. The source of all tables but `SWINGS` and `CALLED` is MusicXML 4.0; those
two are common practice.
"""

from __future__ import annotations

from typing import NamedTuple

PARTS: tuple[tuple[str, int], ...] = (
    ("whole", 1),
    ("half", 2),
    ("quarter", 4),
    ("eighth", 8),
    ("16th", 16),
    ("32nd", 32),
)
"""`note-type-value`, and the part of a whole note that it is."""

ACCIDENTALS: tuple[tuple[int, str], ...] = (
    (-3, "triple-flat"),
    (-2, "flat-flat"),
    (-1, "flat"),
    (0, "natural"),
    (1, "sharp"),
    (2, "double-sharp"),
    (3, "triple-sharp"),
)
"""An alteration in half steps, and its `accidental-value`."""


class ArticulationRow(NamedTuple):
    """One articulation: its element, the marks that it becomes, and whether the marks say all of it."""

    element: str
    marks: tuple[str, ...]
    exact: bool


ARTICULATIONS: tuple[ArticulationRow, ...] = (
    # The first row of each single mark is the one that is written.
    ArticulationRow("accent", ("accent",), True),
    ArticulationRow("staccato", ("staccato",), True),
    ArticulationRow("tenuto", ("tenuto",), True),
    ArticulationRow("falloff", ("fall",), True),
    ArticulationRow("scoop", ("scoop",), True),
    ArticulationRow("strong-accent", ("accent",), False),
    ArticulationRow("staccatissimo", ("staccato",), False),
    ArticulationRow("spiccato", ("staccato",), False),
    ArticulationRow("detached-legato", ("staccato", "tenuto"), True),
    ArticulationRow("stress", ("accent",), False),
)


CALLED: tuple[tuple[str, str], ...] = (
    ("lyric", "lyrics"),
    ("fermata", "fermatas"),
    ("dynamics", "dynamics"),
    ("wedge", "hairpins"),
    ("pedal", "pedal marks"),
    ("ornaments", "ornaments"),
    ("technical", "fingerings and playing techniques"),
    ("glissando", "glissandi"),
    ("slide", "slides"),
    ("arpeggiate", "arpeggio signs"),
    ("non-arpeggiate", "arpeggio signs"),
    ("doit", "doits"),
    ("plop", "plops"),
    ("breath-mark", "breath marks"),
    ("caesura", "caesuras"),
    ("figured-bass", "figured bass"),
    ("other-articulation", "other articulations"),
    ("other-notation", "other notations"),
    ("other-direction", "other directions"),
)
"""Elements that a phrase cannot hold, and what musicians call them."""

PASSED_OVER = (
    "tied", "tuplet", "slur", "articulations", "octave-shift", "dashes", "bracket", "metronome", "words",
    "rehearsal", "accidental-mark", "principal-voice", "staff-divide", "segno", "coda",
)  # fmt: skip
"""Elements that need no remark: other modules read them, or they say nothing that is heard."""
