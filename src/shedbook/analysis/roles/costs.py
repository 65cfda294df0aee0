"""The costs of explanations by name, in points, as the reasons read them.

The rows stand in `tables.role_costs`. That every field here has its row, and every row its field, is checked
when this module is imported.
"""

from __future__ import annotations

from typing import NamedTuple

from shedbook.analysis.roles.tables.role_costs import COSTS
from shedbook.table_index import Rows


class RoleCosts(NamedTuple):
    """What explanations and surcharges cost; a field is called as its row is, with underscores."""

    chord_tone: int
    scale_tone: int
    passing_note: int
    passing_by_whole_steps: int
    two_passing_notes: int
    three_passing_notes: int
    neighbour: int
    scale_neighbour: int
    approach_note: int
    double_approach: int
    double_approach_to_a_strong_beat: int
    whole_step_approach: int
    scale_step_approach: int
    delayed_approach: int
    leaning_note: int
    leaning_scale_tone: int
    suspension: int
    anticipation: int
    escape_note: int
    blue_note: int
    bent_third: int
    major_seventh_of_a_minor_chord: int
    incomplete_neighbour: int
    superimposed_triad: int
    pedal: int
    heard_early: int
    unaccounted: int
    enclosure_of_two: int
    enclosure_of_three: int
    enclosure_of_four: int
    target_is_a_colour: int
    target_on_a_weak_beat: int
    target_off_the_beat: int
    target_outside: int
    approach_off_the_beat: int
    accented_approach: int
    wide_inside_pair: int
    wide_outside_note: int
    turn: int
    opens_on_a_strong_beat: int
    opens_inside_a_run: int
    long_outside_note: int


_ROWS = Rows(
    "costs of explanations",
    "src/shedbook/analysis/roles/tables/role_costs.py",
    [(row.name.replace(" ", "_").replace("-", "_"), row.cost) for row in COSTS],
)
_ROWS.must_be(RoleCosts._fields, "a field of RoleCosts in src/shedbook/analysis/roles/costs.py")

COST = RoleCosts(**_ROWS)
"""The costs of the table."""
