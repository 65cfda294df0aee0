"""What a spelling costs the reader: whole numbers, the least total wins.

Row format: name; cost; why; source. The source is that of the rule; how much it weighs was settled by
holding the hand-written examples of the tests against one another.
"""

from __future__ import annotations

from typing import NamedTuple


class CostRow(NamedTuple):
    """One cost."""

    name: str
    cost: int
    why: str
    source: str


_PRACTICE = "common practice"
_DESIGN = "the project's design"
_GOULD = "Gould 2011, Behind Bars, on accidentals; from memory"
_FIFTHS = "distance on the line of fifths, Temperley 2001; from memory"

NOTE_COSTS: tuple[CostRow, ...] = (
    # One note by itself, against its chord, its scale and its key.
    CostRow("against chord", 12, "third, fifth and seventh are read by the chord's own letters", _PRACTICE),
    CostRow("against diminished", 5, "a diminished seventh goes by the key or by plain letters", _PRACTICE),
    CostRow("against tension", 4, "a named tension is read nearly like a chord tone", _PRACTICE),
    CostRow("against scale", 4, "a note of the chord scale has the scale's letter", _PRACTICE),
    CostRow("against key", 4, "where chord and scale are silent the key names its own notes", _PRACTICE),
    CostRow("against degree", 2, "outside notes and tensions of alt incline to their degree", _PRACTICE),
    CostRow("own letter", 1, "#9 is the plain minor third, unless it rises to the third", _DESIGN),
    CostRow("double accidental", 24, "no double accidental where a plain name serves", _GOULD),
    CostRow("odd white chord", 2, "Cb, Fb, E#, B# as a third, fifth or seventh is expected", _PRACTICE),
    CostRow("odd white key", 1, "Cb in G flat major, E# in F sharp major belong to the key", _PRACTICE),
    CostRow("odd white tension", 5, "Cb, Fb, E#, B# as a tension serve in a scale line", _PRACTICE),
    CostRow("odd white", 12, "elsewhere they stop a player", _PRACTICE),
    CostRow("against signature", 1, "a bar inclines to the side, sharp or flat, of its key", _PRACTICE),
    # What the author wrote, moved by the interval from key to key.
    CostRow("against author", 20, "the author's letters are kept wherever they are readable", _DESIGN),
    CostRow("against odd author", 6, "Cb, Fb, E#, B# may give way where chord and key lack them", _DESIGN),
    CostRow("stumble", 15, "what one other name must save before the proof-reader speaks of it", _DESIGN),
    # Two neighbours in the line.
    CostRow("chromatic half step", 2, "F F#: one letter with two accidentals in a row", _GOULD),
    CostRow("augmented or diminished", 2, "augmented second, fifth, and inversions read slowly", _FIFTHS),
    CostRow("diminished third", 8, "a step written as a third hides the line: A# C for A# B#", _FIFTHS),
    CostRow("augmented third", 6, "augmented third, diminished sixth: even less so", _FIFTHS),
    CostRow("one pitch two names", 12, "one sounding pitch struck again keeps its name", _PRACTICE),
    CostRow("beyond", 16, "anything farther along the line of fifths", _FIFTHS),
    # Where a note goes by half step: the letter should change into the goal.
    CostRow("leaving outside", 8, "the letter changes into the goal: rising C# D, falling Eb D", _PRACTICE),
    CostRow("leaving scale", 2, "the same of a scale tone, which has a letter of its own", _PRACTICE),
    # One bar.
    CostRow("mixed bar", 2, "sharps and flats in one bar without cause", _PRACTICE),
    CostRow("renamed in bar", 2, "a pitch that comes again in one bar keeps its name", _PRACTICE),
)  # fmt: skip

CHORD_COSTS: tuple[CostRow, ...] = (
    CostRow("double root", 24, "no root has a double accidental", _PRACTICE),
    CostRow("odd root", 16, "no Fb7 and no B#m where a plain name serves", _PRACTICE),
    CostRow("odd root in key", 8, "Cb in G flat, E# in F sharp: the key's own degree", _PRACTICE),
    CostRow("double tone", 6, "a third, fifth or seventh that would need a double accidental", _PRACTICE),
    CostRow("odd tone", 2, "a third, fifth or seventh called Cb, Fb, E# or B#", _PRACTICE),
    CostRow("renamed root", 10, "a root keeps the letter of its function if it can", _PRACTICE),
    CostRow("root leap", 4, "neighbouring roots more than seven fifths apart look unrelated", _PRACTICE),
    CostRow("signature", 3, "for each accidental of a key that has two names", _PRACTICE),
    CostRow("broken fifth", 6, "falling fifths are written as fifths, one root by one name", _PRACTICE),
)  # fmt: skip
