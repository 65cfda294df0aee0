"""The reasons that one note, or a short chain of notes, can be given: what the search for roles chooses from.

Conventions: every function takes the line and the index of a node and yields the explanations that begin
there. An explanation covers the nodes `first` to `last`; its `target` is a node too. Costs come from the
one table. The enclosures stand in `enclosures`. The facts are common practice of harmony teaching.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, SCALE
from shedbook.analysis.roles.costs import COST
from shedbook.analysis.roles.nodes import Line
from shedbook.analysis.roles.role_names import (
    ANTICIPATION,
    APPROACH,
    CHORD_TONE,
    ESCAPE,
    HELD_OVER,
    INCOMPLETE,
    LEANING,
    NEIGHBOUR,
    PASSING,
    PEDAL,
    SCALE_TONE,
    SUSPENSION,
    UNACCOUNTED,
)


class Explanation(NamedTuple):
    """One reason for the nodes `first` to `last`: their role, what they lead to, and what it costs.

    `heard_next` says that the reason holds only when the node is heard against the next chord.
    """

    role: str
    first: int
    last: int
    target: int | None
    cost: int
    detail: str = ""
    heard_next: bool = False

    @property
    def lost(self) -> bool:
        """Whether this is the admission that there is no reason."""
        return self.role == UNACCOUNTED


def plain(line: Line, index: int) -> Iterator[Explanation]:
    """Yield chord tone, scale tone or no reason at all; an outside note may belong to the next chord."""
    node = line.nodes[index]
    if node.membership == CHORD:
        yield Explanation(CHORD_TONE, index, index, None, COST.chord_tone)
    elif node.membership == SCALE:
        between = _between_chord_tones(line, index)
        if between == NEIGHBOUR and not node.strong and node.size <= 0:
            side = "upper" if node.step < 0 else "lower"
            yield Explanation(NEIGHBOUR, index, index, index + 1, COST.scale_neighbour, side)
        else:
            yield Explanation(SCALE_TONE, index, index, None, COST.scale_tone, between)
    else:
        yield Explanation(UNACCOUNTED, index, index, None, COST.unaccounted)
        later = node.next_span if node.first == node.last else None
        if later is not None and line.in_chord(index, later) and _last_before(line, index):
            cost = COST.heard_early
            yield Explanation(CHORD_TONE, index, index, None, cost, "heard against the next chord", True)


def _between_chord_tones(line: Line, index: int) -> str:
    """Return "passing" or "neighbour" for a scale tone that a harmony book would call so, else ""."""
    if not line.joined(index - 1, index + 1):
        return ""
    before, node, after = line.nodes[index - 1 : index + 2]
    if not before.membership == CHORD == after.membership or max(abs(before.step), abs(node.step)) > 2:
        return ""
    if before.midi == after.midi:
        return NEIGHBOUR if node.step else ""
    return "passing" if before.step * node.step > 0 else ""


def anticipation(line: Line, index: int) -> Iterator[Explanation]:
    """Yield a note of the next chord only, struck just before it and held, repeated or followed by a rest."""
    node = line.nodes[index]
    held = node.early and node.span != node.span_at_start
    if held:
        here, there = node.span_at_start, node.span
    elif node.next_span is not None and node.first == node.last:
        here, there = node.span, node.next_span
    else:
        return
    if not held and not _last_before(line, index):
        return
    after = line.nodes[index + 1] if index + 1 < len(line.nodes) else None
    repeated = node.joined and after is not None and after.midi == node.midi
    if not (held or repeated or node.rest_after > 0):
        return
    pitch_class = node.midi % 12
    now, then = line.spans[here].membership(pitch_class), line.spans[there].membership(pitch_class)
    if (then == CHORD != now) or (now == OUTSIDE != then):
        how = HELD_OVER if held else "repeated" if repeated else "followed by a rest"
        target = index + 1 if repeated and not held else None
        yield Explanation(ANTICIPATION, index, index, target, COST.anticipation, how, not held)


def _last_before(line: Line, index: int) -> bool:
    """Whether a node is the last one struck before the next span."""
    node = line.nodes[index]
    if node.next_span is None or index + 1 >= len(line.nodes):
        return True
    return line.nodes[index + 1].start >= line.starts[node.next_span]


def passing(line: Line, index: int) -> Iterator[Explanation]:
    """Yield one to three outside notes in a row that fill a step, or half steps, between inside notes."""
    if index == 0 or not line.nodes[index - 1].joined or not line.nodes[index - 1].inside:
        return
    if line.nodes[index].inside:
        return
    way = line.nodes[index - 1].step
    for length, cost in ((1, COST.passing_note), (2, COST.two_passing_notes), (3, COST.three_passing_notes)):
        last = index + length - 1
        if last + 1 >= len(line.nodes) or not line.nodes[last].joined or line.nodes[last].inside:
            return
        if line.nodes[last].step * way <= 0:
            return
        if not line.nodes[last + 1].inside:
            continue
        if _fills(line, index, last):
            cost += _too_long(line, index)
            yield Explanation(PASSING, index, last, last + 1, cost, _direction(way))
        elif length == 1 and max(abs(way), abs(line.nodes[last].step)) <= 2:
            cost = COST.passing_by_whole_steps + _too_long(line, index)
            yield Explanation(PASSING, index, last, last + 1, cost, _direction(way))


def fills_a_step(line: Line, index: int) -> bool:
    """Whether a node is a lone outside note between two inside ones a scale step apart, in one direction."""
    if index == 0 or index + 1 >= len(line.nodes):
        return False
    before, node, after = line.nodes[index - 1], line.nodes[index], line.nodes[index + 1]
    if node.inside or not (before.inside and after.inside and before.joined and node.joined):
        return False
    return before.step * node.step > 0 and _fills(line, index, index)


def _fills(line: Line, first: int, last: int) -> bool:
    """Whether the nodes go by half steps between their neighbours, or fill one step of the scale."""
    steps = [line.nodes[index].step for index in range(first - 1, last + 1)]
    if all(abs(step) == 1 for step in steps):
        return True
    if len(steps) != 2 or abs(sum(steps)) > 3:
        return False
    low = min(line.nodes[first - 1].midi, line.nodes[last + 1].midi)
    scale = line.spans[line.nodes[first].span].scale_classes
    return not any((low + step) % 12 in scale for step in range(1, abs(sum(steps))))


def neighbour(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an outside note that leaves a note by step and comes back to it."""
    node = line.nodes[index]
    if node.inside or not line.joined(index - 1, index + 1):
        return
    before, after = line.nodes[index - 1], line.nodes[index + 1]
    if before.midi == after.midi and before.inside and after.inside and 1 <= abs(node.step) <= 2:
        detail = "upper" if node.step < 0 else "lower"
        cost = COST.neighbour + _too_long(line, index)
        if node.strong:
            cost += COST.accented_approach
        yield Explanation(NEIGHBOUR, index, index, index + 1, cost, detail)


