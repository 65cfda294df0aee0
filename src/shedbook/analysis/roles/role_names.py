"""The names of the roles: what a note does in the line [the project's vocabulary, after common practice]."""

from __future__ import annotations

CHORD_TONE, SCALE_TONE, PASSING, NEIGHBOUR = "chord tone", "scale tone", "passing note", "neighbour"
APPROACH, ENCLOSURE, ANTICIPATION, SUSPENSION = "approach note", "enclosure", "anticipation", "suspension"
LEANING, ESCAPE, BLUE, PEDAL = "leaning note", "escape note", "blue note", "pedal"
UNACCOUNTED = "unaccounted"

ROLES = (
    CHORD_TONE, SCALE_TONE, PASSING, NEIGHBOUR, APPROACH, ENCLOSURE, ANTICIPATION, SUSPENSION,
    LEANING, ESCAPE, BLUE, PEDAL, UNACCOUNTED,
)  # fmt: skip
"""The names of the roles, in the order of the vocabulary."""

THIRD_BENT = "curl between the thirds"
"""The detail of a blue note that is the major third beside the minor third of its chord."""

SUPERIMPOSED = "superimposed triad"
"""The detail of notes that escape together, as a triad that the line lays over the chord."""

MAJOR_SEVENTH_OF_MINOR = "the major seventh of the minor"
"""The detail of a blue note that is the major seventh over a minor seventh chord."""

INCOMPLETE = "incomplete neighbour"
"""What the detail of an escape note ends with that is left in the direction in which it was reached."""

HELD_OVER = "held"
"""The detail of an anticipation or a suspension that lies over the change of chord."""
