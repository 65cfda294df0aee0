"""What the store holds of a phrase: its card, and for each edition a placing and the scores by key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from shedbook.book.manuscript.opening import PhraseSource
from shedbook.book.manuscript.request import BookFinding
from shedbook.book.pages.book_pages import Score
from shedbook.book.scores.inputs import pictures_of
from shedbook.book.scores.worker import PhraseOrder, card_of, key_in, placing_of, score_in, scores_of
from shedbook.book.workshop.store import Store

NO_CARD: Mapping[str, Any] = MappingProxyType({"findings": ()})


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the store holds of a phrase: its card, what there is for each edition, all their names."""

    card: Mapping[str, Any]
    editions: tuple[EditionShelf, ...]
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class EditionShelf:
    """What the store holds of a phrase in an edition: its placing card, its scores with the home score."""

    card: Mapping[str, Any]
    scores: Mapping[str, Score]


def shelf_of(store: Store, order: PhraseOrder) -> Shelf | None:
    """Return what the store holds of a phrase, or None when anything is missing."""
    card_name = card_of(order).name
    card = store.read_json("card", card_name)
    if card is None:
        return None
    names = [card_name]
    sets = []
    for edition in order.editions:
        placing_name = placing_of(order, edition).name
        placing = store.read_json("card", placing_name)
        if placing is None:
            return None
        of_scores = scores_of(order, edition, pictures_of(placing))
        scores: dict[str, Score] = {}
        for key, name in of_scores.items():
            score = score_in(store, name, key_in(key, placing))
            if score is None:
                return None
            scores[key] = score
        names += [placing_name, *of_scores.values()]
        sets.append(EditionShelf(placing, scores))
    return Shelf(card, tuple(sets), tuple(names))


def next_score(store: Store, order: PhraseOrder) -> tuple[str, str] | None:
    """Return the first score that is missing, with its key and edition; "" for none, None without cards."""
    for edition in order.editions:
        card = store.read_json("card", placing_of(order, edition).name)
        if card is None:
            return None
        for key, name in scores_of(order, edition, pictures_of(card)).items():
            if name not in order.skip and not store.has("svg", name):
                return name, f"{key_in(key, card)}, {edition.title},"
    return "", ""


def findings_there(store: Store, order: PhraseOrder) -> Iterator[BookFinding]:
    """Yield what the cards in the store find of a phrase, as far as there are any."""
    for name in (card_of(order).name, *(placing_of(order, edition).name for edition in order.editions)):
        card = store.read_json("card", name) or NO_CARD
        yield from (book_finding(order.source, finding) for finding in card["findings"])


def book_finding(source: PhraseSource, finding: Mapping[str, Any]) -> BookFinding:
    """Return a finding of a card as the book lists it."""
    plain = {name: value for name, value in finding.items() if name != "number"}
    return BookFinding(number=source.number, title=source.title, file=source.file, **plain)
