"""Proving a finished bundle, or one of its zips: nothing is taken on trust but the manuscript.

The manifest of a zip carries the texts of its phrases in every key; pages, files and tracks are held against
these, and these against one another. With a manuscript they are held against what it says today.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from shedbook.book.bundle.check_files import Checked, check_folder, check_zip
from shedbook.book.bundle.check_together import together_faults
from shedbook.book.bundle.manifest import MANIFEST, ZipManifest
from shedbook.book.bundle.music import text_of, texts_by_key
from shedbook.book.bundle.opened import Fault
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import study
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.errors import ShedbookError, UnknownNameError

_FIRST_VERSION = "1"


@dataclass(frozen=True, slots=True)
class Verified:
    """What was found, and how much was read: zips, pages, their scores, files for other programs, tracks."""

    faults: tuple[Fault, ...]
    zips: int
    pages: int
    scores: int
    files: int
    tracks: int


def verify(
    path: Path, against: Path | None = None, jobs: int = 0, tell: Tell = lambda step: None
) -> Verified:
    """Check a bundle's folder, or one of its zips.

    Args:
        path: the folder or the zip.
        against: the manuscript that it should be made from, None where that is not asked.
        jobs: how many processes may work, 0 for as many as there are cores.
        tell: is called with every zip that is done.

    Raises:
        UnknownNameError: if there is nothing of that name.
        ManuscriptError: if the manuscript cannot be read.
    """
    if not path.exists():
        raise UnknownNameError(f"There is no file or folder {path}.", hint="Name a bundle's folder or a zip.")
    faults: list[Fault] = []
    if path.is_dir():
        folder = check_folder(path)
        faults += folder.faults
        zips = [path / name for name in folder.zips if (path / name).is_file()]
        checked = _checked(zips, jobs, tell)
        if folder.manifest is not None:
            faults += together_faults(path, folder.manifest, checked)
    else:
        checked = _checked([path], jobs, tell)
    faults += [fault for one in checked for fault in one.faults]
    if against is not None:
        book = open_manuscript(against)
        for one in checked:
            if one.manifest is not None:
                faults += (Fault(f"{one.name}/{MANIFEST}", says) for says in _against(one.manifest, book))
    return Verified(
        tuple(dict.fromkeys(faults)),
        len(checked),
        sum(one.pages for one in checked),
        sum(one.scores for one in checked),
        sum(one.files for one in checked),
        sum(one.tracks for one in checked),
    )


def _checked(paths: Sequence[Path], jobs: int, tell: Tell) -> list[Checked]:
    """Check zips, several at a time where there are several."""
    if len(paths) == 1 or jobs == 1:
        return [check_zip(path) for path in paths]
    found: dict[Path, Checked] = {}
    crew = Crew(min(len(paths), jobs or os.cpu_count() or 1) or 1)
    try:
        for path, result in crew.run(check_zip, paths):
            lost = Fault(path.name, "Reading it ended the program that did it.")
            found[path] = Checked(path.name, None, (lost,)) if isinstance(result, Lost) else result
            tell(Step("verify", len(found), len(paths)))
    except BaseException:
        crew.stop()
        raise
    crew.close()
    return [found[path] for path in paths]


def _against(said: ZipManifest, book: Manuscript) -> Iterator[str]:
    """Yield where a zip does not hold what a manuscript says today."""
    version = book.settings.shop.version or _FIRST_VERSION
    if said.about.version != version:
        yield f"It is version {said.about.version}, the manuscript {version}."
    if (said.about.title, said.about.author) != (book.title, book.settings.author):
        yield f'It is "{said.about.title}" by {said.about.author or "nobody"}, not the manuscript\'s book.'
    try:
        (edition,) = chosen_editions((said.edition.name,), book.settings)
    except (ShedbookError, ValueError):
        yield f'The manuscript has no edition "{said.edition.name}".'
        return
    texts, titles = texts_by_key(said.music), {one.number: one.title for one in said.phrases}
    for source in book.phrases:
        if titles.get(source.number) != source.title:
            yield f"{source.number}. {source.title} is not in it."
            continue
        placing = placing_of(study(read_phrase(source)), key_order(book.settings), edition)
        for part in dict.fromkeys((placing.home, *placing.keys)):
            key = str(part.phrase.key)
            there = texts.get((source.number, key))
            if there is None:
                yield f"{source.number}. {source.title} is not in it in {key}."
            elif dict(there) != text_of(part.phrase):
                yield f"{source.number}. {source.title} in {key} is not what the manuscript says."
    for number in sorted(titles.keys() - {source.number for source in book.phrases}):
        yield f"{number}. {titles[number]} is not in the manuscript."
