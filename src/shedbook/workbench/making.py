"""A build in a process of its own: it tells how far it is, and can be stopped, workers first."""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import asdict
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from types import FrameType
from typing import Any

from shedbook.book.ground.findings import finding_values
from shedbook.book.ground.progress import Step
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript
from shedbook.book.manuscript.request import Request
from shedbook.errors import BuildError, ShedbookError
from shedbook.workbench.plain_json import error_json

Json = dict[str, Any]
Tell = Callable[[Json], None]
_GRACE_S = 8.0


class Making:
    """One build at a time."""

    def __init__(self) -> None:
        self._process: BaseProcess | None = None
        self._stopped = False
        self.state: Json = {"state": "idle"}

    @property
    def running(self) -> bool:
        """Whether a build is going on."""
        return self.state["state"] in ("starting", "running", "stopping")

    def start(self, request: Request, tell: Tell) -> bool:
        """Begin a build; `tell` is called, from a thread, with each new state. False if one is running."""
        if self.running:
            return False
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe(duplex=False)
        self._stopped = False
        self._process = context.Process(target=make, args=(theirs, os.getpid(), request), name="build")
        self._process.start()
        theirs.close()
        self._say({"state": "starting"}, tell)
        threading.Thread(target=self._listen, args=(ours, self._process, tell), daemon=True).start()
        return True

    def _say(self, state: Json, tell: Tell) -> None:
        self.state = state
        tell(state)

    def _listen(self, pipe: Connection, process: BaseProcess, tell: Tell) -> None:
        last: Json = {}
        with contextlib.suppress(EOFError, OSError):
            while True:
                last = pipe.recv()
                if last["state"] == "running" and not self._stopped:
                    self._say(last, tell)
        process.join(_GRACE_S)
        pipe.close()
        if last.get("state") in ("done", "failed"):
            self._say(last, tell)
        elif self._stopped:
            self._say({"state": "stopped"}, tell)
        else:
            self._say({"state": "failed", "errors": [{"message": "", "hint": ""}]}, tell)

    def stop(self, tell: Tell) -> bool:
        """Ask the build to stop; False if none is running."""
        if not self.running or self._process is None:
            return False
        self._stopped = True
        self._say({"state": "stopping"}, tell)
        self._process.terminate()
        return True

    def close(self) -> None:
        """Stop the build, if there is one, and wait until it is gone."""
        process = self._process
        if process is not None and process.is_alive():
            process.terminate()
            process.join(_GRACE_S)
            if process.is_alive():
                process.kill()
                process.join(1)


def make(pipe: Connection, parent: int, request: Request) -> None:
    """Build, and send what there is to tell. This is what the process runs."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _end)
    threading.Thread(target=_end_without, args=(parent,), daemon=True).start()
    from shedbook.book.verbs.build import build  # noqa: PLC0415 - the thread above watches while this loads

    def tell(step: Step) -> None:
        if not step.said:
            pipe.send({"state": "running", "phase": step.phase, "done": step.done, "of": step.of})

    notes: tuple[str, ...] = ()
    try:
        if request.bundle:
            from shedbook.book.verbs.bundle import bundle  # noqa: PLC0415 - only where it is asked for

            bundled = bundle(request, tell)
            built, notes = bundled.built, bundled.told
        else:
            built = build(request, tell)
    except BuildError as error:
        pipe.send({"state": "failed", "errors": [_error(one) for one in (*error.errors, error)]})
    except ShedbookError as error:
        pipe.send({"state": "failed", "errors": [_error(error)]})
    else:
        pipe.send(
            {
                "state": "done",
                "books": [path.name for path in built.pdfs],
                "tracks": len(built.tracks),
                "practice": built.practice_page is not None,
                "findings": [finding_values(one, own=True) for one in built.findings],
                "warnings": [*(f"{one.message} {one.hint}".strip() for one in built.warnings), *notes],
                "made": built.jobs_run,
                "seconds": round(built.seconds, 1),
            }
        )


def _error(error: ShedbookError) -> Json:
    place = getattr(error, "place", None)
    return {**error_json(error), "where": "" if place is None else str(place), **_file_of(place)}


def _file_of(place: Any) -> Mapping[str, Any]:
    return {} if place is None else {"place": asdict(place)}


def _end(number: int, frame: FrameType | None) -> None:
    raise SystemExit(128 + number)


def _end_without(parent: int) -> None:
    """End the build in order when its parent is gone."""
    while os.getppid() == parent:
        time.sleep(0.5)
    os.kill(os.getpid(), signal.SIGTERM)


def built_json(book: Manuscript, out: Path) -> Json:
    """Return when the oldest book in an output folder was made, 0 for none, and what has been saved since."""
    times = [path.stat().st_mtime for path in out.glob("*.pdf")]
    at = min(times, default=0.0)
    newer = [one.title for one in book.phrases if at and _saved(one.path) > at]
    settings = bool(at) and _saved(book.root / MANUSCRIPT_FILE) > at
    return {"built_at": at, "newer": newer, "settings_newer": settings}


def _saved(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def made_files(out: Path) -> list[Json]:
    """Return what lies in an output folder for the author, the newest first.

    The student's page is a folder; "opens" is the file that opens it.
    """
    found = [{**_listed(path, out), "bytes": path.stat().st_size} for path in _files(out)]
    for page in _pages(out):
        size = sum(one.stat().st_size for one in page.parent.rglob("*") if one.is_file())
        opens = page.relative_to(out).as_posix()
        found.append({**_listed(page.parent, out), "bytes": size, "opens": opens})
    return sorted(found, key=lambda one: -float(one["at"]))


def made_file(out: Path, name: str) -> Path | None:
    """Return a file that is listed, or that lies in one of the student's pages; None for any other."""
    path = (out / name).resolve()
    there = (page.parent.resolve() in path.parents for page in _pages(out))
    known = any(there) or name in {one.relative_to(out).as_posix() for one in _files(out)}
    return path if known and path.is_file() else None


def _listed(path: Path, out: Path) -> Json:
    return {"name": path.relative_to(out).as_posix(), "at": path.stat().st_mtime}


def _files(out: Path) -> list[Path]:
    found = (*out.glob("*.pdf"), *out.glob("tracks/*"), *out.glob("bundle/**/*"))
    return [path for path in found if path.is_file() and not path.name.startswith(".")]


def _pages(out: Path) -> list[Path]:
    """Return the file that opens each of the student's pages."""
    return list(out.glob("*-practice*/index.html"))
