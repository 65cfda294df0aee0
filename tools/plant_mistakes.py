"""Plants mistakes in finished bundles, one at a time, and says which of them `verify` finds.

    python tools/plant_mistakes.py [NUMBERS]

A small invented book is built as two versions, with two editions, two phrases in two keys, and tracks. Each
mistake spoils a copy of the newer bundle. Those marked "remade" have their checksums made right again in every
manifest, as when the wrong file was packed. The last are bundles that are whole, and not of this manuscript.
"""

from __future__ import annotations

import io
import json
import re
import shutil
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pikepdf
import soundfile
from PIL import Image

from shedbook.book.bundle.zip_file import Member, write_zip
from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.bundle import bundle
from shedbook.book.verbs.verify import verify
from shedbook.sound.audio.file_tags import Chapter, Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.soundfile_door import decode, encode
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.theory.key import Key

CONCERT, BFLAT = "tides-concert-1.1.zip", "tides-bflat-1.1.zip"
_SETTINGS = """title = "Tidal studies"
author = "A. Writer"
rights = "Invented, to be spoilt."
version = "{version}"
editions = ["concert", "bflat"]
keys = "C F"
links = {{ "Lessons" = "https://example.org/lessons" }}
[tracks]
kinds = ["demonstration", "twelve-keys"]
keys = "all"
rounds = 1
formats = ["mp3"]
"""
_LOW_TIDE = "1/8 f4 ab c5 eb d f ab g | ab f d b4 ab g {note} d | 1/2 eb4 g | 1/1 c5"
_PHRASES = (
    ("Low tide", "Dm7b5 | G7b9 | Cm6 | %", 300, _LOW_TIDE),
    ("The pilot's rope", "Dm7 | G7 | C6 | %", 320, "1/8 d4 f a c5 b g f d | g4 b d5 f 1/2 e | 1/1 c5 | g4"),
)


def write_book(root: Path, version: str, note: str = "f") -> Path:
    """Write the manuscript of a version; one note of the first phrase is given."""
    (root / "phrases").mkdir(parents=True, exist_ok=True)
    (root / "manuscript.toml").write_text(_SETTINGS.format(version=version), encoding="utf-8")
    (root / "licence.txt").write_text("Print and play it; do not pass it on.\n", encoding="utf-8")
    for number, (title, changes, tempo, line) in enumerate(_PHRASES, 1):
        text = f'title = "{title}"\nid = "p{number}"\nchanges = "{changes}"\ntempo = {tempo}\n'
        path = root / f"phrases/{number:02}.toml"
        path.write_text(f'{text}line = "{line.format(note=note)}"\n', encoding="utf-8")
    return root


class Books(NamedTuple):
    """Two versions of a book: the manuscript as it is, its bundle, and the bundle of the version before."""

    manuscript: Path
    new: Path
    old: Path


def build_books(place: Path) -> Books:
    """Build the book as version 1.0 and then as version 1.1, in which one note is another."""
    root, out = place / "tides", place / "out"
    write_book(root, "1.0", "e")
    old = shutil.copytree(bundle(Request(root, out, jobs=1)).folder, place / "old")
    write_book(root, "1.1")
    new = shutil.copytree(bundle(Request(root, out, jobs=1)).folder, place / "new")
    return Books(root, new, old)


# What a mistake may do to a bundle.

Json = dict[str, Any]
Files = dict[str, bytes]


