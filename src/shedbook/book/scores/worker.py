"""What workers run: the jobs of one phrase, as far as their artefacts are missing.

Each call takes one order, plain data that is cheap to send, puts its artefacts into the store itself,
and sends back only what is small. An artefact that is already there is left alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource, locate
from shedbook.book.scores.artefacts import (
    CHANGES,
    HOME,
    Compared,
    PhraseCard,
    Picture,
    PictureFacts,
    PlacingCard,
    Score,
)
from shedbook.book.scores.inputs import (
    BetweenInput,
    PictureInput,
    card_input,
    pictures_of,
    placing_input,
)
from shedbook.book.workshop.naming import name_of
from shedbook.book.workshop.store import Store
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import ReadError, RenderError, ShedbookError

if TYPE_CHECKING:
    from shedbook.book.scores.engraving import Reading

_FACTS_START, _FACTS_END = "\n<!-- drawn ", " -->"
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class PhraseOrder:
    """Read a phrase, place it for the editions, and engrave what is missing.

    `asked` are the tonics that are wanted when not all are. Where a score has ended a worker before, `singly`
    draws one after the other, and `skip` names those that are to blame.
    """

    store: str
    source: PhraseSource
    settings: Settings
    asked: tuple[str, ...]
    editions: tuple[Edition, ...]
    versions: str
    engrave: bool = True
    singly: bool = False
    skip: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PhraseDone:
    """What became of an order: how many jobs were run, and what went wrong."""

    jobs_run: int
    errors: tuple[ShedbookError, ...] = ()


@dataclass(frozen=True, slots=True)
class BetweenOrder:
    """Compare phrases of a book with one another. `name` is that of the outcome in the store."""

    store: str
    name: str
    sources: tuple[PhraseSource, ...]
    given: BetweenInput


# Names in the store.


def card_name(order: PhraseOrder) -> str:
    """Return the name in the store of the phrase's card; nothing is read or made."""
    return name_of("read_card", card_input(order.source.text, order.settings, order.asked), order.versions)


def placing_name(order: PhraseOrder, edition: Edition) -> str:
    """Return the name of the phrase's card for an edition."""
    given = placing_input(order.source.text, edition, order.settings, order.asked)
    return name_of("place_card", given, order.versions)


def pictures_in(order: PhraseOrder, edition: Edition, card: PlacingCard) -> dict[str, PictureInput]:
    """Return the inputs of a phrase's pictures in an edition by their names, the home score first."""
    return pictures_of(order.source.text, edition, card, order.settings)


def picture_names(pictures: Mapping[str, PictureInput], versions: str) -> dict[str, str]:
    """Return the names in the store of pictures."""
    return {name: name_of("draw_pictures", picture, versions) for name, picture in pictures.items()}


def score_in(store: Store, name: str, key: str) -> Score | None:
    """Return a finished picture from the store with its size, or None when it is missing or damaged."""
    content = store.read("svg", name)
    if content is None:
        return None
    start = content.rindex(_FACTS_START.encode()) + len(_FACTS_START)
    facts = from_json(PictureFacts, content[start : -len(_FACTS_END)])
    return Score(path=store.inner_path("svg", name), key=key, **asdict(facts))


def key_in(name: str, card: PlacingCard) -> str:
    """Return the written key that the name of a picture stands for."""
    return card.home.written if name in (HOME, CHANGES) else name


# Work.


def make_phrase(order: PhraseOrder) -> PhraseDone:
    """Make the card, the placings and the pictures of a phrase, as far as they are missing.

    A picture that fails does not keep the others from being made.
    """
    desk = _Desk(order)
    try:
        desk.card()
        cards = [desk.placing(edition) for edition in order.editions]
        if not order.engrave:
            return PhraseDone(desk.made)
        errors: list[ShedbookError] = []
        for edition, card in zip(order.editions, cards, strict=True):
            errors += desk.engrave(edition, card)
    except ReadError as error:
        from shedbook.book.manuscript.unread_places import unread_places  # noqa: PLC0415 - as below

        return PhraseDone(desk.made, unread_places(order.source) or (locate(error, order.source),))
    except ShedbookError as error:
        return PhraseDone(desk.made, (error,))
    return PhraseDone(desk.made, tuple(errors))


