"""How good a passage is to study: shares that the analysis counts, and how sure its ends are.

The weights stand in `tables.cutting_weights`.
"""

from __future__ import annotations

from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.account.landings import STRENGTHS
from shedbook.analysis.account.melodic_links import CHANGE
from shedbook.exchange.phrases.tables.cutting_weights import WEIGHTS
from shedbook.table_index import Rows

_WEIGHT = Rows(
    "weights of a passage",
    "src/shedbook/exchange/phrases/tables/cutting_weights.py",
    [(row.measure, row.weight) for row in WEIGHTS],
)
_WEIGHT.must_be(
    ("accounted", "landings", "links", "coverage", "whole", "played"), "the rank of a passage is made of it"
)
_WHOLE = 0.5


def rank_of(seen: Account, ends: tuple[float, float], played: tuple[int, int]) -> tuple[int, tuple[str, ...]]:
    """Return how good a passage is to study, 0 to 100, and in words what that is made of.

    Args:
        seen: the account of the passage.
        ends: how likely a phrase begins and ends where the passage does.
        played: over how many of its chords a note begins, and how many chords it has.
    """
    notes, landings = len(seen.notes), seen.landings
    crossings = [link for link in seen.links if link.kind == CHANGE and link.after is not None]
    smooth = sum(1 for link in crossings if link.by_step or link.guide or link.held is not None)
    used = sum(len(one.used) for one in seen.whole_coverage)
    degrees = used + sum(len(one.missing) for one in seen.whole_coverage)
    firm = [landing for landing in landings if landing.strength not in ("outside", "to pass through")]
    excused = [landing for landing in landings if landing.excuse and landing.excuse != "unaccounted"]
    strength = sum(landing.rank for landing in landings)
    shares = {
        "accounted": Fraction(seen.accounted, max(1, notes)),
        "landings": Fraction(strength, max(1, len(landings) * (len(STRENGTHS) - 1))),
        "links": Fraction(smooth, len(crossings)) if crossings else Fraction(1, 2),
        "coverage": Fraction(used, degrees) if degrees else Fraction(0),
        "whole": Fraction(round(100 * ends[0] * ends[1]), 100),
        "played": Fraction(played[0], max(1, played[1])) ** 2,
    }
    reasons = [
        f"{seen.accounted} of {notes} notes accounted for",
        f"{len(firm)} of {len(landings)} landings inside the chord scale"
        + (f", {len(excused)} more explained" if excused else ""),
    ]
    if ends[0] * ends[1] < _WHOLE:
        reasons.append("its beginning or end may lie inside a phrase")
    if played[0] < played[1]:
        reasons.append(f"played over {played[0]} of {played[1]} chords")
    if crossings:
        reasons.append(f"{smooth} of {len(crossings)} changes entered by step, guide tone or held note")
    if degrees:
        reasons.append(f"{used} of {degrees} degrees of its scales touched")
    return int(sum(_WEIGHT[name] * share for name, share in shares.items())), tuple(reasons)
