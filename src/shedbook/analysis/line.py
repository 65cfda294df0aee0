"""The line as the optimiser walks it: notes with the steps between them, repeated outside notes joined.

Conventions: a *node* is one note, or several of the same outside pitch in a row, which are explained
together. Steps are in semitones.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.heard import CHORD, OUTSIDE, Heard, Span
from shedbook.analysis.struck import EIGHTH


@dataclass(frozen=True, slots=True)
class Node:
    """One or several notes that are explained together.

    `first` and `last` are indices of notes; `joined` says that the next node follows at once (a silence
    of at most an eighth between); `step` is the semitones up to it, 0 where it is not joined. `size` is 1
    for a node longer than a beat, 0 for one as long, -1 for a shorter one.
    """

    first: int
    last: int
    midi: int
    membership: str
    span: int
    next_span: int | None
    struck_over: int
    start: Fraction
    end: Fraction
    arrival: Fraction
    weight: int
    strong: bool
    early: bool
    rest_after: Fraction
    joined: bool
    step: int
    size: int

    @property
    def inside(self) -> bool:
        """Whether the note is a chord or scale tone."""
        return self.membership != OUTSIDE


@dataclass(frozen=True, slots=True)
class Line:
    """The nodes of a phrase over its spans; `bar` is the length of a bar in quarters."""

    nodes: tuple[Node, ...]
    spans: tuple[Span, ...]
    bar: Fraction
    blues: bool = False

    def in_chord(self, index: int, span: int) -> bool:
        """Whether a node's pitch is a tone of the chord of a span."""
        return self.spans[span].membership(self.nodes[index].midi % 12) == CHORD

    def in_core(self, index: int) -> bool:
        """Whether a node is root, third, fifth, seventh or sixth of its chord."""
        node = self.nodes[index]
        return node.midi % 12 in self.spans[node.span].core

    def opens_span(self, index: int) -> bool:
        """Whether a node arrives together with its chord."""
        node = self.nodes[index]
        return node.arrival == self.spans[node.span].start

    def joined(self, first: int, last: int) -> bool:
        """Whether the nodes from first to last all follow one another at once."""
        nodes = self.nodes
        return first >= 0 and last < len(nodes) and all(nodes[index].joined for index in range(first, last))


def line_of(
    heard: tuple[Heard, ...], spans: tuple[Span, ...], bar: Fraction, beat: Fraction, *, blues: bool = False
) -> Line:
    """Return the line that the optimiser walks; `bar` and `beat` are lengths in quarters."""
    groups: list[tuple[int, int]] = []
    for note in heard:
        if groups and _same(heard[groups[-1][1]], note):
            groups[-1] = (groups[-1][0], note.index)
        else:
            groups.append((note.index, note.index))
    felt = max(Fraction(1), beat)
    nodes = []
    for place, (first, last) in enumerate(groups):
        opening, closing = heard[first], heard[last]
        following = heard[groups[place + 1][0]] if place + 1 < len(groups) else None
        joined = following is not None and closing.rest_after <= EIGHTH
        step = following.midi - opening.midi if following is not None and joined else 0
        end = closing.note.end
        length = opening.note.quarters if first == last else end - opening.note.start
        nodes.append(
            Node(
                first,
                last,
                opening.midi,
                opening.membership,
                opening.span,
                closing.next_span,
                opening.struck_over,
                opening.note.start,
                end,
                opening.arrival,
                opening.weight,
                opening.strong,
                opening.early,
                closing.rest_after,
                joined,
                step,
                (length > felt) - (length < felt),
            )
        )
    return Line(tuple(nodes), spans, bar, blues)


def _same(before: Heard, note: Heard) -> bool:
    """Whether a note repeats an outside note before it over the same chord."""
    return (
        before.midi == note.midi
        and before.span == note.span
        and not note.inside
        and before.rest_after <= EIGHTH
    )