class _Desk:
    """One phrase at work: what was read and placed is kept for the next step, what is there is left alone.

    The floors below are loaded where they are needed: the parent of the workers hardly ever needs them.
    """

    def __init__(self, order: PhraseOrder) -> None:
        self.made = 0
        self._order = order
        self._store = Store(Path(order.store))
        self._begun: Reading | None = None

    def card(self) -> PhraseCard:
        """Return the card, made where it is missing."""
        from shedbook.book.scores.engraving import read_card  # noqa: PLC0415

        order = self._order
        given = card_input(order.source.text, order.settings, order.asked)
        return self._kept(PhraseCard, card_name(order), lambda: read_card(given, self._reading()))

    def placing(self, edition: Edition) -> PlacingCard:
        """Return the card for an edition, made where it is missing."""
        from shedbook.book.scores.engraving import place_card  # noqa: PLC0415

        order = self._order
        given = placing_input(order.source.text, edition, order.settings, order.asked)
        name = placing_name(order, edition)
        return self._kept(PlacingCard, name, lambda: place_card(given, self._reading()))

    def engrave(self, edition: Edition, card: PlacingCard) -> list[ShedbookError]:
        """Make the missing pictures of an edition and return what went wrong."""
        from shedbook.book.scores.engraving import draw_pictures  # noqa: PLC0415

        order = self._order
        pictures = pictures_in(order, edition, card)
        missing = {
            id(pictures[key]): (key, name)
            for key, name in picture_names(pictures, order.versions).items()
            if name not in order.skip and not self._store.has("svg", name)
        }
        wanted = [picture for picture in pictures.values() if id(picture) in missing]
        errors: list[ShedbookError] = []
        for picture, drawn in draw_pictures(wanted, self._reading(), singly=order.singly):
            key, name = missing[id(picture)]
            if isinstance(drawn, ShedbookError):
                where = f'"{order.source.title}" in {key_in(key, card)}, {edition.title}'
                errors.append(RenderError(f"{where}: {drawn}", hint=drawn.hint))
                continue
            self._store.write("svg", name, _with_facts(drawn))
            self.made += 1
        return errors

    def _kept(self, kind: type[T], name: str, make: Callable[[], T]) -> T:
        """Return a card of the store, made where it is missing."""
        card = self._store.read_value(kind, "card", name)
        if card is None:
            card = make()
            self._store.write_value("card", name, card)
            self.made += 1
        return card

    def _reading(self) -> Reading:
        if self._begun is None:
            from shedbook.book.scores.engraving import Reading  # noqa: PLC0415

            self._begun = Reading()
        return self._begun


def _with_facts(picture: Picture) -> bytes:
    """Return a picture with its facts in a comment, in which two hyphens may not stand."""
    facts = to_json(picture.facts).replace(b"-", b"\\u002d")
    return b"".join((picture.svg.encode(), _FACTS_START.encode(), facts, _FACTS_END.encode()))


def compare_phrases(order: BetweenOrder) -> str:
    """Put what is found between the phrases into the store.

    Raises:
        ReadError: if one cannot be read, with its place.
    """
    from shedbook.book.scores.engraving import compare  # noqa: PLC0415 - as above

    try:
        found = compare(order.given)
    except ReadError as error:
        raise _at_its_place(error, order) from None
    Store(Path(order.store)).write_value("card", order.name, found)
    return order.name


def _at_its_place(error: ReadError, order: BetweenOrder) -> ReadError:
    for source in order.sources:
        try:
            source.text.phrase()
        except ReadError:
            return locate(error, source)
    return error


def compared_in(store: Store, name: str) -> Compared:
    """Return what was found between the phrases; nothing where the store does not know."""
    return store.read_value(Compared, "card", name) or Compared()
