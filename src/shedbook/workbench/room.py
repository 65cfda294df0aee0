"""The manuscript that is open, who is looking at it, and what is being made of it."""

from __future__ import annotations

import asyncio
import contextlib
import shutil
import tempfile
import time
from collections.abc import AsyncIterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import msgspec

from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.verbs.edit import ASIDE_FOLDER, Desk, PhraseRef
from shedbook.errors import ManuscriptError, ShedbookError
from shedbook.workbench.helpers import Helper
from shedbook.workbench.making import Making, built_json
from shedbook.workbench.plain_json import error_json, fields_json
from shedbook.workbench.recordings import Recordings

Json = dict[str, Any]
_KEPT_ROWS = 1_500
"""How many small scores are kept; one takes 20 kB."""
_SEARCH_S = 0.4
"""How long a search looks at phrases that it does not know yet before it answers with what it has."""
_AT_ONCE = 12
"""How many phrases a worker reads for the search before it may do something else."""


class Room:
    """What all windows share. Everything here runs in the one event loop."""

    def __init__(self, root: Path, out: Path | None = None) -> None:
        self.desk = Desk(root, out)
        self.quick, self.patient = Helper("quick"), Helper("patient")
        self.making = Making()
        self.printed: dict[str, Path] = {}
        self._printing: Path | None = None
        self.recordings = Recordings()
        self._listener = Helper("listener")  # its process begins with the first recording
        self._listening: set[str] = set()
        self.ending = asyncio.Event()
        self._listeners: set[asyncio.Queue[Json | None]] = set()
        self._book: Manuscript | None = None
        self._settings: Settings | None = None
        self._own: dict[str, tuple[int, int]] = {}
        self._drawn: dict[bytes, Json] = {}
        self._known: dict[bytes, Json | None] = {}

    # The book

    def book(self) -> Manuscript:
        """Return the manuscript, read again only after something has changed."""
        if self._book is None:
            self._book = self.desk.open()
        return self._book

    def settings(self) -> Settings:
        """Return the settings of the book, read again only after manuscript.toml has changed."""
        if self._settings is None:
            self._settings = self.book().settings
        return self._settings

    def changed(self, window: str = "", *, whole: bool = True) -> None:
        """Say that files have changed: the book is read again, and every window but one looks again.

        Not `whole` is a change of one phrase, which leaves the settings as they are.
        """
        self._book = None
        if whole:
            self._settings = None
        self.tell({"what": "changed", "window": window})

    def wrote(self, file: str) -> None:
        """Remember a file as it is now, as one that we wrote ourselves."""
        self._own[file] = _stamp(self.desk.root / file)

    def source(self, ref: PhraseRef) -> PhraseSource:
        """Return a phrase of the book.

        Raises:
            ManuscriptError: if it is not there.
        """
        for _ in range(2):
            for one in self.book().phrases:
                if one.file == ref.file and one.index == ref.index:
                    return one
            self._book = None  # it may have been read while another program was writing it
        raise ManuscriptError("This phrase is no longer there.", hint="Look at the book again.")

    def own_fields(self, source: PhraseSource) -> Json:
        """Return the keys that stand in a phrase's own table."""
        book = self.settings().defaults.fields
        return {name: value for name, value in source.fields.items() if book.get(name) != value}

    def book_json(self) -> Json:
        """Return the book as its screen needs it: every phrase with its texts, in order."""
        book = self.book()
        last, next_ = self.desk.history.last(), self.desk.history.next()
        return {
            "title": book.title,
            "phrases": [
                {"file": one.file, "index": one.index, "title": one.title, "fields": fields_json(one.fields)}
                for one in book.phrases
            ],
            "unread": [{**error_json(error), "where": str(error.place or "")} for error in book.unread],
            **built_json(book, self.desk.out),
            "aside": sorted(path.name for path in (self.desk.root / ASIDE_FOLDER).glob("*.toml")),
            "undo": None if last is None else [last.kind, last.about],
            "redo": None if next_ is None else [next_.kind, next_.about],
        }

    async def rows(self, refs: list[PhraseRef]) -> list[Json]:
        """Return small scores and facts of phrases; what was drawn before is kept."""
        sources = [self.source(ref) for ref in refs]
        keys = [_key(one.fields) for one in sources]
        missing = list(dict.fromkeys(key for key in keys if key not in self._drawn))
        if missing:
            given = {key: dict(one.fields) for key, one in zip(keys, sources, strict=True)}
            settings = self.settings()
            wanted = [given[key] for key in missing]
            found = await self.patient.ask("rows", {"phrases": wanted, "settings": settings})
            self._drawn.update(zip(missing, found, strict=True))
            for key in list(self._drawn)[: max(0, len(self._drawn) - _KEPT_ROWS)]:
                if key not in keys:
                    del self._drawn[key]
        return [self._drawn[key] for key in keys]

    async def search(self, steps: list[int], progression: str) -> Json:
        """Return the phrases whose line has these steps in a row, and whose changes this progression.

        It looks for a moment only: "left" is how many phrases have not been looked at yet. Whoever asks shows
        what was found, and asks again.

        Args:
            steps: half steps between notes that follow each other; none for any line.
            progression: part of the name of a progression or a scale; "" for any.
        """
        sources = self.book().phrases
        keys = [_key(one.fields) for one in sources]
        missing = [place for place, key in enumerate(keys) if key not in self._known]
        end = time.monotonic() + _SEARCH_S
        for first in range(0, len(missing), _AT_ONCE):
            if time.monotonic() > end:
                break
            some = missing[first : first + _AT_ONCE]
            given = {"phrases": [dict(sources[one].fields) for one in some], "settings": self.settings()}
            read = await self.patient.ask("outlines", given)
            self._known.update({keys[one]: what for one, what in zip(some, read, strict=True)})
        wanted = progression.casefold().strip()
        found = [
            [one.file, one.index]
            for one, key in zip(sources, keys, strict=True)
            if (known := self._known.get(key)) is not None and _has(known, steps, wanted)
        ]
        return {"found": found, "left": sum(1 for key in keys if key not in self._known)}

    def printing_folder(self) -> Path:
        """Return the folder for pages of single phrases, which goes when the workbench ends."""
        if self._printing is None:
            self._printing = Path(tempfile.mkdtemp(prefix="shedbook-printing-"))
        return self._printing

    # Who is looking

    def tell(self, what: Json) -> None:
        """Tell every window something."""
        for one in self._listeners:
            one.put_nowait(what)

    async def told(self) -> AsyncIterator[bytes]:
        """Yield what windows are told, as server-sent events, until the workbench ends."""
        queue: asyncio.Queue[Json | None] = asyncio.Queue()
        self._listeners.add(queue)
        try:
            yield b"retry: 700\n\n"
            yield _event({"what": "making", **self.making.state})
            while not self.ending.is_set():
                try:
                    what = await asyncio.wait_for(queue.get(), 15)
                except TimeoutError:
                    yield b": still here\n\n"
                    continue
                if what is None:
                    break
                yield _event(what)
        finally:
            self._listeners.discard(queue)

    async def watch(self) -> None:
        """Look at the manuscript's folder until the workbench ends, and say when something there changes."""
        from watchfiles import awatch  # noqa: PLC0415 - it is loaded after the first screen is there

        with contextlib.suppress(asyncio.CancelledError):
            async for found in awatch(self.desk.root, stop_event=self.ending, debounce=120, step=40):
                paths = [Path(path) for _, path in found if path.endswith((".toml", ".txt"))]
                foreign = [path for path in paths if not self._is_own(path)]
                if foreign:
                    self.changed("disk", whole=any(path.name == MANUSCRIPT_FILE for path in foreign))

    def _is_own(self, path: Path) -> bool:
        try:
            file = path.relative_to(self.desk.root.resolve()).as_posix()
        except ValueError:
            return False
        return self._own.get(file) == _stamp(path)

    # Recordings

    async def listen(self, recording: str, chore: str, given: Json, newest_for: str = "") -> Any:
        """Return what a chore gives that listens to a recording; the band does not wait for it.

        Raises:
            ShedbookError: as the chore; if the recording is gone, or is forgotten meanwhile.
        """
        path = str(self.recordings.path(recording))
        self._listening.add(recording)
        try:
            return await self._listener.ask(chore, {"recording": path, **given}, newest_for=newest_for)
        finally:
            self._listening.discard(recording)

    def forget(self, recording: str) -> None:
        """Delete a recording; if it is being listened to, that ends at once."""
        if recording in self._listening:
            self._listener.abandon()
            self._listener = Helper("listener")
        self.recordings.forget(recording)

    # Ends

    def end(self) -> None:
        """Say to every window that the workbench ends."""
        self.tell({"what": "ended"})
        self.ending.set()
        for one in self._listeners:
            one.put_nowait(None)

    def close(self) -> None:
        """End every process, and take away the pages of single phrases and the recordings that were sent."""
        self.recordings.close()
        if self._printing is not None:
            shutil.rmtree(self._printing, ignore_errors=True)
        self.making.close()
        self.quick.close()
        self.patient.close()
        self._listener.close()


def _stamp(path: Path) -> tuple[int, int]:
    """Return what changes when a file is written: its number on the disk and when; zeros where it is gone."""
    try:
        status = path.stat()
    except OSError:
        return 0, 0
    return status.st_ino, status.st_mtime_ns


def _key(fields: Mapping[str, Any]) -> bytes:
    return msgspec.json.encode(fields_json(fields))


def _event(what: Json) -> bytes:
    return b"data: " + msgspec.json.encode(what) + b"\n\n"


def _has(known: Json, steps: list[int], wanted: str) -> bool:
    outline = known["outline"]
    moves = [two - one for one, two in pairwise(outline)]
    fits = not steps or any(moves[at : at + len(steps)] == steps for at in range(len(moves) - len(steps) + 1))
    names = (*known["progressions"], *known["scales"])
    return fits and (not wanted or any(wanted in name.casefold() for name in names))


def refusal(error: ShedbookError) -> Json:
    """Return an error as every address answers it."""
    return {"error": error_json(error)}
