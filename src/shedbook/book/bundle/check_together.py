"""Whether what lies in the folder of a bundle belongs together: zips, samples, pictures of pages, listing."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from PIL import Image, ImageChops, ImageStat

from shedbook.book.bundle.check_files import Checked
from shedbook.book.bundle.check_music import book_faults
from shedbook.book.bundle.manifest import BOOK, MANIFEST, PAGE, FolderManifest, ZipManifest
from shedbook.book.bundle.opened import Fault, opened
from shedbook.book.bundle.pdfium_door import page_pictures

_ALIKE = 3.0
"""How far the picture of a page may be from the page, as the mean difference of its dots of 256."""


def together_faults(path: Path, said: FolderManifest, zips: Sequence[Checked]) -> Iterator[Fault]:
    """Yield where the zips of a bundle do not belong together, or to what lies beside them."""
    there = [one.manifest for one in zips if one.manifest is not None]
    for edition in said.editions:
        if edition.name not in {one.edition.name for one in there}:
            yield Fault(MANIFEST, f"There is no zip of the {edition.title}.")
    if len({one.edition.name for one in there}) != len(there):
        yield Fault(MANIFEST, "Two zips are of one edition.")
    for checked in zips:
        if checked.manifest is not None:
            yield from _zip_faults(checked.name, checked.manifest, said, there[0])
    yield from _listing(path, there)
    yield from _previews(path, said, {one.manifest.edition.slug: one for one in zips if one.manifest})


def _zip_faults(name: str, one: ZipManifest, said: FolderManifest, first: ZipManifest) -> Iterator[Fault]:
    if (one.about, one.versions, one.changes) != (said.about, said.versions, said.changes):
        yield Fault(name, "It is of another version or book than the bundle.")
    if f"-{one.edition.slug}-" not in name.replace(".zip", "-"):
        yield Fault(name, f"It holds the {one.edition.title}.")
    if one.phrases != first.phrases or one.settings != first.settings:
        yield Fault(name, "It was made from another manuscript than the first zip.")
    for sample in said.samples:
        if sample.edition == one.edition.name:
            numbers = {row.number for row in sample.scores}
            yield from book_faults(sample, one.phrases[: len(numbers)])


def _listing(path: Path, zips: Sequence[ZipManifest]) -> Iterator[Fault]:
    try:
        listed: Any = json.loads((path / "listing.json").read_text(encoding="utf-8"))
        pages, listed_contents = dict(listed["pages"]), list(listed["contents"])
    except (OSError, ValueError, KeyError, TypeError):
        return  # told of where the file itself is looked at
    for one in zips:
        count = next((row.pages for row in one.files if row.role == BOOK), 0)
        if pages.get(one.edition.name) != count:
            yield Fault("listing.json", f"It does not say that the {one.edition.title} has {count} pages.")
        if listed_contents != [[source.number, source.title] for source in one.phrases]:
            yield Fault("listing.json", "Its contents are not those of the book.")


def _previews(path: Path, said: FolderManifest, by_slug: Mapping[str, Checked]) -> Iterator[Fault]:
    """Yield which pictures do not show their pages."""
    for slug, pages in _shown(said).items():
        checked = by_slug.get(slug)
        if checked is None or checked.manifest is None:
            continue
        try:
            with opened(path / checked.name) as there:
                book = there.read(checked.manifest.music.file)
        except ValueError:
            continue  # told of where the zip itself is looked at
        yield from _pages_alike(path, book, pages)


def _shown(said: FolderManifest) -> Mapping[str, list[tuple[int, str]]]:
    """Return the pictures of pages by the edition's name in files: the page, and the name of the picture."""
    found: dict[str, list[tuple[int, str]]] = {}
    for row in said.files:
        if row.role == PAGE:
            stem = row.name.rpartition("/")[2].removeprefix("page-").removesuffix(".png")
            slug, _, number = stem.rpartition("-")
            found.setdefault(slug, []).append((int(number), row.name))
    return found


def _pages_alike(path: Path, book: bytes, pages: Sequence[tuple[int, str]]) -> Iterator[Fault]:
    for number, name in pages:
        try:
            with Image.open(path / name) as opened_picture:
                picture = opened_picture.convert("RGB")
            drawn = page_pictures(book, [number], picture.height)
        except (ValueError, OSError):
            continue  # told of where the files themselves are looked at
        same = bool(drawn) and drawn[0].size == picture.size
        if not same or max(ImageStat.Stat(ImageChops.difference(drawn[0], picture)).mean) > _ALIKE:
            yield Fault(name, f"It does not show page {number} of the book.")
