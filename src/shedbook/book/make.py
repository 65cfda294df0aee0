"""Making a book: the phrases read and engraved, then its editions laid out, as far as they are not there.

`build` calls this when its record of an earlier build does not answer. What one run of a job gave is in
the store at once, so a build that is stopped goes on from there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from shedbook.book.book_words import book_words
from shedbook.book.choice import chosen_editions, chosen_phrases, chosen_tracks, tonic_of
from shedbook.book.jobs import (
    BetweenOrder,
    PagesOrder,
    PhraseDone,
    PhraseOrder,
    compare_phrases,
    make_pages,
    make_phrase,
)
from shedbook.book.manuscript import MANUSCRIPT_FILE, Manuscript, PhraseSource, open_manuscript
from shedbook.book.outfolder import STORE, claim
from shedbook.book.pages import PhrasePages, page_data, proof_data
from shedbook.book.plan import CHANGES, HOME, between_job, look_of, pages_job, scale_pictures, wishes_of
from shedbook.book.request import BookFinding, Request, Step, Tell, pdf_path, refuse_final
from shedbook.book.run import Crew, Lost
from shedbook.book.shelf import (
    NO_CARD,
    EditionShelf,
    Shelf,
    book_finding,
    findings_there,
    next_score,
    shelf_of,
)
from shedbook.book.store import Store, content_hash, digest
from shedbook.book.tablature import asked_tablature, tablature_findings
from shedbook.book.track_making import make_tracks, plan_tracks
from shedbook.book.versions import score_fingerprint
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import BuildError, ReadError, RenderError, ShedbookError


@dataclass(frozen=True, slots=True)
class _Laid:
    """What the last phase gave: the PDFs' hashes by name, findings between phrases, names in the store."""

    pdfs: Mapping[str, str]
    between: Sequence[BookFinding]
    names: tuple[str, ...]


@dataclass(slots=True)
class _Making:
    """One build under way."""

    manuscript: Manuscript
    request: Request
    store: Store
    crew: Crew
    tell: Tell
    orders: tuple[PhraseOrder, ...]
    jobs_run: int = 0


def make(request: Request, root: Path, out: Path, tell: Tell, crew: Crew) -> dict[str, Any]:
    """Make what is missing and return the record of the build.

    Raises:
        ShedbookError: as `build.build`.
    """
    for tonic in request.keys:
        tonic_of(tonic)
    manuscript = open_manuscript(root, keep_going=True)
    editions = chosen_editions(request.editions, manuscript.settings, request.tablature)
    chosen_tracks(request.tracks, manuscript.settings.tracks)
    phrases = chosen_phrases(manuscript.phrases, request.phrases) if manuscript.phrases else ()
    phrases = phrases[: request.sample or None]
    tell(Step("reading", len(phrases), len(phrases)))
    claim(out)
    store = Store(out / STORE)
    orders = tuple(_order(source, editions, manuscript, request, store) for source in phrases)
    with store.held():
        return _made(_Making(manuscript, request, store, crew, tell, orders), out, editions)


def _order(
    source: PhraseSource,
    editions: tuple[Edition, ...],
    manuscript: Manuscript,
    request: Request,
    store: Store,
) -> PhraseOrder:
    settings = manuscript.settings
    return PhraseOrder(
        store=str(store.folder.resolve()),
        source=source,
        keys=wishes_of(settings, request.keys),
        editions=editions,
        silenced=settings.silenced,
        look=look_of(settings),
        versions=score_fingerprint(),
    )


