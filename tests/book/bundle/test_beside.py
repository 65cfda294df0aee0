"""What is looked into and listened to before a book is bought. Source: our own design."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.bundle.beside import _listened, _shown
from shedbook.book.reading_back.expected_scores import BY_KEY, HOME, KEY, PROOF, SCALE


@pytest.mark.parametrize(
    ("homes", "most", "pages"),
    [
        ([5, 7, 9, 13], 1, (5,)),
        ([5, 7, 9, 13], 2, (5, 6)),
        ([5, 7, 9, 13], 3, (5, 6, 7)),
        ([5, 7, 9, 13], 5, (5, 6, 7, 9, 13)),
        ([5, 6, 7], 3, (5, 6)),  # phrases of one page each: the page after the first is the second phrase's
        ([4, 4, 8], 3, (4, 5, 8)),  # two scores of one page are shown once
        ([5], 5, (5, 6)),
        ([], 5, ()),
    ],
)
def test_the_first_pages_of_the_first_phrases_are_shown_and_the_keys_of_the_first(
    homes: list[int], most: int, pages: tuple[int, ...]
) -> None:
    others = [SimpleNamespace(kind=kind, page=2) for kind in (BY_KEY, KEY, PROOF, SCALE)]
    music: Any = SimpleNamespace(
        scores=(*others, *(SimpleNamespace(kind=HOME, page=page) for page in homes), *others)
    )
    assert _shown(music, most) == pages


def test_each_phrase_is_heard_once_as_a_demonstration_else_in_whatever_sounds() -> None:
    def track(name: str, number: int, kind: str, lufs: float | None = -16.0) -> Any:
        return SimpleNamespace(path=Path(name), facts=SimpleNamespace(number=number, kind=kind, lufs=lufs))

    alone = [
        track("tuning", 0, "tuning"), track("silent", 1, "demonstration", None),
        track("1 line", 1, "line"), track("1 line again", 1, "line"), track("2 line", 2, "line"),
    ]  # fmt: skip
    assert _listened(alone) == [Path("1 line"), Path("2 line")]
    shown = [track("2 shown", 2, "demonstration"), track("2 again", 2, "demonstration")]
    assert _listened([*alone, *shown]) == [Path("2 shown")]
    assert _listened([]) == []
