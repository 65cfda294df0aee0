"""What is offered for each note of lines at the borders of the roles: tests/analysis/golden/offers.txt.

Pairs of the lines differ in one thing that a rule asks for (`border_lines`). Each begins with its notes, each
with its membership (c, s, o) and its accent; then every note with anything to say but that it is a chord or a
scale tone: what is offered in the order asked, with its cost, how far it reaches and where it leads, and a
star before what the whole line chooses. UPDATE_GOLDEN=1 writes the text anew; read it before it is kept.
Source: common practice for what the titles say; the costs are the project's design.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from analysis.helpers import phrase
from analysis.roles.border_lines import BORDERS, Border
from analysis.roles.generators import GENERATORS
from shedbook.analysis.account import felt_beat
from shedbook.analysis.hearing.chord_spans import spans_of
from shedbook.analysis.hearing.heard_notes import hear_notes
from shedbook.analysis.hearing.note_places import note_places
from shedbook.analysis.roles.cheapest_cover import candidates, read
from shedbook.analysis.roles.nodes import Line, line_of
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.repeated_cells import repeated_cells
from shedbook.theory.pitch import spellings

GOLDEN = Path(__file__).parents[1] / "golden" / "offers.txt"
PLAIN = ("chord tone 20", "scale tone 30")


def line(border: Border) -> Line:
    written = phrase(border.changes, border.line, border.scales, metre=border.metre)
    spans, metre = spans_of(written, written.scales), written.metre
    heard = hear_notes(spans, note_places(written))
    return line_of(heard, spans, metre.bar_quarters, felt_beat(metre), blues=border.blues)


def offer(one: Explanation) -> str:
    until = f" to {one.last}" if one.last > one.first else ""
    goal = "" if one.target is None else f" > {one.target}"
    return f"{one.role} {one.detail}".strip() + f" {one.cost}{until}{goal}"


def offers(border: Border) -> Iterator[str]:
    walked = line(border)
    reading = read(walked)
    yield f"# {border.title}: {border.changes}"
    notes = [f"{spellings(node.midi)[0]}{node.membership[0]}{node.accent}" for node in walked.nodes]
    yield "  " + " ".join(notes)
    yield from (f"  cell of {size} at {first}" for first, size in repeated_cells(walked))
    for index in range(len(walked.nodes)):
        found = [("*" * (one in reading.chosen) + offer(one)) for one in candidates(walked, index)]
        rival = reading.rivals[index]
        if [one.lstrip("*") for one in found] not in ([PLAIN[0]], [PLAIN[1]]):
            yield f"  {index:2} {'; '.join(found)}"
        if rival is not None:
            yield f"     or {offer(rival)}: {reading.margins[index]}"
    yield f"  cost {reading.cost}"
    yield ""


def test_what_is_offered_at_the_borders_of_the_roles() -> None:
    found = "\n".join(row for border in BORDERS for row in offers(border))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")


def test_no_reason_is_left_unasked_at_the_borders() -> None:
    """Which reasons are asked depends on the note; those that are not asked have nothing to say."""
    for walked in map(line, BORDERS):
        for index in range(len(walked.nodes)):
            every = [offer for generate in GENERATORS for offer in generate(walked, index)]
            assert sorted(candidates(walked, index), key=repr) == sorted(every, key=repr)
