"""What each explanation of a note costs: the one table that the optimiser of roles reads.

Row format: name; cost in points; why; source. A role's cost is paid once for all the notes it explains;
the surcharges are added to it. The cheapest set of explanations of the whole phrase wins, so only the
differences count: an enclosure that costs less than two chord tones wins over them, an approach note that
costs more than a passing note is chosen where no passing note is possible.
"""

from __future__ import annotations

from typing import NamedTuple


class CostRow(NamedTuple):
    """One explanation or surcharge and its cost in points."""

    name: str
    cost: int
    why: str
    source: str


_DESIGN = "the project's design"
_COMMON = "common practice"

COSTS: tuple[CostRow, ...] = (
    # Explanations of one note.
    CostRow("chord tone", 20, "a note of the chord needs no reason beyond that", _COMMON),
    CostRow("scale tone", 30, "a note of the scale is at home, but says less", _COMMON),
    CostRow("passing note", 30, "an outside note that fills the step between scale tones", _DESIGN),
    CostRow("passing by whole steps", 38,
            "an outside note between two scale tones, by steps that are not all half steps", _COMMON),
    CostRow("two passing notes", 55, "two outside notes in a row, by half steps", _COMMON),
    CostRow("three passing notes", 80, "three outside notes in a row, by half steps", _COMMON),
    CostRow("neighbour", 30, "leaves a note by step and comes back to it", _COMMON),
    CostRow("scale neighbour", 28, "a scale tone between a chord tone and its return", _COMMON),
    CostRow("approach note", 40, "an outside note a half step from the note it leads to", _COMMON),
    CostRow("double approach", 60, "two half steps in one direction into a target", _COMMON),
    CostRow("double approach to a strong beat", 55, "the pull of two half steps is strongest there", _COMMON),
    CostRow("whole-step approach", 90, "an outside note a whole step from its target pulls less", _COMMON),
    CostRow("scale-step approach", 25,
            "a short scale tone reached by leap, a step from a core chord tone on a strong beat", _COMMON),
    CostRow("delayed approach", 85, "the half step arrives after one note between", _COMMON),
    CostRow("leaning note", 40, "accented, resolved by step within a beat", _DESIGN),
    CostRow("leaning scale tone", 25,
            "a scale tone a half step above a chord tone, accented, resolved by step", _COMMON),
    CostRow("suspension", 15, "kept from the chord before, resolved by step downwards", _COMMON),
    CostRow("anticipation", 15,
            "belongs to the next chord and not to this one, and stays: held, repeated or alone", _DESIGN),
    CostRow("escape note", 80, "reached by step, left by leap the other way", _COMMON),
    CostRow("blue note", 70,
            "the lowered third or fifth over a dominant, a major chord or a blues, the lowered seventh over "
            "major, the lowered fifth over minor", _COMMON),
    CostRow("bent third", 75,
            "the major third beside the minor third of a minor chord, as it is bent", _COMMON),
    CostRow("major seventh of a minor chord", 100,
            "over a minor seventh chord: the line takes it for a minor tonic", _COMMON),
    CostRow("incomplete neighbour", 110, "a half step from the note before it, left by leap", _COMMON),
    CostRow("superimposed triad", 220,
            "three notes that are a triad of their own, two of them outside at least", _COMMON),
    CostRow("pedal", 60, "a note kept on while the chords move under it", _COMMON),
    CostRow("heard early", 60, "an outside note that is a chord tone of the next chord", _COMMON),
    CostRow("unaccounted", 400, "dearer than any explanation, so that it is the last resort", _DESIGN),
    # Explanations of several notes round a target.
    CostRow("enclosure of two", 20, "one note on each side of a target on a strong beat", _DESIGN),
    CostRow("enclosure of three", 40, "three notes that close in from both sides", _DESIGN),
    CostRow("enclosure of four", 55, "two notes on each side, each pair closing in", _DESIGN),
    # Surcharges.
    CostRow("target is a colour", 5, "a target that is no chord tone holds the ear less", _COMMON),
    CostRow("target on a weak beat", 25, "the pull is weaker away from the strong beats", _COMMON),
    CostRow("target off the beat", 45, "and weaker still between the beats", _COMMON),
    CostRow("target outside", 10, "a chromatic target has to be explained in its turn", _DESIGN),
    CostRow("approach off the beat", 5, "an approach to a note between the beats", _COMMON),
    CostRow("accented approach", 20, "an accented outside note leans: it hardly approaches or turns",
            _COMMON),
    CostRow("wide inside pair", 25, "scale tones a whole step off on both sides may be melody", _COMMON),
    CostRow("wide outside note", 40, "an outside note a whole step off hardly points to its target", _COMMON),
    CostRow("turn", 15, "scale tones round a note just heard may be a turn", _COMMON),
    CostRow("opens on a strong beat", 20, "a first note that stands on a strong beat has weight of its own",
            _COMMON),
    CostRow("opens inside a run", 15, "a first note that continues a run belongs to the run", _COMMON),
    CostRow("long outside note", 30, "an outside note longer than a beat is heard for itself", _COMMON),
)  # fmt: skip

CLOSE = 15
"""A rival explanation at most this many points dearer is told as the runner-up."""

SAME_IN_SEQUENCE = 40
"""How much cheaper an explanation is in a cell that comes again, where the cell before it has the same.
Source: the project's design."""
