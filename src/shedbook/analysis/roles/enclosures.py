"""Enclosures: two, three or four notes that wrap round a target from both sides."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, SCALE
from shedbook.analysis.roles.costs import COST
from shedbook.analysis.roles.nodes import Line, Node
from shedbook.analysis.roles.reasons import Explanation, fills_a_step
from shedbook.analysis.roles.role_names import ENCLOSURE

_COSTS = {2: COST.enclosure_of_two, 3: COST.enclosure_of_three, 4: COST.enclosure_of_four}
"""What an enclosure costs, by how many notes it has before its target."""

_SMALLEST_LEAP = 3
"""The smallest step of an arpeggio, in semitones."""

_WIDEST = 2
"""The farthest that a note of an enclosure lies from its target, in semitones."""


def enclosures(line: Line, index: int) -> Iterator[Explanation]:
    """Yield the enclosures of two, three and four notes that begin at a node."""
    nodes, first = line.nodes, line.nodes[index]
    if not first.joined or not _short(first):
        return
    for size in _COSTS:
        target = index + size
        if target >= len(nodes) or not nodes[target - 1].joined:
            return
        goal = nodes[target].midi
        if not 1 <= abs(first.midi - goal) <= _WIDEST or _in_arpeggio(line, index):
            continue
        members = nodes[index:target]
        offsets = [node.midi - goal for node in members]
        if not _wraps(offsets) or not all(_short(node) for node in members):
            continue
        if size == 2:
            yield from _pair(line, index, offsets)
        else:
            yield from _longer(line, index, offsets)


def _in_arpeggio(line: Line, index: int) -> bool:
    """Whether a chord tone is reached by leap from another and left by leap in the same direction."""
    if index == 0 or not line.joined(index - 1, index + 1):
        return False
    before, node = line.nodes[index - 1 : index + 1]
    if not before.membership == CHORD == node.membership or before.span != node.span:
        return False
    leaps = min(abs(before.step), abs(node.step)) >= _SMALLEST_LEAP
    return leaps and before.step * node.step > 0


def _in_scale_of(line: Line, target: int, node: Node) -> bool:
    """Whether a node is a chord or scale tone where the target stands."""
    return line.spans[line.nodes[target].span].membership(node.midi % 12) != OUTSIDE


def _wraps(offsets: list[int]) -> bool:
    """Whether notes at these distances from a target lie near it on both sides and come nearer."""
    if 0 in offsets or not -_WIDEST <= min(offsets) < 0 < max(offsets) <= _WIDEST:
        return False
    return all(before * after < 0 or abs(after) < abs(before) for before, after in pairwise(offsets))


def _short(node: Node) -> bool:
    """Whether a node is short enough to be heard as decoration, and not held over a strong beat."""
    return node.size <= 0 and not node.early


def _firm(line: Line, index: int) -> bool:
    """Whether a node stands on a strong beat or arrives with its chord."""
    return line.nodes[index].strong or line.nodes[index].opens_span


def _pair(line: Line, index: int, offsets: list[int]) -> Iterator[Explanation]:
    """Yield the enclosure of two notes, one on each side; both may be inside if the target stands firm."""
    target = index + 2
    goal = line.nodes[target]
    members = line.nodes[index : index + 2]
    all_inside = all(node.inside for node in members)
    if all_inside and not (goal.strong or (goal.inside and _firm(line, target))):
        return
    if goal.membership == SCALE and all(_in_scale_of(line, target, node) for node in members):
        return  # two scale tones round a colour are melody
    cost = _COSTS[2] + _surcharges(line, target)
    if all_inside:
        crosses = members[-1].start // line.bar != goal.arrival // line.bar or members[-1].span != goal.span
        if min(abs(offset) for offset in offsets) == _WIDEST and not crosses:
            cost += COST.wide_inside_pair
        if index and line.nodes[index - 1].joined and line.nodes[index - 1].midi == goal.midi:
            cost += COST.turn
    for node, offset in zip(members, offsets, strict=True):
        if not node.inside and abs(offset) == _WIDEST:
            cost += COST.wide_outside_note
    yield Explanation(ENCLOSURE, index, index + 1, target, cost, _sides(offsets))


def _longer(line: Line, index: int, offsets: list[int]) -> Iterator[Explanation]:
    """Yield the enclosure of three or four notes, at least one of which is outside.

    A lone outside note between two scale tones in one direction is a passing note, so an enclosure that
    holds one is offered only where it wraps a core chord tone on a strong beat from the other side first.
    """
    target = index + len(offsets)
    places = range(index, target)
    if all(line.nodes[place].inside for place in places):
        return
    if any(fills_a_step(line, place) for place in places):
        in_place = fills_a_step(line, target - 1) and not any(fills_a_step(line, p) for p in places[:-1])
        if not (in_place and line.in_core(target) and _firm(line, target)):
            return
    cost = _COSTS[len(offsets)] + _surcharges(line, target)
    first = line.nodes[index]
    if first.inside and first.strong:
        cost += COST.opens_on_a_strong_beat
    before = line.nodes[index - 1] if index else None
    if before is not None and before.joined and abs(before.step) <= 2 and before.step * first.step > 0:
        cost += COST.opens_inside_a_run
    yield Explanation(ENCLOSURE, index, target - 1, target, cost, _sides(offsets))


def _surcharges(line: Line, target: int) -> int:
    """Return the points that the place and the kind of the target add."""
    goal = line.nodes[target]
    cost = 0 if goal.membership == CHORD else COST.target_is_a_colour
    if not goal.inside:
        cost += COST.target_outside
    if not _firm(line, target):
        cost += COST.target_on_a_weak_beat if goal.accent >= 2 else COST.target_off_the_beat
    return cost


def _sides(offsets: list[int]) -> str:
    """Say from where the notes close in, for instance "two notes: below, above"."""
    count = ("two", "three", "four")[len(offsets) - 2]
    return f"{count} notes: " + ", ".join("above" if offset > 0 else "below" for offset in offsets)
