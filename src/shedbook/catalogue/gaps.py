"""What a catalogue lacks: levels at which a scale is not used over a progression, and what is never used."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from shedbook.analysis.account.difficulty import HIGHEST_LEVEL
from shedbook.catalogue.entry import PROGRESSION, SCALE
from shedbook.catalogue.index_file import IndexFile
from shedbook.theory.progression import progression_names


class Gap(NamedTuple):
    """Something that no phrase of the catalogue has.

    `scale` and `level` are "" and 0 where there is no phrase over the progression at all; `phrases` counts
    those that have the progression and the scale at other levels, which is how much the gap is felt.
    """

    progression: str
    scale: str = ""
    level: int = 0
    phrases: int = 0


def gaps(index: IndexFile, *, least: int = 2) -> tuple[Gap, ...]:
    """Return what is lacking: first the levels, most felt first, then the progressions that are never used.

    Args:
        index: the catalogue.
        least: a scale that fewer phrases use over a progression is no custom there, and is passed over.
    """
    counts: defaultdict[tuple[str, str], dict[int, int]] = defaultdict(dict)
    for progression, scale, level, many in index.rows(
        "SELECT p.name, s.name, level, count(DISTINCT p.phrase) FROM term p JOIN term s USING (phrase)"
        " JOIN phrase USING (phrase) WHERE p.kind = ? AND s.kind = ? AND level > 0 GROUP BY 1, 2, 3",
        (PROGRESSION, SCALE),
    ):
        counts[str(progression), str(scale)][int(str(level))] = int(str(many))
    found = [
        Gap(progression, scale, level, sum(levels.values()))
        for (progression, scale), levels in counts.items()
        for level in range(1, HIGHEST_LEVEL + 1)
        if level not in levels and sum(levels.values()) >= least
    ]
    found.sort(key=lambda gap: (-gap.phrases, gap))
    used = {progression for progression, _ in counts}
    return (*found, *(Gap(name) for name in progression_names() if name not in used))