@dataclass(slots=True)
class Spoilt:
    """A copy of the newer bundle that is being spoilt."""

    folder: Path
    books: Books

    def manifest(self, edit: Callable[[Json], None]) -> None:
        """Change the manifest of the folder."""
        path = self.folder / "manifest.json"
        said = json.loads(path.read_text(encoding="utf-8"))
        edit(said)
        path.write_text(json.dumps(said, ensure_ascii=False), encoding="utf-8")

    def right_again(self, name: str) -> None:
        """Make the size and checksum of a file right in the manifest of the folder."""
        content = (self.folder / name).read_bytes()

        def edit(said: Json) -> None:
            for row in said["files"]:
                if row["name"] == name:
                    row["size"], row["sha256"] = len(content), sha256(content).hexdigest()

        self.manifest(edit)

    def beside(self, name: str, content: bytes) -> None:
        """Put another file beside the zips, with its checksum."""
        (self.folder / name).write_bytes(content)
        self.right_again(name)

    def zip(self, name: str, edit: Callable[[Files, Json], None], *, remade: bool = True) -> None:
        """Change the files and the manifest of a zip; where it is remade its checksums are right again."""
        files, said = unpacked(self.folder / name)
        edit(files, said)
        if remade:
            for row in said["files"]:
                if row["name"] in files:
                    content = files[row["name"]]
                    row["size"], row["sha256"] = len(content), sha256(content).hexdigest()
        packed = {**files, "manifest.json": json.dumps(said, ensure_ascii=False).encode()}
        members = [Member(one, content) for one, content in packed.items()]
        write_zip(self.folder / name, members, self.folder.parent)
        self.right_again(name)


def unpacked(path: Path) -> tuple[Files, Json]:
    """Return the files of a zip, and its manifest."""
    with zipfile.ZipFile(path) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    return files, json.loads(files.pop("manifest.json"))


def one(files: Files, *parts: str) -> str:
    """Return the name of the first file that has all these parts."""
    return next(name for name in sorted(files) if all(part in name for part in parts))


# Kinds of mistakes.

Mistake = Callable[[Spoilt], None]


def xml(zip_name: str, key: str, before: str, after: str, count: int = 1) -> Mistake:
    """Another text in a MusicXML file of the first phrase; `before` is a regular expression."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, "musicxml/001", key)
            text = files[name].decode()
            files[name] = re.sub(before, after, text, count=count, flags=re.DOTALL).encode()
            assert files[name] != text.encode(), "nothing was planted"

        spoilt.zip(zip_name, edit)

    return plant


def swapped(zip_name: str, first: tuple[str, ...], second: tuple[str, ...]) -> Mistake:
    """Two files of a zip, each in the place of the other."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            a, b = one(files, *first), one(files, *second)
            assert files[a] != files[b], "nothing was planted"
            files[a], files[b] = files[b], files[a]

        spoilt.zip(zip_name, edit)

    return plant


def lost(zip_name: str, *parts: str, rows: bool = True) -> Mistake:
    """A file lost from a zip, and from its manifest."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, *parts)
            del files[name]
            if rows:
                said["files"] = [row for row in said["files"] if row["name"] != name]

        spoilt.zip(zip_name, edit)

    return plant


def pdf(edit_pdf: Callable[[pikepdf.Pdf], None], *, pages: int = 0) -> Mistake:
    """Something done to the PDF of the concert edition; `pages` are added to the count of the manifest."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, ".pdf")
            out = io.BytesIO()
            with pikepdf.open(io.BytesIO(files[name])) as book:
                edit_pdf(book)
                book.save(out)
            files[name] = out.getvalue()
            for row in said["files"]:
                row["pages"] += pages if row["pages"] else 0

        spoilt.zip(CONCERT, edit)

    return plant


def _drawn(page: Any) -> int:
    """Return how many forms a page has to draw with."""
    return len(page.Resources.get("/XObject", {})) if "/Resources" in page else 0


def _last_with_scores(book: pikepdf.Pdf) -> int:
    found = [at for at, page in enumerate(book.pages) if _drawn(page) > 8]
    return found[-1]


def _lose_page(book: pikepdf.Pdf) -> None:
    del book.pages[_last_with_scores(book)]


def _swap_pages(book: pikepdf.Pdf) -> None:
    found = [at for at, page in enumerate(book.pages) if _drawn(page) > 8]
    a, b = found[0], found[-1]
    pages = list(range(len(book.pages)))
    pages[a], pages[b] = pages[b], pages[a]
    contents = [book.pages[at].obj for at in pages]
    kids = book.pages[a].obj.Contents, book.pages[b].obj.Contents
    resources = book.pages[a].obj.Resources, book.pages[b].obj.Resources
    contents[b].Contents, contents[a].Contents = kids[1], kids[0]
    contents[b].Resources, contents[a].Resources = resources[1], resources[0]


