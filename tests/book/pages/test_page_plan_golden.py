"""How pages are measured and laid out, in one text that a person can read: golden/layouts.txt.

Each paper with what stands on it; how high first pages are with few words and with many, and in which ways
they can be set; where the keys of phrases of several heights stand, row by row, with what the layout costs.
UPDATE_GOLDEN=1 writes the text anew; read it before it is kept. Source: the tables of papers and of costs;
what a publisher would do stands in the tests of each module.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

import pytest

from shedbook.book.ground.paper import PAGE_SIZES, Paper, paper_of
from shedbook.book.pages.first_page import FirstPage, Words, first_pages, scales_in_a_row
from shedbook.book.pages.page_plan import Box, First, KeyPage, Sheet, end_of, plan_phrase
from shedbook.book.pages.phrase_pages import _cost_of, tempo_ladder

GOLDEN = Path(__file__).parent / "golden" / "layouts.txt"

PAPERS = {
    f"{name}{', large print' if large else ''}": paper_of(name, large=large)
    for name in PAGE_SIZES
    for large in (False, True)
}
TITLES = (
    "Low tide",
    "The sea, the harbour, the long way home and what was left of it at the turn of the tide",
)
SENTENCE = (
    "The line begins by way of F sharp, which leads into G, the root of the chord, and comes to rest on D."
)
SAID = {
    "nothing but a title": Words(TITLES[0], (), (), "", "", ladder=False, links=0),
    "a word, tempos and a link": Words(TITLES[0], (), ("Listen to bar two.",), "", "", ladder=True, links=1),
    "a note on names and an explanation": Words(
        TITLES[0], (), (SENTENCE,), "Names sound as written.", SENTENCE, ladder=True, links=2
    ),
    "a long title, a chapter, much to say, five links": Words(
        TITLES[1], (("How to begin", (SENTENCE, SENTENCE * 4)),), (SENTENCE * 6, SENTENCE), "", SENTENCE * 9,
        ladder=True, links=5,
    ),
}  # fmt: skip
SCALES = {
    "no scale": (),
    "one scale": ((55.0, 11.0),),
    "three scales": ((40.0, 11.0), (44.5, 12.5), (38.0, 10.0)),
    "five wide scales": ((82.0, 11.0),) * 4 + ((80.0, 13.0),),
}  # fmt: skip
KEYS = {
    "no key": (),
    "one key": (Box(28.0, 9.0),),
    "five keys, one of them high": (*(Box(30.0, 10.0),) * 4, Box(62.0, 24.5)),
    "eleven keys": (Box(28.0, 9.0), Box(24.0, 7.5)) * 5 + (Box(26.0, 8.0),),
    "a key higher than a page": (Box(30.0, 10.0), Box(290.0, 12.0), Box(30.0, 10.0)),
}
FIRSTS = {
    "words of 150": (First(150.0),),
    "words of 240, or of 190 set close": (First(240.0), First(190.0, 4.0)),
    "words on two pages": (First(310.0),),
}
SHEETS = {
    "openings": Sheet(room=258.0, most=8),
    "openings in two columns": Sheet(room=258.0, most=8, columns=2),
    "single pages of six rows": Sheet(room=240.0, most=6, opening=False),
    "openings with own staves": Sheet(room=258.0, most=8, own=22.0),
}


def papers() -> Iterator[str]:
    for name, paper in PAPERS.items():
        yield f"# {name}"
        sizes = {one.name: getattr(paper, one.name) for one in fields(Paper)}
        said = [f"{one.removesuffix('_mm')} {size}" for one, size in sizes.items() if one != "name"]
        half = len(said) // 2
        yield "  " + ", ".join(said[:half])
        yield "  " + ", ".join(said[half:])
        rooms = " and ".join(str(paper.home_room_mm(title)) for title in TITLES)
        yield f"  the first score under a short title and a long one: {rooms}"
        rows = [
            str(scales_in_a_row(wide, count, paper)) for wide in (30.0, 58.0, 90.0) for count in (1, 4, 5)
        ]
        yield f"  1, 4 and 5 scales of 30, 58 and 90 in rows of {' '.join(rows)}"


def way(one: FirstPage, scales: int) -> str:
    beside = f"scales beside words of {one.text_mm}" if one.beside else f"words of {one.text_mm}"
    return f"{one.height} ({beside}, white {one.white}, costs {_cost_of(one, scales)})"


def firsts() -> Iterator[str]:
    for name in ("a4", "a4, large print", "tablet"):
        for said, words in SAID.items():
            yield f"# {name}: {said}, over it a score of 40"
            for called, scales in SCALES.items():
                ways = [way(one, len(scales)) for one in first_pages(words, 40.0, scales, PAPERS[name])]
                yield f"  {called}: {'; '.join(ways)}"


def page(one: KeyPage) -> str:
    rows = " ".join(f"{row.top}/{row.height}" for row in one.rows)
    own = f", {one.own} own staves" if one.own else ""
    return f"{one.count} keys, {one.height} high ({rows}){own}" if one.count else f"no key{own}"


def plans() -> Iterator[str]:
    for sheet_name, sheet in SHEETS.items():
        for first_name, ways in FIRSTS.items():
            yield f"# {sheet_name}, {first_name}"
            for name, keys in KEYS.items():
                plan = plan_phrase(keys, ways, sheet)
                yield f"  {name}: way {plan.way}, costs {plan.cost:.2f}"
                yield from (f"    {page(one)}" for one in plan.pages)
        ends = [end_of(sheet, pages, staves) for pages in (1, 2) for staves in (False, True)]
        yield "  after 1 and 2 pages, without and with staves: " + "; ".join(
            f"{', '.join(map(page, found)) or 'nothing'} for {cost:.2f}" for found, cost in ends
        )


def tempos() -> Iterator[str]:
    yield "# tempos on the way to a goal"
    for goal in (48, 66, 97, 132, 150, 206, 288):
        yield "  " + ", ".join(f"{word} {bpm}" for bpm, word in tempo_ladder(goal, "swing"))


def test_the_layouts_are_those_that_were_read() -> None:
    text = "\n".join((*papers(), *firsts(), *plans(), *tempos(), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("a4", 210.0, 297.0), ("letter", 8.5 * 25.4, 11 * 25.4), ("tablet", 6 * 25.4, 8 * 25.4)],
)
def test_a_paper_is_as_large_as_its_standard_says(name: str, width: float, height: float) -> None:
    """Source: ISO 216 (A4), ANSI/ASME Y14.1 (letter, 8.5 by 11 in), 3 to 4 (tablets, common practice)."""
    for paper in (paper_of(name), paper_of(name, large=True)):
        assert paper.width_mm == pytest.approx(width)
        assert paper.height_mm == pytest.approx(height)
        assert paper.line_mm + paper.gutter_mm + paper.inner_mm + paper.outer_mm == pytest.approx(width)
        assert paper.room_mm + paper.top_mm + paper.bottom_mm == pytest.approx(height)
        assert paper.inner_mm >= paper.outer_mm  # where it is bound it needs no less (common practice)
