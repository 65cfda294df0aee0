"""How notation files name what a phrase can hold.

Row formats stand at each table; the source of all but the last two is MusicXML 4.0.
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
"""`note-type-value` and the part of a whole note."""


class ArticulationRow(NamedTuple):
    """One articulation: its element, the marks that it becomes, and whether they say all of it."""

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
"""Elements that a phrase cannot hold, and what a musician calls them."""

PASSED_OVER = (
    "tied", "tuplet", "slur", "articulations", "octave-shift", "dashes", "bracket", "metronome", "words",
    "rehearsal", "accidental-mark", "principal-voice", "staff-divide", "segno", "coda",
)  # fmt: skip
"""Elements that are read elsewhere, or say nothing that is heard."""
