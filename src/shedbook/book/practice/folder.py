"""The folder of the page: its scripts, its book as data, its sounds, moved into place whole."""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from string import Template
from typing import Any

from shedbook.book.ground.words import Words
from shedbook.book.ground.writing import refused
from shedbook.book.practice.packing import bytes_script, compact_json, packed_script
from shedbook.book.practice.tracks_beside import FILE as TRACKS_FILE
from shedbook.book.practice.tracks_beside import BesideTrack, tracks_script
from shedbook.editions.instruments.edition import Edition

STATIC = Path(__file__).parent / "static"
SOUNDS = Path(__file__).parent / "sounds"
FIRST = (
    "page.js",
    "sound.js",
    "recorded.js",
    "score.js",
    "choices.js",
    "play.js",
    "ears.js",
    "ear.js",
    "why.js",
    "own_staff.js",
    "own_line.js",
)
"""The page's own scripts that run first, in this order; it is that of their screens."""
LAST = "start.js"
_WORKER = "worker.js"
_INSTEAD = {"store.js": "progress.js"}
"""Scripts that stand in for another one where that is not there."""
_STYLES = ("page.css", "plan.css")
_WORD_ROWS = "practice."
_KITS = {0: "drums", 40: "brushes"}


@dataclass(frozen=True, slots=True)
class PhraseData:
    """What the folder holds of one phrase.

    `played` is what `played.play_phrase` gives, `parts` what `part.read_part` gives for each edition,
    `tracks` are those that lie beside the page, `timed` what `timed.time_tracks` gives of them.
    """

    id: str
    number: int
    title: str
    level: int
    tempo: float
    played: Mapping[str, Any]
    parts: tuple[Mapping[str, Any], ...]
    tracks: tuple[BesideTrack, ...] = ()
    timed: Sequence[Mapping[str, Any]] = ()


@dataclass(frozen=True, slots=True)
class BookData:
    """What the folder holds of the whole book.

    `id` keeps its store apart from those of other books, `before` are names that it had in earlier pages.
    """

    id: str
    before: tuple[str, ...]
    title: str
    author: str
    language: str
    words: Words
    editions: tuple[Edition, ...]
    phrases: tuple[PhraseData, ...]


def folder_files(book: BookData) -> dict[str, bytes]:
    """Return every file of the folder by its name, the service worker with the list of all others last."""
    glyphs: dict[str, str] = {}
    files: dict[str, str] = {}
    for phrase in book.phrases:
        files[f"played/{phrase.id}.js"] = packed_script(f"played/{phrase.id}", phrase.played)
        for edition, part in zip(book.editions, phrase.parts, strict=True):
            glyphs |= part["glyphs"]
            name = f"scores/{edition.slug}/{phrase.id}"
            files[f"{name}.js"] = packed_script(name, {key: part[key] for key in part if key != "glyphs"})
        if phrase.tracks:
            files[f"timed/{phrase.id}.js"] = packed_script(f"timed/{phrase.id}", phrase.timed)
    if any(phrase.tracks for phrase in book.phrases):
        files[TRACKS_FILE] = tracks_script({phrase.id: phrase.tracks for phrase in book.phrases})
    files["glyphs.js"] = packed_script("glyphs", glyphs)
    table = json.loads((SOUNDS / "sounds.json").read_text(encoding="utf-8"))
    instruments = used_instruments(phrase.played for phrase in book.phrases)
    for name in instruments:
        content = (SOUNDS / f"{name.replace(' ', '-')}.mp3").read_bytes()
        files[f"sounds/{name.replace(' ', '-')}.js"] = bytes_script(f"sounds/{name}", content)
    own = scripts_there()
    for name in (*own, *styles_there()):
        files[name] = (STATIC / name).read_text(encoding="utf-8")
    table["instruments"] = {name: table["instruments"][name] for name in instruments}
    version = _version(files, book)
    files["book.js"] = _book_script(book, table, version)
    files["index.html"] = _index(book, own)
    files["licences.txt"] = (STATIC / "licences.txt").read_text(encoding="utf-8")
    listed = ["./", *sorted(files)]
    worker = (STATIC / "worker.js").read_text(encoding="utf-8")
    files["worker.js"] = Template(worker).substitute(
        version=version, id=json.dumps(book.id), files=json.dumps(listed)
    )
    return {name: text.encode() for name, text in files.items()}


