"""What goes into the zip of an edition: its book, tracks by key, files for other programs, texts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from shedbook.book.bundle.manifest import (
    BOOK,
    MIDI,
    MUSICXML,
    PRACTICE,
    TEXT,
    TRACK,
    FileRow,
    TrackFacts,
)
from shedbook.book.bundle.zip_file import Member
from shedbook.book.manuscript.choice import chosen_tracks
from shedbook.book.manuscript.file_names import file_words
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.practice.tracks_beside import FILE as TRACKS_FILE
from shedbook.book.practice.tracks_beside import moved
from shedbook.book.scores.artefacts import PhraseCard, PlacingCard
from shedbook.book.tracks.make import TrackList
from shedbook.book.tracks.orders import TrackOrder, playable
from shedbook.book.tracks.plan import track_orders
from shedbook.book.tracks.worker import FACTS, SoundFacts
from shedbook.book.workshop.naming import digest
from shedbook.book.workshop.store import Store
from shedbook.theory.key import Key

PRACTICE_FOLDER = "practice"
"""The folder of a zip in which the student's page lies; one page serves all editions."""


class Packed(NamedTuple):
    """A file of a zip with its row of the manifest."""

    member: Member
    row: FileRow


def packed(name: str, role: str, content: bytes | Path, **facts: object) -> Packed:
    """Return a file with its row; `facts` are further fields of the row."""
    member = Member(name, content)
    return Packed(member, FileRow(name, role, member.size, member.sha256(), **facts))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Track:
    """A finished track: where it lies, what it is made of, what was measured of it."""

    path: Path
    order: TrackOrder
    facts: TrackFacts


def finished_tracks(
    manuscript: Manuscript,
    request: Request,
    cards: Sequence[tuple[int, PhraseCard]],
    files: Sequence[Path],
    store: Store,
    out: Path,
) -> list[Track]:
    """Return the tracks of a build with what was measured of them.

    Args:
        manuscript: the book.
        request: what was asked of the build.
        cards: what is known of each of its phrases, by number.
        files: the files that it made.
        store: its store.
        out: its output folder.
    """
    settings = manuscript.settings.tracks
    kinds = (*settings.kinds, *chosen_tracks(request.tracks, settings))
    every = replace(settings, kinds=tuple(dict.fromkeys(kinds)))
    by_number = dict(cards)
    phrases = [
        (source, playable(by_number[source.number]))
        for source in manuscript.phrases
        if source.number in by_number
    ]
    orders = {one.stem: one for one in track_orders(manuscript, phrases, store.folder, out, "", every)}
    listed = (store.read_value(TrackList, "card", digest("tracks")) or TrackList()).tracks
    found = []
    for path in files:
        order, entry = orders.get(path.stem), listed.get(path.stem)
        if order is not None and entry is not None:
            measured = [store.read_value(SoundFacts, FACTS, name) for name in entry.uses]
            sha256 = Member(path.name, path).sha256()
            facts = next((one for one in measured if one is not None and one.sha256 == sha256), None)
            found.append(Track(path, order, _facts(order, facts)))
    return found


def _facts(order: TrackOrder, facts: SoundFacts | None) -> TrackFacts:
    number = 0 if order.source is None else order.source.number
    given = order.given
    plain = TrackFacts(
        number, given.kind, given.keys, given.tempo_bpm, order.title, order.number, order.of, 0.0
    )
    if facts is None:
        return plain
    return replace(
        plain,
        seconds=round(facts.seconds, 3),
        lufs=None if facts.lufs is None else round(facts.lufs, 2),
        peak_dbtp=None if facts.peak_dbtp is None else round(facts.peak_dbtp, 2),
        chapters=tuple((round(a, 3), round(b, 3), title, key) for a, b, title, key in facts.chapters),
        heard=facts.heard,
    )


def book_file(pdf: Path, pages: int) -> Packed:
    """Return the book of a zip."""
    return packed(pdf.name, BOOK, pdf, pages=pages)


def track_files(tracks: Sequence[Track], placings: Mapping[int, PlacingCard]) -> Iterator[Packed]:
    """Yield the tracks in a folder for each key, by the names that the reader of the edition reads."""
    for one in tracks:
        number, keys = one.facts.number, one.facts.keys
        folder = "" if not keys else f"{_folder(keys, placings.get(number))}/"
        yield packed(f"tracks/{folder}{one.path.name}", TRACK, one.path, number=number, track=one.facts)


def _folder(keys: Sequence[str], placing: PlacingCard | None) -> str:
    if len(keys) > 1 or placing is None:
        return "all-keys" if len(keys) > 1 else file_words(keys[0])
    sounds = Key.parse(keys[0]).tonic.pitch_class
    for place, key in enumerate(placing.cycle, 1):
        if Key.parse(key.concert).tonic.pitch_class == sounds:
            return f"{place:02d}-{file_words(key.written)}"
    return file_words(keys[0])


def exchange_files(number: int, title: str, keys: Sequence[tuple[str, bytes, bytes]]) -> Iterator[Packed]:
    """Yield a phrase's files for other programs; `keys` are written keys with MusicXML and MIDI."""
    for place, (key, musicxml, midi) in enumerate(keys, 1):
        name = f"{number:03d}-{place:02d}-{file_words(title)}-{file_words(key)}"
        yield packed(f"musicxml/{name}.musicxml", MUSICXML, musicxml, number=number, key=key)
        yield packed(f"midi/{name}.mid", MIDI, midi, number=number, key=key)


def practice_files(page: Path | None, tracks: Sequence[Packed]) -> Iterator[Packed]:
    """Yield the files of the student's page, where the build made one; it is told where the tracks lie here.

    Args:
        page: what a browser opens; None for no page.
        tracks: those of the same zip.
    """
    if page is None:
        return
    for path in sorted(page.parent.rglob("*")):
        within = path.relative_to(page.parent)
        if path.is_file() and not any(part.startswith(".") for part in within.parts):
            content: bytes | Path = path
            if within.as_posix() == TRACKS_FILE:
                places = {Path(one.row.name).name: one.row.name for one in tracks}
                content = moved(path.read_text(encoding="utf-8"), places).encode()
            yield packed(f"{PRACTICE_FOLDER}/{within.as_posix()}", PRACTICE, content)


def text_file(name: str, text: str) -> Packed:
    """Return a text of a zip."""
    return packed(name, TEXT, text.encode())
