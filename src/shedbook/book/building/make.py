"""Making a book: the phrases read and engraved, then its editions laid out, as far as they are not there.

The verb `build` calls this when its record of an earlier build does not answer. What one run of a job gave is
in the store at once, so a build that is stopped goes on from there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from shedbook.book.building.book_layout import lay_out_books
from shedbook.book.building.page_orders import Books, pages_orders, seals_of_pictures, shop_pictures
from shedbook.book.building.record import Outcome, is_watched
from shedbook.book.ground.findings import BookFinding, of_phrase, refuse_final
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import chosen_editions, chosen_phrases, chosen_tonics, chosen_tracks
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript, open_manuscript
from shedbook.book.manuscript.request import Request, book_name, practice_folder_name
from shedbook.book.manuscript.tablature import asked_tablature, tablature_findings
from shedbook.book.manuscript.translation import translation_findings
from shedbook.book.pages.layout import PagesOrder, keep_printed, laid_out_before, note_laid_out
from shedbook.book.pages.shop_pictures import ShopPicture
from shedbook.book.practice.make import BuiltTracks, make_practice_page
from shedbook.book.reading_back.orders import BackOrder
from shedbook.book.scores.inputs import between_input
from shedbook.book.scores.shelf import Shelf, findings_on, findings_there, next_score, shelf_of
from shedbook.book.scores.worker import (
    BetweenOrder,
    PhraseDone,
    PhraseOrder,
    compared_in,
    make_phrase,
)
from shedbook.book.tracks.make import make_tracks, plan_tracks
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.naming import name_of
from shedbook.book.workshop.output_folder import (
    STORE,
    claim,
    no_longer_asked_for,
    page_no_longer_asked_for,
)
from shedbook.book.workshop.store import Seal, Store, file_seal
from shedbook.book.workshop.versions import score_fingerprint
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import BuildError, ReadError, RenderError, ShedbookError


@dataclass(frozen=True, slots=True)
class _Laid:
    """What the last phase gave: the PDFs' hashes by name, findings between phrases, names in the store.

    `orders` are those of the PDFs, each with its edition.
    """

    pdfs: Mapping[str, str]
    between: Sequence[BookFinding]
    names: tuple[str, ...]
    orders: tuple[tuple[PagesOrder, Edition], ...]


@dataclass(slots=True)
class _Making:
    """One build under way.

    `pictures` are those of cover and title page, `told` warnings with their hints, `moved` those of what was
    put apart.
    """

    manuscript: Manuscript
    request: Request
    store: Store
    out: Path
    crew: Crew
    tell: Tell
    editions: tuple[Edition, ...]
    orders: tuple[PhraseOrder, ...]
    jobs_run: int = 0
    pictures: Mapping[str, ShopPicture] = field(default_factory=dict)
    told: list[tuple[str, str]] = field(default_factory=list)
    moved: list[tuple[str, str]] = field(default_factory=list)


def make(request: Request, root: Path, out: Path, tell: Tell, crew: Crew) -> Outcome:
    """Make what is missing and return what came of the build.

    Raises:
        ShedbookError: as the verb `build`.
    """
    chosen_tonics(request.keys)
    manuscript = open_manuscript(root, keep_going=True)
    settings = manuscript.settings
    editions = chosen_editions(request.editions, settings, request.tablature)
    chosen_tracks(request.tracks, settings.tracks)
    phrases = chosen_phrases(manuscript.phrases, request.phrases) if manuscript.phrases else ()
    phrases = phrases[: request.sample or None]
    tell(Step("reading", len(phrases), len(phrases)))
    claim(out)
    store = Store(out / STORE)
    folder, versions = str(store.folder.resolve()), score_fingerprint()
    orders = tuple(
        PhraseOrder(folder, source, settings, request.keys, editions, versions) for source in phrases
    )
    with store.held():
        return _made(_Making(manuscript, request, store, out, crew, tell, editions, orders))


def _made(making: _Making) -> Outcome:
    request, store = making.request, making.store
    making.pictures, told = shop_pictures(making.manuscript, store)
    making.told += told
    shelves = _shelves(making)
    memory = [making.crew.phase_memory("engraving")]
    findings = [
        one for order, shelf in zip(making.orders, shelves, strict=True) for one in findings_on(shelf, order)
    ]
    plan = plan_tracks(making.manuscript, request, making.orders, store, making.out, making.crew)
    laid = _laid_out(making, shelves, findings)
    memory.append(making.crew.phase_memory("pages"))
    back = _read_back(making, laid.orders) if request.read_back else 0
    if not request.editions and not request.kind:
        making.moved += no_longer_asked_for(
            making.out, book_name(making.manuscript.root), [one.slug for one in making.editions], laid.pdfs
        )
    if plan.orders:
        making.crew.close()  # the page layout keeps what it has read
    tracks = make_tracks(plan, store, making.out, making.crew, making.tell)
    memory.append(making.crew.phase_memory("tracks"))
    page = make_practice_page(
        making.manuscript,
        request,
        [(order.source, shelf.card) for order, shelf in zip(making.orders, shelves, strict=True)],
        making.editions,
        BuiltTracks(plan.orders, tuple(tracks.files)),
        store,
        making.out,
        making.crew,
        making.tell,
    )
    if not request.editions and not request.kind and not page.files:
        making.moved += page_no_longer_asked_for(
            making.out / practice_folder_name(making.manuscript.root, request)
        )
    everything = [
        *_of_book(making),
        *plan.findings,
        *sorted([*findings, *laid.between], key=lambda one: one.number),
    ]
    return Outcome(
        pdfs=laid.pdfs,
        findings=tuple(everything),
        tracks=tracks.files,
        watched={
            **plan.watched,
            **seals_of_pictures(making.manuscript),
            **_seals_of_sources(making.manuscript),
        },
        played_with=tracks.played_with,
        warnings=(*((one.message, one.hint) for one in tracks.warnings), *making.told),
        jobs_run=making.jobs_run + tracks.jobs_run + page.jobs_run,
        uses=(*(name for shelf in shelves for name in shelf.names), *laid.names, *tracks.uses, *page.uses),
        read_back=back,
        memory=tuple(memory if plan.orders else memory[:2]),
        practice=page.files,
        moved=tuple(making.moved),
        complete=not tracks.warnings and all(is_watched(order.source.file) for order in making.orders),
    )


def _shelves(making: _Making) -> list[Shelf]:
    """Return what the store holds of every phrase, made where it is missing."""
    orders, store, unread = making.orders, making.store, making.manuscript.unread
    shelves = [shelf_of(store, order) for order in orders]
    missing = [order for order, shelf in zip(orders, shelves, strict=True) if shelf is None]
    if unread or making.request.final:
        _work(making, [replace(order, engrave=False) for order in missing], unread)
        there = [found for order in orders for found in findings_there(store, order)]
        refuse_final(there, final=making.request.final)
    _work(making, missing)
    whole = [shelf or shelf_of(store, order) for order, shelf in zip(orders, shelves, strict=True)]
    ready = [shelf for shelf in whole if shelf is not None]
    if len(ready) != len(orders):
        raise RenderError(
            "Scores vanished from the store while the book was made.", hint="Run the build again."
        )
    return ready


def _of_book(making: _Making) -> tuple[BookFinding, ...]:
    """Return what is found of the settings; the proof-reader is loaded only if there is something to ask."""
    settings = making.manuscript.settings
    silenced = settings.silenced
    asked = asked_tablature(making.request.tablature, settings)
    words = words_of(settings.language, dict(settings.pages.words))
    found = (
        *tablature_findings(making.editions, asked, silenced, MANUSCRIPT_FILE, words),
        *translation_findings(settings, MANUSCRIPT_FILE),
    )
    if not silenced:
        return found
    from shedbook.book.scores.study import findings_of_book  # noqa: PLC0415

    return (*found, *findings_of_book(silenced, words))


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


def _seals_of_sources(manuscript: Manuscript) -> dict[str, Seal | None]:
    """Return the seals of the files of other books that phrases are taken from."""
    files = {file for one in manuscript.phrases if one.taken is not None for file in one.taken.files}
    return {str(file): file_seal(file) for file in sorted(files)}


# Pages.


def _laid_out(making: _Making, shelves: Sequence[Shelf], findings: Sequence[BookFinding]) -> _Laid:
    """Lay out the editions, and compare the phrases meanwhile."""
    every: list[tuple[PagesOrder, Edition]] = []
    books = Books(making.manuscript, making.request, making.store, making.out, making.orders, making.pictures)
    for place, edition in enumerate(making.editions):
        proof = any(one.severity == "error" and one.edition in ("", edition.name) for one in findings)
        every += [(order, edition) for order in pages_orders(books, edition, shelves, place, proof=proof)]
    notes = {order.target: laid_out_before(making.store, order) for order, _ in every}
    missing = [order for order, _ in every if notes[order.target] is None]
    between = _between_order(making, shelves)
    compared = not between.sources or making.store.has("card", between.name)
    if missing or not compared:
        made, parts = lay_out_books(
            making.crew, making.store, missing, None if compared else between, making.tell
        )
        making.jobs_run += parts
        for order, note in zip(missing, made, strict=True):
            notes[order.target] = note
            note_laid_out(making.store, order, note)
    by_number = {source.number: source for source in between.sources}
    found = [
        of_phrase(one.number, by_number[one.number].title, by_number[one.number].file, one.finding)
        for one in compared_in(making.store, between.name).findings
    ]
    pdfs: dict[str, str] = {}
    names = [between.name]
    for order, _ in every:
        laid = notes[order.target]
        if laid is not None:
            pdfs |= zip((target.name for target in order.targets), laid.contents, strict=True)
            names += [*order.note_names, *laid.parts]
    if making.request.bundle:
        names += [keep_printed(making.store, order) for order, _ in every]
    return _Laid(pdfs, found, tuple(names), tuple(every))


def _read_back(making: _Making, books: Sequence[tuple[PagesOrder, Edition]]) -> int:
    """Read the finished books back and return how many scores were read.

    Raises:
        BuildError: if any score does not say what its phrase does.
    """
    from shedbook.book.reading_back.check_book import read_book  # noqa: PLC0415 - only where it is asked for

    orders = [
        BackOrder(book.store, book.target, book.data, edition, making.orders) for book, edition in books
    ]
    making.tell(Step("back", 0, len(orders)))
    scores, errors = 0, list[ShedbookError]()
    for done, (_, result) in enumerate(making.crew.run(read_book, orders), 1):
        if isinstance(result, Lost):
            raise RenderError("Reading a book back ended the program that did it.", hint="Is memory short?")
        scores += result.scores
        errors += result.errors
        making.tell(Step("back", done, len(orders)))
    if errors:
        raise BuildError(
            f"{len(errors)} things on the pages are not what the phrases say.",
            errors=errors,
            hint="The books lie in the output folder; do not pass them on.",
        )
    return scores


def _between_order(making: _Making, shelves: Sequence[Shelf]) -> BetweenOrder:
    """Return the order to compare the phrases that share the outline of their line with another."""
    outlines = Counter(shelf.card.outline for shelf in shelves)
    alike = tuple(
        order.source
        for order, shelf in zip(making.orders, shelves, strict=True)
        if outlines[shelf.card.outline] > 1
    )
    given = between_input(alike, making.manuscript.settings)
    name = name_of("compare", given, score_fingerprint())
    return BetweenOrder(str(making.store.folder.resolve()), name, alike, given)