def approach(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an outside note that leads by half step, or more weakly by whole step, into its target."""
    node = line.nodes[index]
    if node.inside or not node.joined or not 1 <= abs(node.step) <= 2:
        return
    cost = COST.approach_note if abs(node.step) == 1 else COST.whole_step_approach
    kind = "chromatic" if abs(node.step) == 1 else "whole step"
    cost += _too_long(line, index) + _target_cost(line, index + 1)
    if node.accent >= 3 or node.accent > line.nodes[index + 1].accent:
        cost += COST.accented_approach
    detail = f"{kind}, from {_side(node.step)}, single"
    yield Explanation(APPROACH, index, index, index + 1, cost, detail)


def double_approach(line: Line, index: int) -> Iterator[Explanation]:
    """Yield two notes that go by half steps in one direction into a target; the first is outside."""
    if line.nodes[index].inside or not line.joined(index, index + 2):
        return
    first, second = line.nodes[index], line.nodes[index + 1]
    if abs(first.step) == 1 and first.step == second.step:
        strong = line.nodes[index + 2].strong
        cost = COST.double_approach_to_a_strong_beat if strong else COST.double_approach
        cost += _too_long(line, index) + _target_cost(line, index + 2)
        detail = f"chromatic, from {_side(first.step)}, double"
        yield Explanation(APPROACH, index, index + 1, index + 2, cost, detail)


def scale_step_approach(line: Line, index: int) -> Iterator[Explanation]:
    """Yield a short scale tone, reached by leap, that steps into a core chord tone on a strong beat."""
    node = line.nodes[index]
    if node.membership != SCALE or node.accent >= 3 or not line.joined(index - 1, index + 1):
        return
    reached_by_leap = abs(line.nodes[index - 1].step) >= 3
    short = node.size < 0
    target = line.nodes[index + 1]
    if reached_by_leap and short and 1 <= abs(node.step) <= 2 and target.strong and line.in_core(index + 1):
        detail = f"scale step, from {_side(node.step)}, single"
        yield Explanation(APPROACH, index, index, index + 1, COST.scale_step_approach, detail)


def delayed_approach(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an outside note that reaches its goal, a half step away, after one inside note between."""
    node = line.nodes[index]
    if node.inside or not line.joined(index, index + 2):
        return
    between, target = line.nodes[index + 1], line.nodes[index + 2]
    way = target.midi - node.midi
    if abs(way) == 1 and target.inside and between.inside:
        cost = COST.delayed_approach + _too_long(line, index)
        yield Explanation(APPROACH, index, index, index + 2, cost, f"chromatic, from {_side(way)}, delayed")


def leaning(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an accented note, outside or to pass through, that is resolved by step within a beat."""
    node = line.nodes[index]
    if not node.joined or not 1 <= abs(node.step) <= 2 or node.size > 0 or node.accent < 2:
        return
    after = line.nodes[index + 1]
    if after.accent >= node.accent or not after.inside:
        return
    detail = f"from {_side(node.step)}"
    if not node.inside:
        yield Explanation(LEANING, index, index, index + 1, COST.leaning_note, detail)
    elif node.strong and after.membership == CHORD and node.midi % 12 in line.spans[node.span].pass_through:
        yield Explanation(LEANING, index, index, index + 1, COST.leaning_scale_tone, detail)


_SUSPENDED = frozenset(("9", "b9", "11", "4"))


def suspension(line: Line, index: int) -> Iterator[Explanation]:
    """Yield a note kept from the chord before, held or struck again, that resolves downwards by step."""
    node = line.nodes[index]
    if not node.joined or node.step not in (-1, -2):
        return
    after = line.nodes[index + 1]
    over = _kept_into(line, index)
    if over is None or after.membership != CHORD or after.span < over:
        return
    span = line.spans[over]
    pitch_class = node.midi % 12
    there = span.membership(pitch_class)
    if there == OUTSIDE or (there == SCALE and span.degrees[pitch_class] in _SUSPENDED):
        how = "struck again" if over == node.span and not node.early else HELD_OVER
        yield Explanation(SUSPENSION, index, index, index + 1, COST.suspension, how)


def _kept_into(line: Line, index: int) -> int | None:
    """Return the span into which a node is kept from the chord before, or None."""
    node = line.nodes[index]
    before = line.nodes[index - 1] if index else None
    later = node.span + 1
    if node.inside and later < len(line.spans) and node.end > line.starts[later]:
        return later
    if node.early and node.span != node.span_at_start:
        return node.span if line.in_chord(index, node.span_at_start) else None
    repeated = before is not None and before.joined and before.midi == node.midi and before.inside
    if repeated and before is not None and before.span < node.span and node.opens_span:
        return node.span
    return None


def escape(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an outside note that is reached by step and left by leap.

    The leap goes the other way, or on in the same way after a half step. Harmony books call the second an
    incomplete neighbour.
    """
    node = line.nodes[index]
    if node.inside or node.strong or not line.joined(index - 1, index + 1):
        return
    before, after = line.nodes[index - 1], line.nodes[index + 1]
    if abs(before.step) <= 2 and abs(node.step) >= 3 and before.step * node.step < 0 and after.inside:
        yield Explanation(ESCAPE, index, index, index + 1, COST.escape_note, _direction(node.step))
    elif abs(before.step) == 1 and abs(node.step) >= 3 and before.inside and after.inside:
        detail = f"{_direction(node.step)}, {INCOMPLETE}"
        yield Explanation(ESCAPE, index, index, index + 1, COST.incomplete_neighbour, detail)


def pedal(line: Line, index: int) -> Iterator[Explanation]:
    """Yield an outside note that is kept on, or keeps coming back, while the chords move under it."""
    node = line.nodes[index]
    if node.inside:
        return
    near = [other for other in line.nodes[max(0, index - 4) : index + 5] if other.midi == node.midi]
    if len(near) >= 3 and any(other.inside and other.span != node.span for other in near):
        yield Explanation(PEDAL, index, index, None, COST.pedal)


def _too_long(line: Line, index: int) -> int:
    """Return the surcharge of an outside note that lasts longer than a beat."""
    node = line.nodes[index]
    return COST.long_outside_note if node.size > 0 and not node.inside else 0


def _target_cost(line: Line, target: int) -> int:
    """Return the surcharges that the target of an approach adds."""
    node = line.nodes[target]
    cost = 0 if node.membership == CHORD else COST.target_is_a_colour
    if not node.inside:
        cost += COST.target_outside
    return cost + (COST.approach_off_the_beat if node.accent < 2 else 0)


def _direction(step: int) -> str:
    return "up" if step > 0 else "down"


def _side(step: int) -> str:
    """Say where a note lies that moves by this step to its target."""
    return "below" if step > 0 else "above"
