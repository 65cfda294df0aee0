"""How a phrase is heard, before anything is said of what its notes do.

Lives here: the harmony of the changes, the place that each note stands for, the scale over each change, the
spans of one chord and scale, and every note as it is heard against its span. May import `phrase` and
the floors below it; no other room of the analysis.
"""

from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.hearing.harmony import ChordScale, Harmony, harmony_of

__all__ = ["ChordScale", "Harmony", "Span", "harmony_of"]