def _made(making: _Making, out: Path, editions: Sequence[Edition]) -> dict[str, Any]:
    orders, request = making.orders, making.request
    shelves = [shelf_of(making.store, order) for order in orders]
    missing = [order for order, shelf in zip(orders, shelves, strict=True) if shelf is None]
    if making.manuscript.unread or request.final:
        _work(making, [replace(order, engrave=False) for order in missing], making.manuscript.unread)
        refuse_final(request, [found for order in orders for found in findings_there(making.store, order)])
    _work(making, missing)
    whole = [shelf or shelf_of(making.store, order) for order, shelf in zip(orders, shelves, strict=True)]
    ready = [shelf for shelf in whole if shelf is not None]
    if len(ready) != len(orders):
        raise RenderError(
            "Scores vanished from the store while the book was made.", hint="Run the build again."
        )
    findings = [
        book_finding(order.source, finding)
        for order, shelf in zip(orders, ready, strict=True)
        for card in (shelf.card, *(one.card for one in shelf.editions))
        for finding in card["findings"]
    ]
    plan = plan_tracks(making.manuscript, request, orders, making.store, out, making.crew)
    laid = _laid_out(making, out, editions, ready, findings)
    if plan.orders:
        making.crew.close()  # the page layout keeps what it has read
    tracks = make_tracks(plan, making.store, out, making.crew, making.tell)
    everything = [
        *_of_book(making, editions),
        *plan.findings,
        *sorted([*findings, *laid.between], key=lambda one: one.number),
    ]
    return {
        "pdfs": laid.pdfs,
        "findings": [finding._asdict() for finding in everything],
        "tracks": tracks.files,
        "watched": plan.watched or {},
        "played_with": tracks.played_with,
        "warnings": [(one.message, one.hint) for one in tracks.warnings],
        "jobs_run": making.jobs_run + tracks.jobs_run,
        "uses": [*(name for shelf in ready for name in shelf.names), *laid.names, *tracks.uses],
        "recorded": not tracks.warnings and all(_is_watched(order.source.file) for order in orders),
    }


def _of_book(making: _Making, editions: Sequence[Edition]) -> tuple[BookFinding, ...]:
    """Return what is found of the settings; the proof-reader is loaded only if there is something to ask."""
    settings = making.manuscript.settings
    silenced = settings.silenced
    asked = asked_tablature(making.request.tablature, settings)
    found = tablature_findings(editions, asked, silenced, MANUSCRIPT_FILE)
    if not silenced:
        return found
    from shedbook.book.study import findings_of_book  # noqa: PLC0415

    return (*found, *findings_of_book(silenced))


def _is_watched(file: str) -> bool:
    """Say whether a build's record notices a change of this file."""
    return file.endswith(".toml") and not any(part.startswith(".") for part in file.split("/"))


# Phrases.


def _work(making: _Making, orders: Sequence[PhraseOrder], unread: Sequence[ShedbookError] = ()) -> None:
    """Read and engrave phrases.

    Once a phrase turns out unreadable, the others are only read, so that all errors come at once and soon.

    Raises:
        BuildError: with everything that went wrong, in the order of the book.
    """
    errors: dict[int, list[ShedbookError]] = {}
    left = {order.source.number: order for order in orders}
    for order, result in making.crew.run(make_phrase, orders):
        del left[order.source.number]
        finished = _survived(making, order) if isinstance(result, Lost) else result
        making.jobs_run += finished.jobs_run
        phase = "engraving" if order.engrave else "reading"
        making.tell(Step(phase, len(orders) - len(left), len(orders)))
        if finished.errors:
            errors[order.source.number] = list(finished.errors)
        if order.engrave and any(isinstance(error, ReadError) for error in finished.errors):
            break
    for order, result in making.crew.run(make_phrase, [replace(one, engrave=False) for one in left.values()]):
        if isinstance(result, PhraseDone) and result.errors:
            errors[order.source.number] = list(result.errors)
    everything = [*unread, *(error for number in sorted(errors) for error in errors[number])]
    if len(everything) == 1:
        raise everything[0]
    if everything:
        raise BuildError(
            f"{len(everything)} things stopped the build.",
            errors=everything,
            hint="What was finished is kept; the next build goes on from there.",
        )


def _survived(making: _Making, order: PhraseOrder) -> PhraseDone:
    """Go on with a phrase of which one key ended the worker, without that key.

    Keys are drawn together; so they are drawn once more one by one, and what is missing then is to blame.
    """
    order = replace(order, singly=True)
    ((_, result),) = making.crew.run(make_phrase, [order])
    if not isinstance(result, Lost):
        return result
    made, errors = 0, list[ShedbookError]()
    while True:
        title = order.source.title
        guilty = next_score(making.store, order)
        if guilty is None:
            return PhraseDone(
                made, (*errors, RenderError(f'Reading "{title}" ended the program that did it.'))
            )
        name, where = guilty
        if not name:
            return PhraseDone(made, tuple(errors))
        errors.append(
            RenderError(
                f'Engraving "{title}" in {where} ended the program that did it.',
                hint="The other keys are kept. This is no fault of yours; please report the phrase.",
            )
        )
        order = replace(order, skip=(*order.skip, name))
        ((_, result),) = making.crew.run(make_phrase, [order])
        if not isinstance(result, Lost):
            return PhraseDone(made + result.jobs_run, (*errors, *result.errors))


# Pages.


