"""What is told while pages are laid out. Whole books are laid out in tests/book/pages."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest

from shedbook.book.building import book_layout
from shedbook.book.ground.progress import Step
from shedbook.book.workshop.crew import Crew


def test_comparisons_alone_are_counted_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where every page is there already and only keys are held against one another."""
    steps: list[Step] = []
    nothing: Any = None
    between: Any = ("one", "another")
    monkeypatch.setattr(book_layout, "_part_or_comparison", lambda order: None)
    work = book_layout._Work(Crew(1, ThreadPoolExecutor), nothing, steps.append)
    book_layout._lay_out_parts(work, [], between)
    assert [(step.phase, step.done, step.of) for step in steps] == [
        ("pages", 0, 2), ("pages", 1, 2), ("pages", 2, 2),
    ]  # fmt: skip
