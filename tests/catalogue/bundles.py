"""Bundles of which only the manifests are there: enough to compare them."""

from __future__ import annotations

import tomllib
from pathlib import Path

from catalogue.books import PHRASES
from shedbook.book.bundle.manifest import (
    BOOK,
    FORM,
    MANIFEST,
    MUSICXML,
    TRACK,
    ZIP,
    About,
    BookMusic,
    EditionRow,
    FileRow,
    FolderManifest,
    ScoreRow,
    Source,
    ZipManifest,
)
from shedbook.book.bundle.zip_file import Member, write_zip
from shedbook.book.ground.json_values import to_json
from shedbook.book.workshop.naming import content_hash

EDITIONS = (
    EditionRow("concert", "concert", "Concert edition", 0, 0, "G2"),
    EditionRow("bflat", "bflat", "B♭ edition", 2, 1, "G2"),
)
_KEYS = {"concert": ("C minor", "F minor"), "bflat": ("D minor", "G minor")}


def bundle(folder: Path, version: str, language: str = "en", **phrases: str) -> Path:
    """Write the manifests of a bundle of two editions, two keys a phrase; return its folder."""
    folder.mkdir(parents=True)
    about = About("tides", "Tides", "A. N.", version, language)
    sources = tuple(
        Source(number, str(fields["title"]), fields)
        for number, fields in enumerate(map(tomllib.loads, phrases.values()), 1)
    )
    rows = []
    for edition in EDITIONS:
        said = _zip(about, edition, sources)
        name = f"tides-{edition.slug}-{version}.zip"
        write_zip(folder / name, [Member(MANIFEST, to_json(said))], folder)
        rows.append(FileRow(name, ZIP, (folder / name).stat().st_size, ""))
    whole = FolderManifest(
        about=about, versions={}, editions=EDITIONS, files=tuple(rows), samples=(), form=FORM
    )
    (folder / MANIFEST).write_bytes(to_json(whole))
    return folder


def _zip(about: About, edition: EditionRow, sources: tuple[Source, ...]) -> ZipManifest:
    files = [FileRow(f"tides-{edition.slug}.pdf", BOOK, 1000, content_hash(repr(sources).encode()), pages=9)]
    scores = []
    for one in sources:
        sha = content_hash(str(one.fields["line"]).encode())
        for place, key in enumerate(_KEYS[edition.name]):
            name = f"{one.number:03}-{place}"
            files.append(FileRow(f"musicxml/{name}.musicxml", MUSICXML, 100, sha, one.number, key))
            files.append(FileRow(f"tracks/{name}.mp3", TRACK, 5000, sha, one.number))
            page = 10 * one.number + place
            scores.append(ScoreRow("key", one.number, one.title, key, "", "", page, f"{page - 5}", 0))
    return ZipManifest(
        about=about,
        versions={},
        edition=edition,
        files=tuple(files),
        music=BookMusic(f"tides-{edition.slug}.pdf", edition.name, edition.title, tuple(scores), ()),
        phrases=sources,
        settings={"keys": "1"},
    )


CHANGED = {**PHRASES, "01-quay": PHRASES["01-quay"].replace("d5 f ab", "d5 f a ", 1)}
"""The two phrases of `books`, one note of the first another."""


def without_id(phrases: dict[str, str]) -> dict[str, str]:
    """Return the phrases, the first without its id and under another title."""
    first = phrases["01-quay"].replace('id = "quay"\n', "").replace('"Quay"', '"Key"')
    return {**phrases, "01-quay": first}
