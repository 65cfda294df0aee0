"""How high the first page of a phrase is without keys: its title, its score, its words, its scales. Pure.

The template sets these with the same sizes and the same white, which stand in `SET` and go to it as they are.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shedbook.book.ground.paper import Paper
from shedbook.book.pages.text_room import POINT_MM, lines_of


@dataclass(frozen=True, slots=True)
class Setting:
    """Sizes in points and white in millimetres on a first page, of a book with text of the usual size."""

    title_pt: float = 22.0
    facts_pt: float = 9.5
    text_pt: float = 10.5
    label_pt: float = 8.5
    name_pt: float = 9.5
    top_mm: float = 1.0
    under_title_mm: float = 3.6
    under_facts_mm: float = 4.6
    under_score_mm: float = 5.5
    between_mm: float = 4.6
    paragraph_mm: float = 2.4
    scales_head_mm: float = 3.6
    name_gap_mm: float = 1.1
    scale_gap_mm: float = 3.0
    column_gap_mm: float = 8.0
    ladder_mm: float = 4.0
    code_mm: float = 19.0


SET = Setting()
_CAP, _PITCH = 0.67, 1.35
"""How high the first line of a paragraph is, and how far it is from one line to the next, in em."""
_TITLE_PITCH = 1.15
_SPARE_MM = 1.5
"""What is left for lines that turn out one more than they were counted."""
CLOSE = 0.65
"""How much of the white is left where that puts one key more on the page."""
_LEAST_TEXT_MM = 90.0
"""The shortest line of words with scales beside them, in text of the usual size: the tempos go on it."""
_MEASURE_MM = 129.0
"""The longest line of prose, some 75 letters (Bringhurst, from memory)."""


@dataclass(frozen=True, slots=True)
class Words:
    """What is said on a first page, as plain texts; `chapters` are the author's, with their heads."""

    title: str
    chapters: tuple[tuple[str, tuple[str, ...]], ...]
    commentary: tuple[str, ...]
    note: str
    explanation: str
    ladder: bool
    links: int


@dataclass(frozen=True, slots=True)
class FirstPage:
    """One way to set a first page: how high it is, and the millimetres that its parts take.

    `beside` says that the scales stand beside the words, whose lines are `text_mm` long; `white` is the share
    of the usual white between the parts.
    """

    height: float
    beside: bool
    text_mm: float
    white: float = 1.0


def measure_mm(paper: Paper) -> float:
    """Return the longest line of prose on a paper."""
    return round(min(paper.line_mm, _MEASURE_MM * paper.text_times), 2)


def first_pages(
    words: Words, home_mm: float, scales: Sequence[tuple[float, float]], paper: Paper
) -> tuple[FirstPage, ...]:
    """Return the ways to set the first page: words over scales, and side by side where there is room.

    Args:
        words: what is said.
        home_mm: the height of the score.
        scales: width and height of each written-out scale.
        paper: the paper.
    """
    return tuple(way for white in (1.0, CLOSE) for way in _ways(words, home_mm, scales, paper, white))


def _ways(
    words: Words, home_mm: float, scales: Sequence[tuple[float, float]], paper: Paper, white: float
) -> Iterator[FirstPage]:
    head = _head(words, paper, white) + home_mm + SET.under_score_mm * white + _SPARE_MM
    measure = measure_mm(paper)
    said = _said(words, measure, paper, white)
    under = head + said + _scales_under(scales, paper, white)
    yield FirstPage(
        round(under + (SET.between_mm * white if said and scales else 0), 2), False, measure, white
    )
    if scales:
        wide = max(width for width, _ in scales)
        text = min(round(paper.line_mm - wide - SET.column_gap_mm, 2), measure)
        if text >= _LEAST_TEXT_MM * paper.text_times:
            high = max(_said(words, text, paper, white), _column(scales, paper, white))
            yield FirstPage(round(head + high, 2), True, text, white)


def scales_in_a_row(widest_mm: float, count: int, paper: Paper) -> int:
    """Return how many scales stand side by side under the words: rows are as equal as they go."""
    most = max(1, min(4, count, math.floor((paper.line_mm + 4) / (widest_mm + 4))))
    return math.ceil(count / math.ceil(count / most))


def _head(words: Words, paper: Paper, white: float) -> float:
    em = SET.title_pt * POINT_MM * paper.text_times
    lines = lines_of(words.title, paper.line_mm, SET.title_pt * paper.text_times)
    facts = _CAP * SET.facts_pt * POINT_MM * paper.text_times
    title = (_CAP + _TITLE_PITCH * (max(1, lines) - 1)) * em
    return SET.top_mm * white + title + SET.under_title_mm + facts + SET.under_facts_mm * white


def _prose(texts: Sequence[str], line_mm: float, size_pt: float) -> float:
    em = size_pt * POINT_MM
    found = [
        (_CAP + _PITCH * (lines - 1)) * em for text in texts if (lines := lines_of(text, line_mm, size_pt))
    ]
    return sum(found) + SET.paragraph_mm * max(0, len(found) - 1)


def _said(words: Words, line_mm: float, paper: Paper, white: float) -> float:
    """Return the height of all words, the ladder of tempos, and the links, with the white between them."""
    size = SET.text_pt * paper.text_times
    parts = [_prose((head, *texts), line_mm, size) for head, texts in words.chapters]
    commentary = (*words.commentary, *([words.note] if words.note else ()))
    parts.append(_prose(commentary, line_mm, size))
    # The head of the explanation opens its first line; it is about as long as these letters.
    parts.append(
        _prose([f"Why it works here {words.explanation}"] if words.explanation else [], line_mm, size)
    )
    parts.append(SET.ladder_mm * paper.text_times if words.ladder else 0)
    in_a_row = 2 if line_mm >= 100 * paper.text_times else 1
    parts += [SET.code_mm] * math.ceil(words.links / in_a_row)
    there = [part for part in parts if part]
    return sum(there) + SET.between_mm * white * max(0, len(there) - 1)


def _one_scale(height: float, paper: Paper) -> float:
    return height + (_CAP * SET.name_pt * POINT_MM + SET.name_gap_mm) * paper.text_times


def _scales_under(scales: Sequence[tuple[float, float]], paper: Paper, white: float) -> float:
    if not scales:
        return 0.0
    columns = scales_in_a_row(max(width for width, _ in scales), len(scales), paper)
    rows = [scales[first : first + columns] for first in range(0, len(scales), columns)]
    heights = [max(_one_scale(height, paper) for _, height in row) for row in rows]
    return SET.scales_head_mm * paper.text_times + sum(heights) + SET.scale_gap_mm * white * (len(rows) - 1)


def _column(scales: Sequence[tuple[float, float]], paper: Paper, white: float) -> float:
    high = sum(_one_scale(height, paper) for _, height in scales)
    return SET.scales_head_mm * paper.text_times + high + SET.scale_gap_mm * white * (len(scales) - 1)