def scripts_there() -> tuple[str, ...]:
    """Return the page's own scripts in the order in which they run, without one that another replaces."""
    there = sorted(path.name for path in STATIC.glob("*.js"))
    rest = [name for name in there if name not in (*FIRST, LAST, _WORKER) and _INSTEAD.get(name) not in there]
    return (*FIRST, *rest, LAST)


def styles_there() -> tuple[str, ...]:
    """Return the page's style sheets as far as they are there."""
    return tuple(name for name in _STYLES if (STATIC / name).is_file())


def used_instruments(played: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return the names of the instruments that play anything, drums by their kit."""
    found = {
        _KITS[part["program"]] if part["drums"] else part["instrument"]
        for one in played
        for key in one["keys"]
        for part in key["parts"]
    }
    return tuple(sorted(found))


def _version(files: Mapping[str, str], book: BookData) -> str:
    found = hashlib.sha256(f"{book.title}\n{book.language}\n".encode())
    for name in sorted(files):
        found.update(f"{name}\n".encode())
        found.update(files[name].encode())
    return found.hexdigest()[:12]


def _book_script(book: BookData, sounds: Mapping[str, Any], version: str) -> str:
    rows = {name: text for name, text in book.words.table.items() if name.startswith(_WORD_ROWS)}
    value = {
        "id": book.id,
        "before": book.before,
        "version": version,
        "title": book.title,
        "author": book.author,
        "language": book.language,
        "words": rows,
        "instruments": [
            {"slug": one.slug, "name": one.title, "shift": one.transposition.semitones, "clef": one.clef}
            for one in book.editions
        ],
        "sounds": sounds,
        "tracks": any(phrase.tracks for phrase in book.phrases),
        "phrases": [_phrase(one, book) for one in book.phrases],
    }
    return f"window.practice = window.practice || {{}};\npractice.book = {compact_json(value)};\n"


def _phrase(phrase: PhraseData, book: BookData) -> Mapping[str, Any]:
    names = [
        {
            edition.slug: part["keys"][place]["name"]
            for edition, part in zip(book.editions, phrase.parts, strict=True)
        }
        for place in range(len(phrase.played["keys"]))
    ]
    return {
        "id": phrase.id,
        "number": phrase.number,
        "title": phrase.title,
        "level": phrase.level,
        "bars": phrase.played["bars"],
        "tempo": phrase.tempo,
        "home": phrase.parts[0]["home"].partition(" ")[0],
        "keys": [
            {
                "key": key["key"].partition(" ")[0],
                "name": book.words.whole_key(key["key"]),
                "written": names[place],
                "file": f"played/{phrase.id}.js",
            }
            for place, key in enumerate(phrase.played["keys"])
        ],
    }


def _index(book: BookData, scripts: Sequence[str]) -> str:
    page = (STATIC / "page.html").read_text(encoding="utf-8")
    styles = "".join(f'<link rel="stylesheet" href="{name}">\n' for name in styles_there())
    tags = "".join(f'<script src="{name}"></script>\n' for name in ("book.js", *scripts))
    return Template(page).substitute(
        title=_escaped(book.title), language=_escaped(book.language), styles=styles, scripts=tags
    )


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")


def write_folder(files: Mapping[str, bytes], target: Path, unfinished: Path) -> None:
    """Write the folder beside its place and move it there; what was there before is gone then.

    Raises:
        OutputError: if the disk refuses it.
    """
    beginning = unfinished / f"{target.name}.part"
    before = unfinished / f"{target.name}.before"
    with refused(target):
        for left in (beginning, before):
            shutil.rmtree(left, ignore_errors=True)
        for name, content in files.items():
            path = beginning / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        if target.exists():
            target.replace(before)
        try:
            beginning.replace(target)
        except OSError:
            if before.exists():
                before.replace(target)
            raise
    shutil.rmtree(before, ignore_errors=True)
