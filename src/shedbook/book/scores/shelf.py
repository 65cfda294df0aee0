"""What the store holds of a phrase: its card, and for each edition a placing and the pictures by name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from shedbook.book.ground.findings import BookFinding, of_phrase
from shedbook.book.scores.artefacts import PhraseCard, PlacingCard, Score
from shedbook.book.scores.worker import (
    PhraseOrder,
    card_name,
    key_in,
    picture_names,
    pictures_in,
    placing_name,
    score_in,
)
from shedbook.book.workshop.store import Store


@dataclass(frozen=True, slots=True)
class EditionShelf:
    """What the store holds of a phrase in an edition: its card, its pictures with the home score."""

    card: PlacingCard
    scores: Mapping[str, Score]


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the store holds of a phrase: its card, what there is for each edition, all their names."""

    card: PhraseCard
    editions: tuple[EditionShelf, ...]
    names: tuple[str, ...]


def shelf_of(store: Store, order: PhraseOrder) -> Shelf | None:
    """Return what the store holds of a phrase, or None when anything is missing."""
    own_name = card_name(order)
    card = store.read_value(PhraseCard, "card", own_name)
    if card is None:
        return None
    names = [own_name]
    sets = []
    for edition in order.editions:
        its_name = placing_name(order, edition)
        placing = store.read_value(PlacingCard, "card", its_name)
        if placing is None:
            return None
        of_scores = picture_names(pictures_in(order, edition, placing), order.versions)
        scores: dict[str, Score] = {}
        for key, name in of_scores.items():
            score = score_in(store, name, key_in(key, placing))
            if score is None:
                return None
            scores[key] = score
        names += [its_name, *of_scores.values()]
        sets.append(EditionShelf(placing, scores))
    return Shelf(card, tuple(sets), tuple(names))


def next_score(store: Store, order: PhraseOrder) -> tuple[str, str] | None:
    """Return the first picture of a phrase that is missing, in the order in which they are drawn.

    Returns:
        Its name in the store, and key and edition in words; two empty texts if none is missing; None if the
        store does not even hold the cards of the phrase.
    """
    for edition in order.editions:
        card = store.read_value(PlacingCard, "card", placing_name(order, edition))
        if card is None:
            return None
        for key, name in picture_names(pictures_in(order, edition, card), order.versions).items():
            if name not in order.skip and not store.has("svg", name):
                return name, f"{key_in(key, card)}, {edition.title},"
    return "", ""


def findings_on(shelf: Shelf, order: PhraseOrder) -> tuple[BookFinding, ...]:
    """Return everything that is found of a phrase: first for itself, then in each edition of the order."""
    found = (*shelf.card.findings, *(one for edition in shelf.editions for one in edition.card.findings))
    source = order.source
    return tuple(of_phrase(source.number, source.title, source.file, one) for one in found)


def findings_there(store: Store, order: PhraseOrder) -> Iterator[BookFinding]:
    """Yield what the cards in the store find of a phrase, as far as there are any."""
    source = order.source
    card = store.read_value(PhraseCard, "card", card_name(order))
    placings = [
        store.read_value(PlacingCard, "card", placing_name(order, edition)) for edition in order.editions
    ]
    for one in (card, *placings):
        for finding in one.findings if one is not None else ():
            yield of_phrase(source.number, source.title, source.file, finding)
