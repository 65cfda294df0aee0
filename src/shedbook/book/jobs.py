"""What workers run: read a phrase, engrave its keys, lay out an edition.

Each call takes one order, plain data that is cheap to send, puts its artefacts into the store itself,
and sends back only what is small. An artefact that is already there is left alone.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shedbook.book.manuscript import PhraseSource, read_phrase
from shedbook.book.pages import Score
from shedbook.book.plan import HOME, Job, Look, card_job, score_jobs
from shedbook.book.store import Store, content_hash, put
from shedbook.errors import RenderError, ShedbookError

_FACTS_START, _FACTS_END = "\n<!-- drawn ", " -->"


@dataclass(frozen=True, slots=True)
class PhraseOrder:
    """Read a phrase, and engrave the keys that are missing.

    `keys` is the book's order, `enharmonic` the tonics that shall be called so, `asked` the tonics that
    are wanted when not all are, `silenced` rules of the proof-reader. `skip` are keys that have ended a
    worker before.
    """

    store: str
    source: PhraseSource
    keys: str | tuple[str, ...]
    enharmonic: tuple[str, ...]
    asked: tuple[str, ...]
    silenced: tuple[str, ...]
    look: Look
    versions: str
    engrave: bool = True
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


def card_of(order: PhraseOrder) -> Job:
    """Return the job that makes the phrase's card."""
    options = [order.keys, order.enharmonic, order.asked, order.silenced]
    return card_job(_fields(order.source), options, order.versions)


def scores_of(order: PhraseOrder, keys: Sequence[str]) -> dict[str, str]:
    """Return the names of the scores by key, the large one in the home key first."""
    wanted = (HOME, *keys)
    jobs = score_jobs(_fields(order.source), wanted, order.look, order.versions)
    return {key: job.name for key, job in zip(wanted, jobs, strict=True)}


def make_phrase(order: PhraseOrder) -> PhraseDone:
    """Make the card and the scores of a phrase, as far as they are missing.

    A score that fails does not keep the others from being made.
    """
    # The floors below are loaded here: the parent of the workers hardly ever needs them.
    from shedbook.book import engraving  # noqa: PLC0415
    from shedbook.book.study import study  # noqa: PLC0415

    store = Store(Path(order.store))
    name = card_of(order).name
    card = store.read_json("card", name)
    made = 0
    try:
        studied = None
        if card is None:
            studied = study(read_phrase(order.source))
            card = engraving.card(studied, order)
            store.write_json("card", name, card)
            made += 1
        if not order.engrave:
            return PhraseDone(made)
        missing = {
            key: score
            for key, score in scores_of(order, card["keys"]).items()
            if key not in order.skip and not store.has("svg", score)
        }
        if not missing:
            return PhraseDone(made)
        studied = studied or study(read_phrase(order.source))
    except ShedbookError as error:
        return PhraseDone(made, (error,))
    errors = []
    for key, drawn in engraving.scores(studied, {key: _key(key, card) for key in missing}, order.look):
        if isinstance(drawn, ShedbookError):
            errors.append(
                RenderError(f'"{order.source.title}" in {_key(key, card)}: {drawn}', hint=drawn.hint)
            )
            continue
        svg, facts = drawn
        store.write("svg", missing[key], f"{svg}{_FACTS_START}{_comment(facts)}{_FACTS_END}".encode())
        made += 1
    return PhraseDone(made, tuple(errors))


def make_pages(order: PagesOrder) -> str:
    """Lay out an edition, put it in its place and return the hash of its bytes."""
    from shedbook.book import typst_door  # noqa: PLC0415 - as above

    store = Store(Path(order.store))
    content = typst_door.pdf("book.typ", order.data, store.folder)
    put(Path(order.target), content, store.folder / "unfinished", lasting=True)
    return content_hash(content)


def score_in(store: Store, name: str, key: str) -> Score | None:
    """Return a finished score from the store with its size, or None when it is missing or damaged."""
    content = store.read("svg", name)
    if content is None:
        return None
    start = content.rindex(_FACTS_START.encode()) + len(_FACTS_START)
    facts = json.loads(content[start : -len(_FACTS_END)])
    return Score(path=store.inner_path("svg", name), key=key, **facts)


def _key(key: str, card: Mapping[str, Any]) -> str:
    return str(card["home"]) if key == HOME else key


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
