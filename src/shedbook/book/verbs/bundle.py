"""The bundle: a book built, read back, and packed as it is uploaded and unpacked.

Into the folder `bundle` of the output folder go a zip for each edition, a sample, the cover in the sizes of
shops, pages to look into, half a minute to listen to, the listing, and a manifest. What is there and whole is
not made again, so a bundle that is stopped goes on from there.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.book.bundle.beside import beside_zips, samples_of
from shedbook.book.bundle.contents import Packed, finished_tracks, packed
from shedbook.book.bundle.making import Bundling, each, kept
from shedbook.book.bundle.manifest import MANIFEST, About, BookMusic, Changes, FileRow, FolderManifest
from shedbook.book.bundle.music import edition_row, told_by
from shedbook.book.bundle.zip_file import Member, check_room, most_bytes
from shedbook.book.bundle.zips import Exchanged, members_of_zips, put_zip, versions_of
from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import words_of
from shedbook.book.ground.writing import put, refused
from shedbook.book.manuscript.choice import chosen_editions, chosen_phrases
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request, book_name, pdf_path
from shedbook.book.pages.data import BookData
from shedbook.book.pages.layout import printed_name
from shedbook.book.reading_back.orders import BackOrder
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.book.scores.worker import PhraseOrder, card_name
from shedbook.book.verbs.build import Built, build
from shedbook.book.verbs.export_keys import KeysOrder, phrase_files
from shedbook.book.workshop.crew import Crew
from shedbook.book.workshop.output_folder import STORE, default_output
from shedbook.book.workshop.store import Store
from shedbook.book.workshop.versions import score_fingerprint
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import BuildError, RenderError

_SAMPLE_PHRASES = 2
_FIRST_VERSION = "1"


@dataclass(frozen=True, slots=True)
class Bundled:
    """What came of it: the files of the bundle, what the build gave, bytes in all, what is to be said.

    `packed` counts the zips that were made; the others were there.
    """

    folder: Path
    files: tuple[Path, ...]
    built: Built
    size: int
    packed: int
    told: tuple[str, ...] = ()


def bundle(request: Request, tell: Tell = lambda step: None, changes: Changes | None = None) -> Bundled:
    """Build the book and make its bundle. A book with error findings is refused, as `--final` does.

    Args:
        request: what is asked for; with `sample` the sample has so many phrases.
        tell: is called with every step.
        changes: what has changed since an earlier version.

    Raises:
        ShedbookError: as the verb `build`; BuildError too if a page does not say what its phrase does.
    """
    sample = request.sample or _SAMPLE_PHRASES
    whole = replace(request, sample=0, proof_sheet=False, final=True, bundle=True)
    built = build(whole, tell)
    build(_sample(whole, sample), tell)
    crew = Crew(request.jobs or os.cpu_count() or 1)
    try:
        made = _bundled(_begun(whole, tell, crew, changes or Changes()), built, sample)
    except BaseException:
        crew.stop()
        raise
    crew.close()
    return made


def _begun(request: Request, tell: Tell, crew: Crew, changes: Changes) -> Bundling:
    root = request.manuscript.parent if request.manuscript.is_file() else request.manuscript
    manuscript = open_manuscript(root)
    settings = manuscript.settings
    out = request.out or default_output(root, book_name(root))
    store = Store(out / STORE)
    editions = chosen_editions(request.editions, settings, request.tablature)
    folder, versions = str(store.folder.resolve()), score_fingerprint()
    sources = chosen_phrases(manuscript.phrases, request.phrases)
    orders = tuple(PhraseOrder(folder, one, settings, request.keys, editions, versions) for one in sources)
    about = About(
        f"{book_name(root)}",
        manuscript.title,
        settings.author,
        settings.shop.version or _FIRST_VERSION,
        settings.language,
        request.licensee,
        settings.pages.words,
        bool(request.keys or request.phrases or request.tracks),
    )
    words = words_of(settings.language, dict(settings.pages.words))
    cards = [(one.source.number, kept(store, PhraseCard, card_name(one))) for one in orders]
    return Bundling(
        manuscript, request, out, store, tell, crew, about, words, editions, orders, cards, changes
    )


def _bundled(making: Bundling, built: Built, sample: int) -> Bundled:
    making.page = built.practice_page
    tracks = finished_tracks(
        making.manuscript, making.request, making.cards, built.tracks, making.store, making.out
    )
    asked = making.request
    pdfs = {one.name: _pdf(making, one, asked) for one in making.editions}
    samples = {one.name: _pdf(making, one, _sample(asked, sample)) for one in making.editions}
    first = [_back_order(making, one, samples[one.name], making.orders[:sample]) for one in making.editions]
    whole = [_back_order(making, one, pdfs[one.name], making.orders) for one in making.editions]
    music = _music(making, [*whole, *first])
    zips = members_of_zips(making, tracks, pdfs, music, _exchanged(making))
    before = _listed(making)
    rows, made = _packed(making, zips)
    for one in (*beside_zips(making, tracks, pdfs, music, zips), *samples_of(samples)):
        _put(making, one)
        rows.append(one.row)
    said = FolderManifest(
        about=making.about,
        versions=versions_of(making),
        editions=tuple(map(edition_row, making.editions)),
        files=tuple(rows),
        samples=tuple(music[Path(one.target).name] for one in first),
        changes=making.changes,
    )
    _put(making, packed(MANIFEST, "manifest", to_json(said)))
    _take_away(making, before, rows)
    files = tuple(making.folder / row.name for row in rows)
    size = sum(row.size for row in rows)
    return Bundled(making.folder, (*files, making.folder / MANIFEST), built, size, made, tuple(making.told))


def _sample(request: Request, phrases: int) -> Request:
    """Return the request for the free sample of a book."""
    return replace(request, sample=phrases, tracks=("none",), licensee="")


def _pdf(making: Bundling, edition: Edition, request: Request) -> Path:
    return pdf_path(making.manuscript.root, making.out, f"{edition.slug}{request.kind}")


def _packed(making: Bundling, zips: Mapping[str, Sequence[Packed]]) -> tuple[list[FileRow], int]:
    """Put the zips in their places, once their size is told; return their rows, and how many were made."""
    with refused(making.folder):
        making.folder.mkdir(parents=True, exist_ok=True)
    needed = sum(most_bytes([one.member for one in members]) for members in zips.values())
    check_room(making.out, needed)
    making.tell(Step("size", 1, 1, f"The bundle: {len(zips)} zip files, {needed / 1e6:,.1f} MB at most."))
    rows, made = [], 0
    for place, (name, members) in enumerate(zips.items(), 1):
        row, new = put_zip(making, name, members)
        rows.append(row)
        made += new
        making.tell(Step("packing", place, len(zips)))
    return rows, made


def _back_order(making: Bundling, edition: Edition, pdf: Path, orders: Sequence[PhraseOrder]) -> BackOrder:
    data = kept(making.store, BookData, printed_name(pdf.name))
    return BackOrder(str(making.store.folder.resolve()), str(pdf.resolve()), data, edition, tuple(orders))


def _music(making: Bundling, orders: Sequence[BackOrder]) -> Mapping[str, BookMusic]:
    """Return what each PDF holds, by its name, once it has been read back.

    Raises:
        BuildError: if a page does not say what its phrase does.
    """
    found: dict[str, BookMusic] = {}
    errors: list[RenderError] = []
    for order, told in each(making, "back", told_by, orders):
        errors += told.errors
        if told.music is not None:
            found[Path(order.target).name] = told.music
    if errors:
        raise BuildError(
            f"{len(errors)} things on the pages are not what the phrases say.",
            errors=errors,
            hint="No bundle was made.",
        )
    return found


def _exchanged(making: Bundling) -> Exchanged:
    """Return the files for other programs of each edition and phrase."""
    orders = [
        KeysOrder(one.store, one.source, one.settings, edition, one.asked)
        for edition in making.editions
        for one in making.orders
    ]
    found = {}
    for order, made in each(making, "exchange", phrase_files, orders):
        rows = [(key.written, key.musicxml, key.midi) for key in made.keys]
        found[order.edition.name, order.source.number] = rows
    return found


def _put(making: Bundling, one: Packed) -> None:
    target = making.folder / one.row.name
    content = one.member.content
    with refused(target):
        target.parent.mkdir(parents=True, exist_ok=True)
        whole = content if isinstance(content, bytes) else content.read_bytes()
        put(target, whole, making.store.folder / "unfinished", lasting=True)


def _listed(making: Bundling) -> tuple[FileRow, ...]:
    """Return the files of the bundle that lay here before."""
    try:
        return from_json(FolderManifest, (making.folder / MANIFEST).read_bytes()).files
    except (OSError, ValueError):
        return ()


def _take_away(making: Bundling, before: Sequence[FileRow], rows: Sequence[FileRow]) -> None:
    """Take away what an earlier bundle left and nobody has changed; tell of files that are nobody's."""
    named, ours = {row.name for row in rows} | {MANIFEST}, {row.name: row.sha256 for row in before}
    for path in sorted(making.folder.rglob("*")):
        name = path.relative_to(making.folder).as_posix()
        if not path.is_file() or name in named:
            continue
        if ours.get(name) == Member(name, path).sha256():
            with contextlib.suppress(OSError):
                path.unlink()
        else:
            making.told.append(f"{name} lies in the bundle's folder and is none of its files.")