def _laid_out(
    making: _Making,
    out: Path,
    editions: Sequence[Edition],
    shelves: Sequence[Shelf],
    findings: Sequence[BookFinding],
) -> _Laid:
    """Lay out the editions, and compare the phrases meanwhile."""
    pdfs: dict[str, str] = {}
    every: list[PagesOrder] = []
    pages: list[PagesOrder] = []
    for place, edition in enumerate(editions):
        proof = any(one.severity == "error" and one.edition in ("", edition.name) for one in findings)
        sets = [shelf.editions[place] for shelf in shelves]
        every.append(_pages_order(making, out, edition, shelves, sets, proof=proof))
        seal = _laid_out_before(making.store, every[-1])
        if seal is None:
            pages.append(every[-1])
        else:
            pdfs[Path(every[-1].target).name] = seal
    between = _between_order(making, shelves)
    calls: list[PagesOrder | BetweenOrder] = [*pages]
    if between.sources and not making.store.has("card", between.name):
        calls.append(between)
    done = 0
    if pages:
        making.tell(Step("pages", 0, len(pages)))
    # The page layout keeps all it has read, some hundred megabytes a book.
    for call, result in making.crew.run_fresh(_lay_out_or_compare, calls):
        if isinstance(result, Lost):
            raise RenderError("Laying out the pages ended the program that did it.", hint="Is memory short?")
        making.jobs_run += 1
        if isinstance(call, PagesOrder):
            done += 1
            pdfs[Path(call.target).name] = result
            making.store.write_json("card", _pages_name(call), {"job": call.job, "seal": result})
            making.tell(Step("pages", done, len(pages)))
    compared = making.store.read_json("card", between.name) or NO_CARD
    by_number = {order.source.number: order.source for order in making.orders}
    found = [book_finding(by_number[one["number"]], one) for one in compared["findings"]]
    ordered = {name: pdfs[name] for name in (Path(order.target).name for order in every)}
    return _Laid(ordered, found, (between.name, *(_pages_name(order) for order in every)))


def _lay_out_or_compare(order: PagesOrder | BetweenOrder) -> str:
    return make_pages(order) if isinstance(order, PagesOrder) else compare_phrases(order)


def _pages_order(
    making: _Making,
    out: Path,
    edition: Edition,
    shelves: Sequence[Shelf],
    sets: Sequence[EditionShelf],
    *,
    proof: bool,
) -> PagesOrder:
    request = making.request
    words = book_words(making.manuscript, request, edition, [one.card for one in sets])
    phrases = [
        PhrasePages(
            order.source.number,
            {**shelf.card, **one.card},
            one.scores[HOME],
            tuple(one.scores[key] for key in one.card["keys"]),
            tuple(one.scores[name] for name in scale_pictures(len(one.card["scales"]))),
            tuple(one.card["concert"]) if edition.transposes else (),
            one.scores[CHANGES],
        )
        for order, shelf, one in zip(making.orders, shelves, sets, strict=True)
    ]
    data = proof_data(words, phrases) if request.proof_sheet else page_data(words, phrases, proof=proof)
    target = pdf_path(making.manuscript.root, out, f"{edition.slug}{request.kind}").resolve()
    return PagesOrder(
        str(making.store.folder.resolve()),
        str(target),
        pages_job(data, score_fingerprint()).name,
        data,
        "proof.typ" if request.proof_sheet else "book.typ",
    )


def _pages_name(order: PagesOrder) -> str:
    """Return the name under which the store notes what a PDF was made from."""
    return digest("pages", Path(order.target).name)


def _laid_out_before(store: Store, order: PagesOrder) -> str | None:
    """Return the hash of the PDF that lies in its place, if it is what this order would make."""
    note = store.read_json("card", _pages_name(order))
    if note is None or note["job"] != order.job:
        return None
    try:
        same = content_hash(Path(order.target).read_bytes()) == note["seal"]
    except OSError:
        return None
    return str(note["seal"]) if same else None


def _between_order(making: _Making, shelves: Sequence[Shelf]) -> BetweenOrder:
    """Return the order to compare the phrases that share the outline of their line with another."""
    outlines = Counter(shelf.card["outline"] for shelf in shelves)
    alike = [
        (order.source, shelf.names[0])
        for order, shelf in zip(making.orders, shelves, strict=True)
        if outlines[shelf.card["outline"]] > 1
    ]
    numbered = [f"{source.number} {name}" for source, name in alike]
    return BetweenOrder(
        str(making.store.folder.resolve()),
        between_job(numbered, score_fingerprint()).name,
        tuple(source for source, _ in alike),
        making.manuscript.settings.silenced,
    )
