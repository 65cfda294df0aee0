"""What workers run: read a phrase, engrave its keys, lay out an edition.

Each call takes one order, plain data that is cheap to send, puts its artefacts into the store itself,
and sends back only what is small. An artefact that is already there is left alone.
"""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shedbook.book.chord_style import in_style
from shedbook.book.manuscript import PhraseSource, read_phrase
from shedbook.book.pages import Score
from shedbook.book.plan import (
    CHANGES,
    HOME,
    Job,
    KeyOrder,
    Look,
    card_job,
    pictures_of,
    placing_job,
    score_jobs,
)
from shedbook.book.store import Store, content_hash
from shedbook.book.words import words_of
from shedbook.book.writing import put, refused
from shedbook.editions.instruments.edition import AUTHOR, Edition
from shedbook.errors import RenderError, ShedbookError

if TYPE_CHECKING:
    from shedbook.book.placing import Placing
    from shedbook.book.study import Studied

_FACTS_START, _FACTS_END = "\n<!-- drawn ", " -->"


@dataclass(frozen=True, slots=True)
class PhraseOrder:
    """Read a phrase, place it for the editions, and engrave the keys that are missing.

    `silenced` are rules of the proof-reader. Where a score has ended a worker before, `singly` draws one
    after the other, and `skip` names those that are to blame.
    """

    store: str
    source: PhraseSource
    keys: KeyOrder
    editions: tuple[Edition, ...]
    silenced: tuple[str, ...]
    look: Look
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
class PagesOrder:
    """Lay out an edition and put the PDF in its place."""

    store: str
    target: str
    job: str
    data: Mapping[str, Any]
    template: str = "book.typ"


def card_of(order: PhraseOrder) -> Job:
    """Return the job that makes the phrase's card."""
    return card_job(_fields(order.source), _options(order), order.versions)


def placing_of(order: PhraseOrder, edition: Edition) -> Job:
    """Return the job that places the phrase for an edition."""
    return placing_job(
        _fields(order.source), repr(edition), [*_options(order), *_language(order)], order.versions
    )


def _options(order: PhraseOrder) -> list[object]:
    return [asdict(order.keys), order.silenced, asdict(order.look.chord_style)]


def _language(order: PhraseOrder) -> list[object]:
    return [order.look.language, order.look.words]


def scores_of(order: PhraseOrder, edition: Edition, keys: Sequence[str]) -> dict[str, str]:
    """Return the names of the scores by written key, the large one in the home key first.

    The concert edition places each key for itself. In the others the registers of all keys hang together.
    """
    wanted = (HOME, *keys)
    fields = _fields(order.source)
    reader: list[object] = [edition.clef, repr(edition.transposition), edition.policy]
    if edition.policy == AUTHOR:
        fields.pop("fold", None)
    else:
        reader += [repr(edition.bands), order.keys.order, order.keys.written]
    if edition.tablature is not None:
        reader.append(repr(edition.tablature))
    jobs = score_jobs(fields, wanted, order.look, order.versions, reader)
    return {key: job.name for key, job in zip(wanted, jobs, strict=True)}


