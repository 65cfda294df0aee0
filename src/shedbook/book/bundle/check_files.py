"""A finished bundle checked: the zip of an edition, and the folder with what lies beside the zips."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import soundfile
from PIL import Image, UnidentifiedImageError

from shedbook.book.bundle.check_music import music_faults
from shedbook.book.bundle.check_pdf import pdf_faults
from shedbook.book.bundle.check_scores import midi_faults, musicxml_faults
from shedbook.book.bundle.check_tracks import track_faults
from shedbook.book.bundle.manifest import (
    BOOK,
    COVER,
    FORM,
    MANIFEST,
    MIDI,
    MUSICXML,
    PAGE,
    SAMPLE,
    SOUND,
    TRACK,
    ZIP,
    About,
    FileRow,
    FolderManifest,
    TrackFacts,
    ZipManifest,
)
from shedbook.book.bundle.music import texts_by_key
from shedbook.book.bundle.opened import Fault, Opened, file_faults, opened
from shedbook.book.bundle.sound_preview import PREVIEW_SECONDS
from shedbook.book.bundle.student_readme import CHANGES, LICENCE, README
from shedbook.book.bundle.tables.cover_sizes import COVER_SIZES
from shedbook.book.ground.json_values import from_json

_OLDER = 'The bundle was made by another version of shedbook; make it again with "shedbook build --bundle".'
_NUMBERED = re.compile(r"(\d{3})-(\d\d)-\w-(\d{3})-")


@dataclass(frozen=True, slots=True)
class Checked:
    """What was looked at in a zip: its manifest, None where there is none; how much of what was read."""

    name: str
    manifest: ZipManifest | None
    faults: tuple[Fault, ...]
    pages: int = 0
    scores: int = 0
    files: int = 0
    tracks: int = 0


def check_zip(path: Path) -> Checked:
    """Check the zip of an edition by itself."""
    try:
        with opened(path) as there:
            return _zip(path.name, there)
    except ValueError as error:
        return Checked(path.name, None, (Fault(path.name, f"{error}."),))


def _zip(name: str, there: Opened) -> Checked:
    try:
        said = from_json(ZipManifest, there.read(MANIFEST))
    except ValueError as error:
        return Checked(name, None, (Fault(f"{name}/{MANIFEST}", f"It cannot be read: {error}. {_OLDER}"),))
    if said.form != FORM:
        return Checked(name, said, (Fault(f"{name}/{MANIFEST}", f"It has form {said.form}. {_OLDER}"),))
    faults, found = file_faults(there, said.files)
    faults += music_faults(said)
    faults += _texts(said, found)
    faults += _inside(said, found, there)
    roles = [row.role for row in said.files]
    return Checked(
        name,
        said,
        tuple(Fault(f"{name}/{one.file}", one.says) for one in faults),
        sum(row.pages for row in said.files),
        len(said.music.scores),
        roles.count(MUSICXML) + roles.count(MIDI),
        roles.count(TRACK),
    )


def _inside(said: ZipManifest, found: Mapping[str, bytes], there: Opened) -> Iterator[Fault]:
    """Yield what is wrong inside the files of a zip."""
    texts, up = texts_by_key(said.music), said.edition.semitones
    if [row.role for row in said.files].count(BOOK) != 1:
        yield Fault(MANIFEST, "It does not name one book.")
    for row in said.files:
        content, text = found.get(row.name), texts.get((row.number, row.key))
        wrong: Iterator[str] = iter(())
        if row.role == TRACK and row.track is not None:
            wrong = _track(row, row.track, there)
        elif content is None:
            continue
        elif row.role == BOOK:
            wrong = pdf_faults(content, row.pages, said.about, said.music)
            if row.name != said.music.file:
                yield Fault(row.name, f"It is called otherwise than {said.music.file}.")
        elif row.role == MUSICXML and text is not None:
            wrong = musicxml_faults(content, text, up)
        elif row.role == MIDI and text is not None:
            wrong = midi_faults(content, text, up)
        yield from (Fault(row.name, f"{one[:1].upper()}{one[1:]}.") for one in wrong)
    yield from _album(said)


def _track(row: FileRow, facts: TrackFacts, there: Opened) -> Iterator[str]:
    name = row.name.rpartition("/")[2]
    placed = _NUMBERED.match(name)
    if placed is None or (int(placed[1]), int(placed[3])) != (facts.number, facts.tempo):
        yield f"its name is not that of phrase {facts.number} at {facts.tempo}"
    try:
        content = there.read(row.name)
    except ValueError:
        return  # told of where the files are counted
    yield from track_faults(row.name, content, facts)


def _album(said: ZipManifest) -> Iterator[Fault]:
    """Yield where two tracks are the same sound: one lies in the place of the other."""
    seen: dict[str, str] = {}
    for row in said.files:
        if row.role == TRACK:
            other = seen.setdefault(row.sha256, row.name)
            if other != row.name:
                yield Fault(row.name, f"It is the same file as {other}.")


def _texts(said: ZipManifest, found: Mapping[str, bytes]) -> Iterator[Fault]:
    """Yield what is wrong with the texts for the student."""
    names = {row.name for row in said.files}
    text = found.get(README, b"").decode(errors="replace")
    for wanted in (said.about.title, said.about.version, said.music.file):
        if wanted not in text.partition("manifest.json")[0]:
            yield Fault(README, f'It does not say "{wanted}".')
    if LICENCE not in names or not found.get(LICENCE, b"").strip():
        yield Fault(LICENCE, "There is no text of a licence.")
    if said.about.licensee and said.about.licensee.encode() not in found.get(LICENCE, b""):
        yield Fault(LICENCE, f"It does not say that it is the copy of {said.about.licensee}.")
    if found.get(CHANGES, b"").decode(errors="replace") != said.changes.text:
        yield Fault(CHANGES, "It does not say what the manifest says has changed.")


# The folder.


@dataclass(frozen=True, slots=True)
class CheckedFolder:
    """What was found beside the zips, and the zips that are there to be checked."""

    manifest: FolderManifest | None
    faults: tuple[Fault, ...]
    zips: tuple[str, ...] = ()


def check_folder(path: Path) -> CheckedFolder:
    """Check the folder of a bundle, its zips left out but for their checksums."""
    with opened(path) as there:
        try:
            said = from_json(FolderManifest, there.read(MANIFEST))
        except ValueError as error:
            return CheckedFolder(None, (Fault(MANIFEST, f"It cannot be read: {error}. {_OLDER}"),))
        if said.form != FORM:
            return CheckedFolder(None, (Fault(MANIFEST, f"It has form {said.form}. {_OLDER}"),))
        faults, found = file_faults(there, said.files)
        faults += _pictures(said, found)
        faults += _samples(said, found)
        faults += _listing(said, found)
        faults += _sound(said, found)
    return CheckedFolder(said, tuple(faults), tuple(row.name for row in said.files if row.role == ZIP))


def _pictures(said: FolderManifest, found: Mapping[str, bytes]) -> Iterator[Fault]:
    sizes = {f"-{row.name}-{row.wide}x{row.high}.": (row.wide, row.high) for row in COVER_SIZES}
    covers = [row.name for row in said.files if row.role == COVER]
    for part in sizes:
        if not any(part in name for name in covers):
            yield Fault("cover", f"There is no picture {part.strip('-.')}.")
    for row in said.files:
        if row.role in (COVER, PAGE) and row.name in found:
            try:
                with Image.open(io.BytesIO(found[row.name])) as picture:
                    picture.load()
                    size = picture.size
            except (OSError, UnidentifiedImageError, SyntaxError) as error:
                yield Fault(row.name, f"It is no picture: {error}.")
                continue
            wanted = next((size for part, size in sizes.items() if part in row.name), size)
            if size != wanted:
                yield Fault(
                    row.name, f"It is {size[0]} by {size[1]} dots in place of {wanted[0]} by {wanted[1]}."
                )


def _samples(said: FolderManifest, found: Mapping[str, bytes]) -> Iterator[Fault]:
    music = {one.file: one for one in said.samples}
    for row in said.files:
        if row.role == SAMPLE and row.name in found:
            name = row.name.rpartition("/")[2]
            if name not in music:
                yield Fault(row.name, "The manifest does not say what it holds.")
            about = _nobodys(said.about)
            for wrong in pdf_faults(found[row.name], row.pages, about, music.get(name)):
                yield Fault(row.name, f"{wrong[:1].upper()}{wrong[1:]}.")
    there = {row.name.rpartition("/")[2] for row in said.files if row.role == SAMPLE}
    yield from (Fault(name, "There is no such sample.") for name in music if name not in there)


def _nobodys(about: About) -> About:
    return replace(about, licensee="")


def _listing(said: FolderManifest, found: Mapping[str, bytes]) -> Iterator[Fault]:
    text = found.get("listing.txt", b"").decode(errors="replace")
    for wanted in (said.about.title, said.about.version):
        if wanted not in text:
            yield Fault("listing.txt", f'It does not say "{wanted}".')
    try:
        listed = json.loads(found.get("listing.json", b""))
        same = (listed["title"], listed["version"], listed["author"])
    except (ValueError, KeyError, TypeError):
        yield Fault("listing.json", "It is no listing.")
        return
    if same != (said.about.title, said.about.version, said.about.author):
        yield Fault("listing.json", "It is that of another book or version.")
    if sorted(listed.get("pages", {})) != sorted(one.name for one in said.editions):
        yield Fault("listing.json", "It names other editions than there are.")


def _sound(said: FolderManifest, found: Mapping[str, bytes]) -> Iterator[Fault]:
    for row in said.files:
        if row.role == SOUND and row.name in found:
            try:
                samples, rate = soundfile.read(io.BytesIO(found[row.name]), always_2d=True)
            except soundfile.LibsndfileError as error:
                yield Fault(row.name, f"It cannot be decoded: {error}.")
                continue
            seconds = len(samples) / rate
            if not 0 < seconds <= PREVIEW_SECONDS + 0.2:
                yield Fault(row.name, f"It lasts {seconds:.1f} s; a preview has at most {PREVIEW_SECONDS}.")
            elif not abs(samples).max() > 0.01:
                yield Fault(row.name, "Nothing is heard in it.")
