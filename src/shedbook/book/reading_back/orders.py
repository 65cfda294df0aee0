"""What a worker is given to read a book back, and what it answers: plain values that are cheap to send."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.pages.data import PageData
from shedbook.book.scores.worker import PhraseOrder
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import RenderError


@dataclass(frozen=True, slots=True)
class BackOrder:
    """Read a book back. `data` is what its template printed, `target` its PDF, `orders` its phrases."""

    store: str
    target: str
    data: PageData
    edition: Edition
    orders: tuple[PhraseOrder, ...]


@dataclass(frozen=True, slots=True)
class ReadBack:
    """How many scores were read, what is wrong with them, and the page on which each begins, from 1."""

    scores: int
    errors: tuple[RenderError, ...] = ()
    pages: tuple[int, ...] = ()
