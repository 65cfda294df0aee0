"""The line as the search for roles walks it: nodes, which are notes with repeated outside notes joined.

Conventions: a *node* is one note, or several of the same outside pitch in a row, which are explained
together. Steps are in semitones, places and lengths in ticks.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, Span
from shedbook.analysis.hearing.heard_notes import HeardNote, HeardNotes
from shedbook.theory.metre import whole_ticks


class Node(NamedTuple):
    """One or several notes that are explained together.

    `first` and `last` are indices of notes; `joined` says that the next node follows at once (a silence
    of at most an eighth between); `step` is the semitones up to it, 0 where it is not joined. `size` is 1
    for a node longer than a beat, 0 for one as long, -1 for a shorter one. `opens_span` says that it
    arrives together with its chord, `inside` that it is a chord or scale tone.
    """

    first: int
    last: int
    midi: int
    membership: str
    span: int
    next_span: int | None
    span_at_start: int
    start: int
    end: int
    arrival: int
    accent: int
    strong: bool
    early: bool
    rest_after: int
    joined: bool
    step: int
    size: int
    opens_span: bool
    inside: bool


@dataclass(frozen=True, slots=True)
class Line:
    """The nodes of a phrase over its spans.

    The spans begin at `starts` and a bar is `bar` long, both in ticks; `grain` ticks make a quarter. `blues`
    says that the changes are those of a blues.
    """

    nodes: tuple[Node, ...]
    spans: tuple[Span, ...]
    starts: tuple[int, ...]
    grain: int
    bar: int
    blues: bool = False

    def in_chord(self, index: int, span: int) -> bool:
        """Whether a node's pitch is a tone of the chord of a span."""
        return self.spans[span].membership(self.nodes[index].midi % 12) == CHORD

    def in_core(self, index: int) -> bool:
        """Whether a node is root, third, fifth, seventh or sixth of its chord."""
        node = self.nodes[index]
        return node.midi % 12 in self.spans[node.span].core

    def joined(self, first: int, last: int) -> bool:
        """Whether the nodes from first to last all follow one another at once."""
        if first < 0 or last >= len(self.nodes):
            return False
        return all([node.joined for node in self.nodes[first:last]])


def line_of(
    heard: HeardNotes, spans: tuple[Span, ...], bar: Fraction, beat: Fraction, *, blues: bool = False
) -> Line:
    """Return the nodes of the notes of a phrase; `bar` and `beat` are lengths in quarters."""
    notes, grain = heard.notes, heard.grain
    felt = whole_ticks(max(Fraction(1), beat), grain)
    groups = _repeats_joined(notes)
    nodes = []
    for place, (first, last) in enumerate(groups):
        opening, closing = notes[first], notes[last]
        following = notes[groups[place + 1][0]] if place + 1 < len(groups) else None
        joined = following is not None and closing.joined
        step = following.midi - opening.midi if following is not None and joined else 0
        length = closing.end - opening.start
        nodes.append(
            Node(
                first,
                last,
                opening.midi,
                opening.membership,
                opening.span,
                closing.next_span,
                opening.span_at_start,
                opening.start,
                closing.end,
                opening.arrival,
                opening.accent,
                opening.strong,
                opening.early,
                closing.rest_after,
                joined,
                step,
                (length > felt) - (length < felt),
                opening.arrival == heard.starts[opening.span],
                opening.membership != OUTSIDE,
            )
        )
    return Line(tuple(nodes), spans, heard.starts, grain, whole_ticks(bar, grain), blues)


def _repeats_joined(notes: tuple[HeardNote, ...]) -> list[tuple[int, int]]:
    """Return the first and last note of each node."""
    groups: list[tuple[int, int]] = []
    for index, note in enumerate(notes):
        if groups and _same(notes[index - 1], note):
            groups[-1] = (groups[-1][0], index)
        else:
            groups.append((index, index))
    return groups


def _same(before: HeardNote, note: HeardNote) -> bool:
    """Whether a note repeats an outside note before it over the same chord."""
    return before.midi == note.midi and before.span == note.span and not note.inside and before.joined