def _move_note(book: pikepdf.Pdf) -> None:
    """Draw one note head a step higher: the placing of a form that comes often on the page."""
    page = book.pages[_last_with_scores(book)]
    content = page.obj.Contents.read_bytes()
    calls = re.findall(rb"/(g\d+) Do", content)
    most = max(set(calls), key=calls.count)
    places = list(
        re.finditer(rb"q (\S+) 0 0 (\S+) (\S+) (\S+) cm(?:(?!\nQ).)*?/" + most + rb" Do", content, re.DOTALL)
    )
    found = places[len(places) // 2]
    up = float(found[4]) + 12 * abs(float(found[2])) * 10
    moved = content[: found.start(4)] + b"%.3f" % up + content[found.end(4) :]
    page.obj.Contents = book.make_stream(moved)


def _lose_glyph(book: pikepdf.Pdf) -> None:
    """Take the last glyph of a score away: a rest, a head, a sign."""
    page = book.pages[_last_with_scores(book)]
    content = page.obj.Contents.read_bytes()
    calls = re.findall(rb"/(g\d+) Do", content)
    at = content.rindex(b"/" + max(set(calls), key=calls.count) + b" Do")
    start, end = content.rindex(b"\nq ", 0, at), content.index(b"\nQ", at)
    page.obj.Contents = book.make_stream(content[:start] + content[end + 2 :])


def _unembed(book: pikepdf.Pdf) -> None:
    for item in book.objects:
        if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor":
            for name in ("/FontFile", "/FontFile2", "/FontFile3"):
                if name in item:
                    del item[name]


def _untag(book: pikepdf.Pdf) -> None:
    del book.Root.StructTreeRoot
    del book.Root.MarkInfo


def _mislead(book: pikepdf.Pdf) -> None:
    for page in book.pages:
        for note in page.get("/Annots", []):
            if note.get("/Subtype") == "/Link" and "/URI" not in note.get("/A", {}):
                if "/Dest" in note:
                    del note["/Dest"]
                note["/A"] = pikepdf.Dictionary(S=pikepdf.Name.GoTo, D=pikepdf.String("nowhere"))
                return
    raise AssertionError("no link")


def _unname(book: pikepdf.Pdf) -> None:
    del book.Root.Lang


def _retitle(book: pikepdf.Pdf) -> None:
    book.docinfo["/Title"] = "Another book"
    with book.open_metadata() as meta:
        meta["dc:title"] = "Another book"


def _unmark(book: pikepdf.Pdf) -> None:
    del book.Root.Outlines


def track(change: Callable[[Any], Any], parts: tuple[str, ...] = ("001-01-1",)) -> Mistake:
    """A track of the concert edition decoded, changed and encoded again, its tags as they were."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, *parts)
            files[name] = _encoded(change(decode(files[name])), _facts(said, name))

        spoilt.zip(CONCERT, edit)

    return plant


def _facts(said: Json, name: str) -> Json:
    found: Json = next(row["track"] for row in said["files"] if row["name"] == name)
    return found


def _encoded(samples: Any, facts: Json, **other: Any) -> bytes:
    row = format_of(".mp3")
    chapters = tuple(
        Chapter(a, b, title, Key.parse(key) if key else None) for a, b, title, key in facts["chapters"]
    )
    key = Key.parse(facts["keys"][0]) if len(facts["keys"]) == 1 else None
    place = {"number": facts["place"], "of": facts["of"]}
    given = {
        **place,
        "title": facts["title"],
        "bpm": facts["tempo"],
        "key": key,
        "chapters": chapters,
        **other,
    }
    return tagged(encode(np.asarray(samples, np.float32), row), row, Tags(**given))


def tags(parts: tuple[str, ...] = ("001-01-1",), **other: Any) -> Mistake:
    """Other tags in a track."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, *parts)
            files[name] = _encoded(decode(files[name]), _facts(said, name), **other)

        spoilt.zip(CONCERT, edit)

    return plant


def _swap_tracks_with_tags(spoilt: Spoilt) -> None:
    def edit(files: Files, said: Json) -> None:
        a, b = one(files, "tracks/", "001-01-1"), one(files, "tracks/", "001-02-1")
        sound = decode(files[a]), decode(files[b])
        files[a], files[b] = _encoded(sound[1], _facts(said, a)), _encoded(sound[0], _facts(said, b))

    spoilt.zip(CONCERT, edit)


def _pitched_up(samples: Any) -> Any:
    """Return the samples a half step higher: played faster, the length made up with silence."""
    at = np.arange(0, len(samples) - 1, 2 ** (1 / 12))
    faster = np.stack([np.interp(at, np.arange(len(samples)), samples[:, side]) for side in (0, 1)], axis=1)
    return np.concatenate([faster, np.zeros((len(samples) - len(faster), 2))])


def midi(change: Callable[[bytes], bytes]) -> Mistake:
    """Another byte or two in a MIDI file."""

    def plant(spoilt: Spoilt) -> None:
        def edit(files: Files, said: Json) -> None:
            name = one(files, "midi/001-02")
            before, files[name] = files[name], change(files[name])
            assert files[name] != before, "nothing was planted"

        spoilt.zip(BFLAT, edit)

    return plant


def _other_note(content: bytes) -> bytes:
    """Return a MIDI file with its third note a half step higher, on and off."""
    found = list(re.finditer(rb"\x90(.)\x5a", content, re.DOTALL)) or list(
        re.finditer(rb"\x90(.)[\x30-\x70]", content)
    )
    note = found[2][1]
    higher = bytes([note[0] + 1])
    at = found[2].start(1)
    return content[:at] + higher + content[at + 1 :]


def manifest(edit: Callable[[Json], None]) -> Mistake:
    """The manifest of the folder changed."""
    return lambda spoilt: spoilt.manifest(edit)


def in_zip(edit: Callable[[Files, Json], None], zip_name: str = CONCERT, *, remade: bool = True) -> Mistake:
    """A zip changed in another way."""
    return lambda spoilt: spoilt.zip(zip_name, edit, remade=remade)


def _cut(name: str, keep: float) -> Mistake:
    def plant(spoilt: Spoilt) -> None:
        path = spoilt.folder / name
        content = path.read_bytes()
        path.write_bytes(content[: int(len(content) * keep)])

    return plant


def _flip(name: str, part: bytes = b"", at: float = 0.5) -> Mistake:
    """One bit of a file turned over: of a zip, in the member whose name is given."""

    def plant(spoilt: Spoilt) -> None:
        path = spoilt.folder / name
        content = bytearray(path.read_bytes())
        start = content.index(part) + len(part) + 2000 if part else int(len(content) * at)
        content[start] ^= 0x10
        path.write_bytes(content)

    return plant


def _gone(name: str) -> Mistake:
    return lambda spoilt: (spoilt.folder / name).unlink()


def _foreign(spoilt: Spoilt) -> None:
    (spoilt.folder / "notes.txt").write_text("not for customers", encoding="utf-8")


def _foreign_in_zip(files: Files, said: Json) -> None:
    files["draft.txt"] = b"not for customers"


def _no_manifest(spoilt: Spoilt) -> None:
    files, _ = unpacked(spoilt.folder / CONCERT)
    write_zip(spoilt.folder / CONCERT, [Member(*item) for item in files.items()], spoilt.folder.parent)
    spoilt.right_again(CONCERT)


def _old_zip(spoilt: Spoilt) -> None:
    shutil.copy(spoilt.books.old / "tides-concert-1.0.zip", spoilt.folder / CONCERT)
    spoilt.right_again(CONCERT)


def from_old(*parts: str) -> Mistake:
    """A file of the version before in the place of the new one."""

    def plant(spoilt: Spoilt) -> None:
        before, _ = unpacked(spoilt.books.old / "tides-concert-1.0.zip")

        def edit(files: Files, said: Json) -> None:
            name = one(files, *parts)
            assert files[name] != before[name], "nothing was planted"
            files[name] = before[name]

        spoilt.zip(CONCERT, edit)

    return plant


def _other_edition(spoilt: Spoilt) -> None:
    other, _ = unpacked(spoilt.folder / BFLAT)

    def edit(files: Files, said: Json) -> None:
        files[one(files, ".pdf")] = other[one(other, ".pdf")]

    spoilt.zip(CONCERT, edit)


def _editions_swapped(spoilt: Spoilt) -> None:
    first, second = (spoilt.folder / name for name in (CONCERT, BFLAT))
    a, b = first.read_bytes(), second.read_bytes()
    spoilt.beside(CONCERT, b)
    spoilt.beside(BFLAT, a)


def _one_key_all_through(files: Files, said: Json) -> None:
    """Change a note in one key in the manifest, the MusicXML and the MIDI alike; only the page stays right."""
    text = next(one for one in said["music"]["texts"] if one["key"] == "F minor")
    before = text["line"]
    text["line"] = re.sub(r"^(\S+ )(\S+)( \S+)", r"\g<1>\g<2> bb4", before, count=1)
    assert text["line"] != before
    name = one(files, "musicxml/001", "f-minor")
    files[name] = files[name].replace(b"<step>D</step>", b"<step>B</step>", 1)


def _no_second_key(files: Files, said: Json) -> None:
    """Take a key of a phrase away from the whole manifest and from the files; only the page has it."""
    music = said["music"]
    music["scores"] = [row for row in music["scores"] if (row["number"], row["written"]) != (2, "F major")]
    for row in [row for row in said["files"] if (row["number"], row["key"]) == (2, "F major")]:
        said["files"].remove(row)
        del files[row["name"]]


def _no_second_phrase(files: Files, said: Json) -> None:
    """Take a phrase away from the list of phrases."""
    said["phrases"] = said["phrases"][:1]


def _no_tracks_of_a_key(files: Files, said: Json) -> None:
    for row in [row for row in said["files"] if row["track"] and row["track"]["keys"] == ["F minor"]]:
        said["files"].remove(row)
        del files[row["name"]]


def _same_twice(files: Files, said: Json) -> None:
    files[one(files, "tracks/", "002-01-1")] = files[one(files, "tracks/", "001-01-1")]


def _other_source(files: Files, said: Json) -> None:
    fields = said["phrases"][0]["fields"]
    fields["line"] = fields["line"].replace("ab c5", "a c5", 1)


def _empty(name: str) -> Callable[[Files, Json], None]:
    def edit(files: Files, said: Json) -> None:
        files[name] = b"\n"

    return edit


def _readme_of_old(files: Files, said: Json) -> None:
    files["readme.txt"] = files["readme.txt"].replace(b"1.1", b"1.0")


def _cover(size: tuple[int, int]) -> Mistake:
    def plant(spoilt: Spoilt) -> None:
        out = io.BytesIO()
        Image.new("RGB", size, (90, 40, 40)).save(out, "JPEG")
        spoilt.beside("cover/cover-square-2000x2000.jpg", out.getvalue())

    return plant


def _other_page(spoilt: Spoilt) -> None:
    pages = sorted((spoilt.folder / "pages").glob("page-concert-*.png"))
    spoilt.beside(f"pages/{pages[-1].name}", pages[0].read_bytes())


def _sound(seconds: float, loud: float) -> Mistake:
    def plant(spoilt: Spoilt) -> None:
        samples = np.sin(np.arange(int(seconds * RATE_HZ)) * 440 * 2 * np.pi / RATE_HZ) * loud
        out = io.BytesIO()
        with soundfile.SoundFile(out, "w", RATE_HZ, 2, "MPEG_LAYER_III", format="MP3") as file:
            for first in range(0, len(samples), RATE_HZ):
                file.write(np.stack([samples[first : first + RATE_HZ]] * 2, axis=1).astype(np.float32))
        spoilt.beside("preview.mp3", out.getvalue())

    return plant


def _whole_book_as_sample(spoilt: Spoilt) -> None:
    files, _ = unpacked(spoilt.folder / CONCERT)
    spoilt.beside("sample/tides-concert-sample.pdf", files[one(files, ".pdf")])


def _listing(change: Callable[[Json], None]) -> Mistake:
    def plant(spoilt: Spoilt) -> None:
        said = json.loads((spoilt.folder / "listing.json").read_text(encoding="utf-8"))
        change(said)
        spoilt.beside("listing.json", json.dumps(said).encode())

    return plant


def _other_version(said: Json) -> None:
    said["about"]["version"] = "2.0"


def _no_edition(said: Json) -> None:
    said["files"] = [row for row in said["files"] if row["name"] != BFLAT]


def _lose_edition(spoilt: Spoilt) -> None:
    spoilt.manifest(_no_edition)
    (spoilt.folder / BFLAT).unlink()


_PITCH = r"<step>(\w)</step>"

MISTAKES: tuple[tuple[str, Mistake], ...] = (
    ("a zip cut short by a tenth", _cut(CONCERT, 0.9)),
    ("a zip cut in the middle", _cut(BFLAT, 0.5)),
    ("a zip of no bytes", _cut(CONCERT, 0.0)),
    ("a bit turned over in a PDF in a zip", _flip(CONCERT, b"tides-concert.pdf")),
    ("a bit turned over in a track in a zip", _flip(BFLAT, b"demonstration.mp3")),
    ("a bit turned over in a cover", _flip("cover/cover-wide-1280x720.jpg")),
    ("a zip missing", _gone(BFLAT)),
    ("a zip missing, the manifest too (remade)", _lose_edition),
    ("the preview to listen to missing", _gone("preview.mp3")),
    ("a sample missing", _gone("sample/tides-bflat-sample.pdf")),
    ("a foreign file beside the zips", _foreign),
    ("a foreign file in a zip", in_zip(_foreign_in_zip)),
    ("no manifest in the folder", _gone("manifest.json")),
    ("no manifest in a zip (remade)", _no_manifest),
    ("half a manifest in the folder", _cut("manifest.json", 0.5)),
    ("a page lost", pdf(_lose_page)),
    ("a page lost, the count of pages put right (remade)", pdf(_lose_page, pages=-1)),
    ("two pages in each other's place (remade)", pdf(_swap_pages)),
    ("a note head drawn higher on one page (remade)", pdf(_move_note)),
    ("a glyph missing on one page (remade)", pdf(_lose_glyph)),
    ("fonts that are not embedded (remade)", pdf(_unembed)),
    ("a PDF without tags (remade)", pdf(_untag)),
    ("a link that leads nowhere (remade)", pdf(_mislead)),
    ("a PDF that names no language (remade)", pdf(_unname)),
    ("the title of another book (remade)", pdf(_retitle)),
    ("a PDF without bookmarks (remade)", pdf(_unmark)),
    ("the PDF of another edition (remade)", _other_edition),
    ("the PDF of the version before (remade)", from_old(".pdf")),
    ("the zip of the version before (remade)", _old_zip),
    ("a MusicXML file of the version before (remade)", from_old("musicxml/001-02")),
    ("a MIDI file of the version before (remade)", from_old("midi/001-01")),
    ("the zips of two editions in each other's place (remade)", _editions_swapped),
    ("a note on another step in one key (remade)", xml(BFLAT, "g-minor", r"<step>G</step>", "<step>A</step>")),
    ("a note an octave higher in one key (remade)", xml(CONCERT, "f-minor", r"<octave>4</octave>", "<octave>5</octave>")),
    ("an accidental lost in one key (remade)", xml(CONCERT, "c-minor", r"<alter>-1</alter>", "")),
    ("a longer note in one key (remade)", xml(BFLAT, "d-minor", r"<duration>1</duration>", "<duration>2</duration>")),
    ("a note lost in one key (remade)", xml(CONCERT, "f-minor", r"<note[^>]*>(?:(?!</note>).)*<pitch>.*?</note>\s*", "")),
    ("a chord on another root in one key (remade)", xml(CONCERT, "f-minor", r"<root-step>(\w)</root-step>", "<root-step>E</root-step>")),
    ("another title in one file (remade)", xml(CONCERT, "f-minor", r"Low tide", "High tide")),
    ("a transposition lost in one key (remade)", xml(BFLAT, "g-minor", r"<transpose>.*?</transpose>", "")),
    ("an element that the standard has not (remade)", xml(CONCERT, "c-minor", r"</attributes>", "<colour/></attributes>")),
    ("MusicXML in two keys in each other's place (remade)", swapped(CONCERT, ("musicxml/001-01",), ("musicxml/001-02",))),
    ("MIDI in two keys in each other's place (remade)", swapped(BFLAT, ("midi/001-01",), ("midi/001-02",))),
    ("a MusicXML file lost (remade)", lost(CONCERT, "musicxml/002-02")),
    ("a MIDI file lost (remade)", lost(BFLAT, "midi/002-01")),
    ("a note changed in a MIDI file (remade)", midi(_other_note)),
    ("a MIDI file cut short (remade)", midi(lambda content: content[:-40])),
    ("a file lost, the manifest as before", lost(BFLAT, "musicxml/001-01", rows=False)),
    ("two tracks in each other's place (remade)", swapped(CONCERT, ("001-01-1",), ("001-02-1",))),
    ("two tracks in each other's place with the right tags (remade)", _swap_tracks_with_tags),
    ("a track a half step too high (remade)", track(_pitched_up)),
    ("half a track (remade)", track(lambda samples: samples[: len(samples) // 2])),
    ("a silent track (remade)", track(lambda samples: samples * 0)),
    ("a track too quiet by 6 dB (remade)", track(lambda samples: samples / 2)),
    ("a track with the key of another in its tags (remade)", tags(key=Key.parse("F minor"))),
    ("a track with another tempo in its tags (remade)", tags(bpm=90)),
    ("a track with the title of another (remade)", tags(title="The pilot's rope")),
    ("a track without its chapters (remade)", tags(("001-99",), chapters=())),
    ("the same track under two names (remade)", in_zip(_same_twice)),
    ("a track lost (remade)", lost(CONCERT, "tracks/", "002-02-1")),
    ("all tracks of a key lost (remade)", in_zip(_no_tracks_of_a_key)),
    ("a note changed in one key in manifest and MusicXML, the page right (remade)", in_zip(_one_key_all_through)),
    ("a key lost from manifest and files, the page right (remade)", in_zip(_no_second_key)),
    ("a phrase lost from the manifest (remade)", in_zip(_no_second_phrase)),
    ("another note in the manuscript's text of a phrase (remade)", in_zip(_other_source)),
    ("a licence without a word (remade)", in_zip(_empty("licence.txt"))),
    ("the readme of the version before (remade)", in_zip(_readme_of_old)),
    ("another version in the manifest of the folder", manifest(_other_version)),
    ("a cover of another size (remade)", _cover((1000, 1000))),
    ("the picture of another page (remade)", _other_page),
    ("a preview of a minute (remade)", _sound(60, 0.2)),
    ("a preview in which nothing is heard (remade)", _sound(20, 0.0)),
    ("the whole book as a sample (remade)", _whole_book_as_sample),
    ("a listing with too few phrases (remade)", _listing(lambda said: said["contents"].pop())),
    ("a listing of the version before (remade)", _listing(lambda said: said.update(version="1.0"))),
    ("a listing with another count of pages (remade)", _listing(lambda said: said["pages"].update(concert=99))),
)  # fmt: skip
"""What is planted, each with what it is called."""


def found_in(books: Books, place: Path, plant: Mistake) -> list[str]:
    """Plant one mistake in a copy of the bundle and return what `verify` says; the copy is gone afterwards."""
    folder = shutil.copytree(books.new, place / "spoilt")
    try:
        plant(Spoilt(folder, books))
        return [f"{fault.file}: {fault.says}" for fault in verify(folder, jobs=1).faults]
    finally:
        shutil.rmtree(folder)


def main() -> None:
    """Plant every mistake, or those whose numbers are given, and print what was found."""
    chosen = {int(number) for number in sys.argv[1:]}
    with tempfile.TemporaryDirectory(prefix="plant-") as name:
        place = Path(name)
        books = build_books(place)
        assert not verify(books.new, books.manuscript, jobs=1).faults, "the bundle itself is wrong"
        found, started = 0, time.perf_counter()
        wanted = [one for at, one in enumerate(MISTAKES, 1) if not chosen or at in chosen]
        for at, (called, plant) in enumerate(wanted, 1):
            said = found_in(books, place, plant)
            found += bool(said)
            print(f"{at:3} {'found ' if said else 'MISSED'} {called}: {said[0] if said else ''}", flush=True)
        newer = verify(books.old, books.manuscript, jobs=1).faults
        print(
            f"    {'found ' if newer else 'MISSED'} a whole bundle of the version before, against the manuscript"
        )
        print(f"{found} of {len(wanted)} found in {time.perf_counter() - started:.0f} s.")


if __name__ == "__main__":
    main()
