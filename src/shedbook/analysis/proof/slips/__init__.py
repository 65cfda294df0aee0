"""Slips of the pen: what an author probably meant where a line goes as real lines hardly go.

Lives here: the line in whole numbers, what is looked at in it, the tables of what real lines do, the slips
that are suspected, and which of them are told. It is a noisy channel: how often a slip is made, times how
much likelier the mended line is. May import the rooms `account` and `hearing`, and `phrase` and `theory`;
the rules that put a suspicion into words stand in `proof.rules.slips`.
"""

from shedbook.analysis.proof.slips.choosing import severity_of, suspicions, told_odds
from shedbook.analysis.proof.slips.suspicions import Suspicion

__all__ = ["Suspicion", "severity_of", "suspicions", "told_odds"]
