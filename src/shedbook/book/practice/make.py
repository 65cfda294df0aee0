"""Making the student's page: what is missing of its phrases, then the folder."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request, book_name, practice_folder_name
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.practice.folder import BookData, PhraseData, folder_files, write_folder
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.practice.tracks_beside import followed, timed_inputs, tracks_beside
from shedbook.book.practice.worker import data_in, make_phrase_data
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.book.tracks.orders import TrackOrder, playable
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.store import Seal, Store, file_seal
from shedbook.book.workshop.versions import LIBRARIES, fingerprint_of, library_version
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import BuildError, RenderError, ShedbookError

_NOT_IN_AN_ID = re.compile(r"[^\w-]+")
_INDEX = "index.html"


@dataclass(frozen=True, slots=True)
class BuiltTracks:
    """The tracks of a build: the orders for them, and the names of their files from the output folder."""

    orders: tuple[TrackOrder, ...] = ()
    files: tuple[str, ...] = ()

    def files_by_stem(self) -> dict[str, list[str]]:
        """Return the files of each track by its stem."""
        found = dict[str, list[str]]()
        for name in self.files:
            found.setdefault(Path(name).stem, []).append(name)
        return found


@dataclass(frozen=True, slots=True)
class PracticeMade:
    """What became of the page.

    `files` are seals by name from the output folder: a build in which nothing has changed looks at them.
    """

    files: Mapping[str, Seal | None] = field(default_factory=dict)
    uses: tuple[str, ...] = ()
    jobs_run: int = 0


_ROOM = "shedbook.book.practice"


def data_versions() -> tuple[str, str, str]:
    """Return what besides the manuscript decides how a phrase is played, is drawn, and its tracks go."""
    drawn = (fingerprint_of(f"{_ROOM}.part"), *(f"{one} {library_version(one)}" for one in LIBRARIES))
    return fingerprint_of(f"{_ROOM}.played"), "\n".join(drawn), fingerprint_of(f"{_ROOM}.timed")


def make_practice_page(
    manuscript: Manuscript,
    request: Request,
    phrases: Sequence[tuple[PhraseSource, PhraseCard]],
    editions: tuple[Edition, ...],
    tracks: BuiltTracks,
    store: Store,
    out: Path,
    crew: Crew,
    tell: Tell,
) -> PracticeMade:
    """Make the page of these phrases, where it is asked for; `tracks` are those of the same build.

    Raises:
        BuildError: if phrases cannot be drawn or played.
        OutputError: if the disk refuses it.
    """
    if not (manuscript.settings.practice_page or request.practice_page) or not phrases or request.proof_sheet:
        return PracticeMade()
    versions = data_versions()
    folder = str(store.folder.resolve())
    orders = [
        PracticeOrder(
            folder, source, manuscript.settings, request.keys, editions, versions,
            timed_inputs(followed(tracks.orders, source.number)),
        )
        for source, _ in phrases
    ]  # fmt: skip
    made = _made(orders, store, crew, tell)
    book = _book(manuscript, phrases, editions, orders, tracks, store)
    name = practice_folder_name(manuscript.root, request)
    files = folder_files(book)
    write_folder(files, out / name, store.folder / "unfinished")
    uses = tuple(one for order in orders for one in order.every_name())
    seals = {f"{name}/{one}": file_seal(out / name / one) for one in files}
    return PracticeMade(seals, uses, made)


def _made(orders: Sequence[PracticeOrder], store: Store, crew: Crew, tell: Tell) -> int:
    missing = [order for order in orders if not all(store.has("card", name) for name in order.every_name())]
    errors, made = list[ShedbookError](), 0
    for done, (order, result) in enumerate(crew.run(make_phrase_data, missing), 1):
        if isinstance(result, Lost):
            errors.append(
                RenderError(
                    f'Making "{order.source.title}" for the student\'s page ended the program that did it.',
                    hint="Is memory short? This is no fault of yours; please report the phrase.",
                )
            )
        else:
            made += result.jobs_run
            errors += result.errors
        tell(Step("practice", done, len(missing)))
    if errors:
        raise BuildError(
            f"{len(errors)} things stopped the student's page.",
            errors=errors,
            hint="What was finished is kept; the next build goes on from there.",
        )
    return made


def _book(
    manuscript: Manuscript,
    phrases: Sequence[tuple[PhraseSource, PhraseCard]],
    editions: tuple[Edition, ...],
    orders: Sequence[PracticeOrder],
    tracks: BuiltTracks,
    store: Store,
) -> BookData:
    settings = manuscript.settings
    words = words_of(settings.language, dict(settings.pages.words))
    found, taken, files = [], set[str](), tracks.files_by_stem()
    for (source, card), order in zip(phrases, orders, strict=True):
        played, *parts = (data_in(store, name) for name in order.names())
        timed = data_in(store, order.timed_name()) if order.tracks else ()
        if played is None or timed is None or None in parts:
            raise RenderError(
                "Parts of the student's page vanished while it was made.", hint="Run the build again."
            )
        quarters = 60_000_000 / played["keys"][0]["us"]
        found.append(
            PhraseData(
                phrase_id(source, taken),
                source.number,
                source.title,
                card.level,
                round(quarters, 2),
                played,
                tuple(parts),
                tracks_beside(followed(tracks.orders, source.number), playable(card).tempo, files),
                timed,
            )
        )
    own, *before = book_ids(manuscript)
    return BookData(
        own,
        tuple(before),
        manuscript.title,
        settings.author,
        settings.language,
        words,
        editions,
        tuple(found),
    )


def book_ids(manuscript: Manuscript) -> tuple[str, ...]:
    """Return the names under which students' progress was ever kept, the one of now first.

    It is the book's own, else its title and author: the folder may be called anything. Earlier pages kept it
    under the folder's name.
    """
    named = _plain_id(f"{manuscript.title} {manuscript.settings.author}")
    found = (manuscript.settings.own_id, named, book_name(manuscript.root))
    return tuple(dict.fromkeys(one for one in found if one))


def _plain_id(text: str) -> str:
    return _NOT_IN_AN_ID.sub("-", unicodedata.normalize("NFKC", text).lower()).strip("-")


def phrase_id(source: PhraseSource, taken: set[str]) -> str:
    """Return the phrase's own id, else its file's name, which stays where phrases are moved; each once."""
    own = str(source.fields.get("id", "")).strip()
    base = _plain_id(own or Path(source.file).stem) or "phrase"
    if source.in_table and not own:
        base = f"{base}-{source.index + 1}"
    found, count = base, 1
    while found in taken:
        count += 1
        found = f"{base}-{count}"
    taken.add(found)
    return found
