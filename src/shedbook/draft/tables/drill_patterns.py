"""The patterns that a scale is practised by; a drill of a book and of the command is one row on one scale.

Row format: name; aliases; the cell as steps of the scale above its first note (0 is that note); by how many
steps the cell moves on; the kind: "cells" go up and then down by the mirrored cell, "enclosed" and "from
below"
decorate every note, "symmetric" moves the cell by the scale's own period, "grouped" accents groups of so many
notes of the plain scale, "displaced" accents every so many notes of it; how many notes fill a beat; octaves
at
most; the level of difficulty from 1 to 5; source. What a reader is told stands among the words of the book,
under "drill." and the name.
"""

from __future__ import annotations

from typing import NamedTuple


class PatternRow(NamedTuple):
    """One pattern."""

    name: str
    aliases: tuple[str, ...]
    cell: tuple[int, ...]
    step: int
    kind: str
    to_a_beat: int
    octaves: int
    level: int
    source: str


_TRADE = "common practice"

PATTERNS: tuple[PatternRow, ...] = (
    PatternRow("up and down", ("scale", "whole range"), (0,), 1, "cells", 2, 2, 1, _TRADE),
    PatternRow("in thirds", ("thirds",), (0, 2), 1, "cells", 2, 2, 2, _TRADE),
    PatternRow("in fourths", ("fourths",), (0, 3), 1, "cells", 2, 2, 3, _TRADE),
    PatternRow("in fifths", ("fifths",), (0, 4), 1, "cells", 2, 2, 3, _TRADE),
    PatternRow("in sixths", ("sixths",), (0, 5), 1, "cells", 2, 2, 4, _TRADE),
    PatternRow("in sevenths", ("sevenths",), (0, 6), 1, "cells", 2, 2, 4, _TRADE),
    PatternRow("in triads", ("triads",), (0, 2, 4), 1, "cells", 3, 2, 3, _TRADE),
    PatternRow("in seventh chords", ("seventh chords",), (0, 2, 4, 6), 1, "cells", 2, 2, 4, _TRADE),
    PatternRow("in groups of three", ("threes",), (0, 1, 2), 1, "cells", 3, 2, 2, _TRADE),
    PatternRow("in groups of four", ("fours", "1 2 3 4"), (0, 1, 2, 3), 1, "cells", 2, 2, 2, _TRADE),
    PatternRow("in groups of five", ("fives", "1 2 3 4 5"), (0, 1, 2, 3, 4), 1, "cells", 2, 1, 4, _TRADE),
    PatternRow("1 2 3 5", ("1235", "four-note groups"), (0, 1, 2, 4), 1, "cells", 2, 2, 2, _TRADE),
    PatternRow("enclosed", ("enclosures", "with enclosures"), (0,), 1, "enclosed", 2, 1, 3, _TRADE),
    PatternRow("from below", ("approached", "approaches"), (0,), 1, "from below", 2, 2, 3, _TRADE),
    PatternRow("symmetric cells", ("symmetric", "cells"), (0, 2, 1, 3), 0, "symmetric", 2, 2, 3, _TRADE),
    PatternRow("grouped in three", ("accents in three",), (0,), 3, "grouped", 2, 2, 3, _TRADE),
    PatternRow("grouped in five", ("accents in five",), (0,), 5, "grouped", 2, 2, 4, _TRADE),
    PatternRow("grouped in seven", ("accents in seven",), (0,), 7, "grouped", 2, 2, 4, _TRADE),
    PatternRow("off the beat", ("accents displaced", "displaced"), (0,), 2, "displaced", 2, 2, 2, _TRADE),
)
