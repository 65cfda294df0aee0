"""Laying out the books of a build: their pieces and frames, as far as they are not there, and then joined.

A piece must know the number of its first page, and a frame how many pages each piece has. Both are foretold
by the plan of the pages, so all are laid out at once; what the plan had otherwise is laid out again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from shedbook.book.ground.progress import Step, Tell
from shedbook.book.pages.data import BookData
from shedbook.book.pages.layout import (
    Damaged,
    FrameOrder,
    JoinOrder,
    LaidOut,
    PagesOrder,
    PartMade,
    PieceOrder,
    join,
    lay_out,
    lay_out_part,
    part_made,
)
from shedbook.book.pages.pieces import PieceData, frame_data, pieces_of, planned, starts_of
from shedbook.book.scores.worker import BetweenOrder, compare_phrases
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.store import Store
from shedbook.errors import RenderError

_MANY = 24
"""From how many pieces on the lists of a book are laid out by other processes than these."""
_ROUNDS = 6
"""How often a book is joined: once, and again only where the store held something damaged."""

Call = TypeVar("Call")
Result = TypeVar("Result")


@dataclass(slots=True)
class _Book:
    """A book that is being laid out: its pieces, how many pages each has, and the names of all parts."""

    order: PagesOrder
    data: BookData
    pieces: tuple[PieceData, ...]
    counts: tuple[int, ...]
    names: tuple[str, ...] = ()
    frame: str = ""
    parts: dict[str, PieceOrder | FrameOrder] = field(default_factory=dict)

    def name_parts(self) -> None:
        """Write the orders of all parts, under their names."""
        store, versions = self.order.store, self.order.versions
        pieces = [PieceOrder(store, piece, versions) for piece in self.pieces]
        starts = [piece.first for piece in self.pieces]
        frame = FrameOrder(store, frame_data(self.data, self.counts, starts), self.counts, versions)
        self.names, self.frame = tuple(piece.name for piece in pieces), frame.name
        self.parts = {**dict(zip(self.names, pieces, strict=True)), self.frame: frame}

    def settle(self, made: Mapping[str, PartMade]) -> bool:
        """Take over how many pages pieces have, or else where they start; say whether all was right."""
        counts = tuple(made[name].pages for name in self.names)
        if counts != self.counts:
            self.counts = counts
            starts = starts_of(self.data, counts)
        else:
            starts = made[self.frame].folios
            if starts == tuple(piece.first for piece in self.pieces):
                return True
        self.pieces = tuple(piece.starting(at) for piece, at in zip(self.pieces, starts, strict=True))
        return False


@dataclass(slots=True)
class _Work:
    """What is done of the layout, and what is told of it."""

    crew: Crew
    store: Store
    tell: Tell
    made: dict[str, PartMade] = field(default_factory=dict)
    total: int = 0
    done: int = 0

    def expect(self, number: int) -> None:
        """Tell that so much more is to be done."""
        self.total += number
        self.tell(Step("pages", self.done, self.total))

    def run(
        self, function: Callable[[Call], Result], calls: Sequence[Call], *, fresh: bool = False
    ) -> Iterator[tuple[Call, Result]]:
        """Run calls, and give each with its result.

        Raises:
            RenderError: if a worker ends over one.
        """
        for call, result in (self.crew.run_fresh if fresh else self.crew.run)(function, calls):
            if isinstance(result, Lost):
                raise RenderError(
                    "Laying out the pages ended the program that did it.", hint="Is memory short?"
                )
            self.done += 1
            self.tell(Step("pages", self.done, self.total))
            yield call, result

    def find(self, books: Sequence[_Book]) -> dict[str, PieceOrder | FrameOrder]:
        """Return the orders of what lies not in the store, by their names."""
        missing = {}
        for book in books:
            for name, order in book.parts.items():
                if name not in self.made:
                    note = part_made(self.store, name)
                    if note is None:
                        missing[name] = order
                    else:
                        self.made[name] = note
        return missing


def lay_out_books(
    crew: Crew, store: Store, orders: Sequence[PagesOrder], between: BetweenOrder | None, tell: Tell
) -> tuple[tuple[LaidOut, ...], int]:
    """Lay out books, and compare the phrases meanwhile if they are to be compared.

    Raises:
        RenderError: if pages cannot be laid out, or a worker ends over them.
        OutputError: if the disk refuses a file.
    """
    work = _Work(crew, store, tell)
    contents: dict[str, tuple[str, ...]] = {}
    books = [
        _Book(order, order.data, pieces_of(order.data), planned(order.data))
        for order in orders
        if isinstance(order.data, BookData)
    ]
    # A proof sheet is laid out as a whole, and the layout keeps all that it has read.
    sheets = [order for order in orders if not isinstance(order.data, BookData)]
    work.total = len(orders)
    if sheets:
        work.expect(0)
    for order, hashes in work.run(lay_out, sheets, fresh=True):
        contents[order.target] = hashes
    waiting = books
    for _ in range(_ROUNDS):
        _lay_out_parts(work, waiting, [between] if between is not None else [])
        between = None
        for call, result in work.run(
            join, [JoinOrder(book.order, book.frame, book.names) for book in waiting]
        ):
            if isinstance(result, Damaged):
                for name in result.names:
                    work.made.pop(name, None)
                work.expect(1)
            else:
                contents[call.order.target] = result
        waiting = [book for book in waiting if book.order.target not in contents]
        if not waiting:
            break
    else:
        raise RenderError("What was laid out does not stay in the store.", hint="Look at the disk.")
    parts = {book.order.target: _names(book, work.made) for book in books}
    notes = [LaidOut(order.job, contents[order.target], parts.get(order.target, ())) for order in orders]
    return tuple(notes), work.done


def _names(book: _Book, made: Mapping[str, PartMade]) -> tuple[str, ...]:
    """Return the names of all that the store holds of a book."""
    own = {*book.names, book.frame}
    return tuple(sorted(own | {apart for name in own for apart in made[name].apart}))


def _lay_out_parts(work: _Work, books: Sequence[_Book], between: Sequence[BetweenOrder]) -> None:
    """Lay out all parts of books that are missing, until all have the pages that others take them to have."""
    unsettled = list(books)
    while unsettled or between:
        for book in unsettled:
            book.name_parts()
        missing = work.find(unsettled)
        names = {id(order): name for name, order in missing.items()}
        pieces = [order for order in missing.values() if isinstance(order, PieceOrder)]
        frames = [order for order in missing.values() if isinstance(order, FrameOrder)]
        # What the layout keeps of many pieces goes with their workers before the lists are laid out, which
        # grow with the book.
        apart = len(pieces) > _MANY and bool(frames)
        calls: list[PieceOrder | FrameOrder | BetweenOrder] = [*pieces, *([] if apart else frames), *between]
        between = ()
        if missing or calls:
            work.expect(len(calls) + (len(frames) if apart else 0))
        for call, result in work.run(_part_or_comparison, calls):
            if result is not None:
                work.made[names[id(call)]] = result
        if apart:
            work.crew.close()
            for frame, made in work.run(lay_out_part, frames, fresh=True):
                work.made[names[id(frame)]] = made
            work.crew.close()
        unsettled = [book for book in unsettled if not book.settle(work.made)]


def _part_or_comparison(order: PieceOrder | FrameOrder | BetweenOrder) -> PartMade | None:
    if isinstance(order, BetweenOrder):
        compare_phrases(order)
        return None
    return lay_out_part(order)