def make_phrase(order: PhraseOrder) -> PhraseDone:
    """Make the card, the placings and the scores of a phrase, as far as they are missing.

    A score that fails does not keep the others from being made.
    """
    desk = _Desk(order)
    try:
        desk.card()
        cards = [desk.placing_card(edition) for edition in order.editions]
        if not order.engrave:
            return PhraseDone(desk.made)
        errors: list[ShedbookError] = []
        for edition, card in zip(order.editions, cards, strict=True):
            errors += desk.engrave(edition, card)
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
        self._studied: Studied | None = None
        self._placed: dict[Edition, Placing] = {}

    def card(self) -> None:
        """Make the card."""
        from shedbook.book import engraving  # noqa: PLC0415

        self._kept(card_of(self._order).name, lambda: engraving.card(self._study(), self._order))

    def placing_card(self, edition: Edition) -> Mapping[str, Any]:
        """Return what the book must know of the phrase in an edition."""
        from shedbook.book.placing import placing_card  # noqa: PLC0415

        return self._kept(
            placing_of(self._order, edition).name,
            lambda: placing_card(
                self._study(),
                self._place(edition),
                edition,
                self._order.silenced,
                words_of(self._order.look.language, dict(self._order.look.words)),
            ),
        )

    def engrave(self, edition: Edition, card: Mapping[str, Any]) -> list[ShedbookError]:
        """Make the scores of an edition and return what went wrong."""
        from shedbook.book import engraving  # noqa: PLC0415

        names = scores_of(self._order, edition, pictures_of(card))
        missing = {
            key: name
            for key, name in names.items()
            if name not in self._order.skip and not self._store.has("svg", name)
        }
        if not missing:
            return []
        placing = self._place(edition)
        written = {HOME: placing.home.phrase}
        written |= {str(one.key.written): one.phrase for one in placing.keys}
        tabs = {str(one.key.written): one.tab for one in placing.keys} | {HOME: placing.home.tab}
        errors: list[ShedbookError] = []
        scores = engraving.scores(
            self._study(),
            {key: written[key] for key in missing if key in written},
            self._order.look,
            edition.clef,
            singly=self._order.singly,
            tabs=tabs,
        )
        scales = engraving.scales(
            self._study(), placing.home.phrase, self._order.look, edition.clef, singly=self._order.singly
        )
        changes = engraving.changes(placing.home.phrase, self._order.look)
        others = itertools.chain(scales, changes) if missing.keys() - written.keys() else ()
        for key, drawn in itertools.chain(scores, others):
            if key not in missing:
                continue
            if isinstance(drawn, ShedbookError):
                errors.append(
                    RenderError(
                        f'"{self._order.source.title}" in {key_in(key, card)}, {edition.title}: {drawn}',
                        hint=drawn.hint,
                    )
                )
                continue
            svg, facts = drawn
            content = f"{svg}{_FACTS_START}{_comment(facts)}{_FACTS_END}".encode()
            self._store.write("svg", missing[key], content)
            self.made += 1
        return errors

    def _kept(self, name: str, make: Callable[[], dict[str, Any]]) -> dict[str, Any]:
        """Return a card of the store, made where it is missing."""
        card = self._store.read_json("card", name)
        if card is None:
            card = make()
            self._store.write_json("card", name, card)
            self.made += 1
        return card

    def _study(self) -> Studied:
        if self._studied is None:
            from shedbook.book.study import study  # noqa: PLC0415

            self._studied = study(in_style(read_phrase(self._order.source), self._order.look.chord_style))
        return self._studied

    def _place(self, edition: Edition) -> Placing:
        if edition not in self._placed:
            from shedbook.book.placing import placing_of as place_for  # noqa: PLC0415

            self._placed[edition] = place_for(self._study(), self._order.keys, edition)
        return self._placed[edition]


def make_pages(order: PagesOrder) -> str:
    """Lay out an edition, put it in its place and return the hash of its bytes."""
    from shedbook.book import typst_door  # noqa: PLC0415 - as above

    store = Store(Path(order.store))
    content = typst_door.pdf(order.template, order.data, store.folder)
    target = Path(order.target)
    with refused(target):
        put(target, content, store.folder / "unfinished", lasting=True)
    return content_hash(content)


def score_in(store: Store, name: str, key: str) -> Score | None:
    """Return a finished score from the store with its size, or None when it is missing or damaged."""
    content = store.read("svg", name)
    if content is None:
        return None
    start = content.rindex(_FACTS_START.encode()) + len(_FACTS_START)
    facts = json.loads(content[start : -len(_FACTS_END)])
    facts["cuts_mm"] = tuple(facts["cuts_mm"])
    return Score(path=store.inner_path("svg", name), key=key, **facts)


def key_in(key: str, card: Mapping[str, Any]) -> str:
    """Return the written key that a score's name stands for."""
    return str(card["home"]) if key in (HOME, CHANGES) else key


def _fields(source: PhraseSource) -> dict[str, Any]:
    """Return all that the phrase's text depends on; an untitled phrase is called by its number."""
    return {**source.fields, "title": source.title}


def _comment(facts: Mapping[str, Any]) -> str:
    """Return facts as JSON that may stand in a comment, where two hyphens may not."""
    return json.dumps(facts, ensure_ascii=False).replace("-", "\\u002d")


@dataclass(frozen=True, slots=True)
class BetweenOrder:
    """Compare phrases of a book with one another."""

    store: str
    name: str
    sources: tuple[PhraseSource, ...]
    silenced: tuple[str, ...]


def compare_phrases(order: BetweenOrder) -> str:
    """Put what is found between the phrases into the store."""
    from shedbook.book.study import findings_between, study  # noqa: PLC0415 - as above

    studied = {source.number: study(read_phrase(source)) for source in order.sources}
    found = findings_between(studied, order.silenced)
    Store(Path(order.store)).write_json("card", order.name, {"findings": list(found)})
    return order.name
