"""One bundle under way: the book, what was asked, where everything lies."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from shedbook.book.bundle.manifest import About, Changes
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import Words
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.book.scores.worker import PhraseOrder
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.store import Store
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import RenderError

FOLDER = "bundle"
"""The folder of an output folder in which a bundle lies."""

Order = TypeVar("Order")
Result = TypeVar("Result")


@dataclass(slots=True)
class Bundling:
    """One bundle under way; `orders` are those of its phrases, `told` what is to be said at the end.

    `page` is what a browser opens of the student's page, where the build made one.
    """

    manuscript: Manuscript
    request: Request
    out: Path
    store: Store
    tell: Tell
    crew: Crew
    about: About
    words: Words
    editions: tuple[Edition, ...]
    orders: tuple[PhraseOrder, ...]
    cards: list[tuple[int, PhraseCard]]
    changes: Changes
    told: list[str] = field(default_factory=list)
    page: Path | None = None

    @property
    def folder(self) -> Path:
        """Where the bundle lies."""
        return self.out / FOLDER


def kept(store: Store, kind: type[Result], name: str) -> Result:
    """Return a card of the store.

    Raises:
        RenderError: if it is not there.
    """
    found = store.read_value(kind, "card", name)
    if found is None:
        raise RenderError("A card vanished from the store while the bundle was made.", hint="Build again.")
    return found


def each(
    making: Bundling, phase: str, function: Callable[[Order], Result], orders: Sequence[Order]
) -> Iterator[tuple[Order, Result]]:
    """Yield the result of each order, and tell how many are there.

    Raises:
        RenderError: if a worker was lost.
    """
    for done, (order, result) in enumerate(making.crew.run(function, orders), 1):
        if isinstance(result, Lost):
            raise RenderError("A part of the bundle ended the program that made it.", hint="Is memory short?")
        making.tell(Step(phase, done, len(orders)))
        yield order, result
