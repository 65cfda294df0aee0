"""The zip of each edition: its members, its manifest, and putting it in its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from shedbook.book.bundle.contents import (
    Packed,
    Track,
    book_file,
    exchange_files,
    packed,
    practice_files,
    text_file,
    track_files,
)
from shedbook.book.bundle.making import Bundling, kept
from shedbook.book.bundle.manifest import MANIFEST, ZIP, BookMusic, FileRow, Source, ZipManifest
from shedbook.book.bundle.music import edition_row
from shedbook.book.bundle.student_readme import CHANGES, LICENCE, README, readme
from shedbook.book.bundle.zip_file import Member, write_zip
from shedbook.book.ground.json_values import to_json
from shedbook.book.pages.edition_words import edition_words
from shedbook.book.pages.typst_door import pages_in
from shedbook.book.scores.artefacts import PlacingCard
from shedbook.book.scores.worker import placing_name
from shedbook.book.workshop.naming import content_hash, digest
from shedbook.book.workshop.versions import LIBRARIES, SOUND_LIBRARIES, library_version
from shedbook.editions.instruments.edition import Edition

_NOT_FOR_READERS = ("silence",)

Exchanged = Mapping[tuple[str, int], Sequence[tuple[str, bytes, bytes]]]
"""By edition and number of a phrase: its written keys, each with MusicXML and MIDI."""


@dataclass(frozen=True, slots=True)
class _ZipNote:
    """What the store knows of a zip that lies in its place: what it was made from, and its hash."""

    made_from: str = ""
    sha256: str = ""


def members_of_zips(
    making: Bundling,
    tracks: Sequence[Track],
    pdfs: Mapping[str, Path],
    music: Mapping[str, BookMusic],
    keys: Exchanged,
) -> dict[str, list[Packed]]:
    """Return the files of each zip by its name, its manifest the last; `pdfs` are the books by edition."""
    return {
        f"{making.about.name}-{edition.slug}{making.request.kind}-{_in_a_name(making.about.version)}.zip":
        _members(making, edition, tracks, pdfs[edition.name], music[pdfs[edition.name].name], keys)
        for edition in making.editions
    }  # fmt: skip


def _in_a_name(text: str) -> str:
    return "".join(letter if letter.isalnum() or letter in ".-" else "-" for letter in text)


def _members(
    making: Bundling,
    edition: Edition,
    tracks: Sequence[Track],
    pdf: Path,
    music: BookMusic,
    keys: Exchanged,
) -> list[Packed]:
    placings = {
        one.source.number: kept(making.store, PlacingCard, placing_name(one, edition))
        for one in making.orders
    }
    heard = list(track_files(tracks, placings))
    files = [book_file(pdf, pages_in(pdf.read_bytes())), *heard]
    for order in making.orders:
        number = order.source.number
        files += exchange_files(number, order.source.title, keys[edition.name, number])
    files += practice_files(making.page, heard)
    files.append(text_file(LICENCE, _licence(making)))
    if making.changes.text:
        files.append(text_file(CHANGES, making.changes.text))
    there = [*(one.row.role for one in files), *(one.row.name for one in files), MANIFEST]
    title = edition_words(edition, making.words).title
    text = readme(making.about, title, pdf.name, there, making.words, transposes=edition.transposes)
    files.append(text_file(README, text))
    said = ZipManifest(
        about=making.about,
        versions=versions_of(making),
        edition=edition_row(edition),
        files=tuple(sorted((one.row for one in files), key=lambda row: row.name)),
        music=music,
        phrases=_sources(making),
        settings=_settings(making),
        changes=making.changes,
    )
    return [*files, packed(MANIFEST, "manifest", to_json(said))]


def _licence(making: Bundling) -> str:
    """Return what a buyer may do, as the author says it in licence.txt beside manuscript.toml."""
    settings = making.manuscript.settings
    path = making.manuscript.root / LICENCE
    said = path.read_text(encoding="utf-8").strip() if path.is_file() else ""
    if not said and (missing := f"There is no {LICENCE} beside manuscript.toml.") not in making.told:
        making.told += [missing]
    head = [making.about.title, settings.author, settings.rights]
    if making.about.licensee:
        head.append(making.words("licensee", name=making.about.licensee))
    return "\n".join(line for line in head if line) + "\n" + (f"\n{said}\n" if said else "")


def versions_of(making: Bundling) -> dict[str, str]:
    """Return the versions of what made a bundle, by name."""
    libraries = {name: library_version(name) for name in LIBRARIES}
    sound = {name: library_version(name, module) for name, module in SOUND_LIBRARIES}
    return {"shedbook": version("shedbook"), **libraries, **sound}


def _sources(making: Bundling) -> tuple[Source, ...]:
    return tuple(
        Source(
            one.source.number,
            one.source.title,
            {name: value for name, value in one.source.fields.items() if name not in _NOT_FOR_READERS},
        )
        for one in making.orders
    )


def _settings(making: Bundling) -> dict[str, str]:
    """Return a hash of each setting, so that two bundles can say which differ."""
    settings = making.manuscript.settings
    names = type(settings).__dataclass_fields__
    return {name: content_hash(to_json(getattr(settings, name)))[:16] for name in names}


def put_zip(making: Bundling, name: str, members: Sequence[Packed]) -> tuple[FileRow, bool]:
    """Put a zip in its place unless it is there; return its row, and whether it was made."""
    target = making.folder / name
    made_from = digest(*(f"{one.row.name} {one.row.sha256}" for one in members))
    noted = digest("zip", str(target.resolve()))
    note = making.store.read_value(_ZipNote, "card", noted) or _ZipNote()
    there = Member(name, target)
    if note.made_from == made_from and target.is_file() and there.sha256() == note.sha256:
        return FileRow(name, ZIP, there.size, note.sha256), False
    write_zip(target, [one.member for one in members], making.store.folder / "unfinished")
    row = FileRow(name, ZIP, there.size, there.sha256())
    making.store.write_value("card", noted, _ZipNote(made_from, row.sha256))
    return row, True
