"""Worker processes of the workbench: one draws what is being typed, one does what takes longer.

Verovio holds Python's lock while it draws, so it works in a process of its own, one job at a time; of jobs of
one kind for one window that wait, only the newest is done. A worker that ends without a word is replaced. It
ends by itself when its parent is gone: its pipe closes, and a thread looks whose child it is.
"""

from __future__ import annotations

import asyncio
import contextlib
import multiprocessing
import os
import signal
import threading
import time
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from shedbook.errors import ShedbookError

_LOOK_FOR_PARENT_S = 0.5


class StaleError(Exception):
    """A newer job of the same window took the place of this one."""


class Helper:
    """One worker process and the jobs that wait for it."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._process: BaseProcess | None = None
        self._pipe: Connection | None = None
        self._turn = asyncio.Lock()
        self._newest: dict[str, int] = {}
        self._closed = False
        self._thread = ThreadPoolExecutor(1, thread_name_prefix=f"helper-{name}")

    def start(self) -> None:
        """Open the process, which begins to load what it will need."""
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        process = context.Process(target=work, args=(theirs, os.getpid()), name=self.name, daemon=True)
        process.start()
        theirs.close()
        self._process, self._pipe = process, ours

    @property
    def pid(self) -> int:
        """The number of the process, 0 where there is none."""
        return (self._process.pid or 0) if self._process is not None else 0

    async def ask(self, chore: str, given: Mapping[str, Any], newest_for: str = "") -> Any:
        """Return what a chore gives.

        Args:
            chore: the name of a function of `chores`.
            given: its arguments.
            newest_for: where given, an older job with the same text that still waits is not done.

        Raises:
            StaleError: in place of an answer to such a job.
            ShedbookError: as the chore; or if the worker was lost twice over it.
        """
        number = self._newest[newest_for] = self._newest.get(newest_for, 0) + 1
        async with self._turn:
            if newest_for and self._newest[newest_for] != number:
                raise StaleError
            if self._closed:
                raise ShedbookError("The worker that should do this was ended.", hint="Try it again.")
            loop = asyncio.get_running_loop()
            return await loop.run_in_executor(self._thread, self._done, chore, given)

    def _done(self, chore: str, given: Mapping[str, Any]) -> Any:
        for _ in range(2):
            if self._closed:
                break
            if self._process is None or not self._process.is_alive() or self._pipe is None:
                self.start()
            assert self._pipe is not None
            try:
                self._pipe.send((chore, given))
                good, answer = self._pipe.recv()
            except (EOFError, OSError):
                self.stop()
                continue
            if good:
                return answer
            raise answer
        raise ShedbookError(
            "The worker that should do this ended without a word, twice.", hint="Try it again."
        )

    def stop(self) -> None:
        """End the process at once."""
        if self._pipe is not None:
            self._pipe.close()
        if self._process is not None:
            self._process.terminate()
            self._process.join(1)
            if self._process.is_alive():
                self._process.kill()
                self._process.join(1)
        self._process = self._pipe = None

    def abandon(self) -> None:
        """End the process with the job that it does, for which there is no answer then."""
        self._closed = True
        if self._process is not None:  # the thread that waits sees its pipe close, and clears up
            self._process.terminate()
        self._thread.shutdown(wait=False)

    def close(self) -> None:
        """End the process, and the thread that talks to it; no other takes its place."""
        self._closed = True
        self.stop()
        self._thread.shutdown(wait=False, cancel_futures=True)


def work(pipe: Connection, parent: int) -> None:
    """Do chores until the parent is gone. This is what a worker process runs."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the keyboard tells the parent, who tells us
    threading.Thread(target=_end_without, args=(parent,), daemon=True).start()
    from shedbook.workbench import chores  # noqa: PLC0415 - the thread above watches while this loads

    with contextlib.suppress(EOFError, OSError):
        while True:
            chore, given = pipe.recv()
            try:
                answer = (True, chores.CHORES[chore](**given))
            except ShedbookError as error:
                answer = (False, error)
            except Exception as error:  # a fault of ours must not end the worker; it is told as what it is
                answer = (
                    False,
                    ShedbookError(f"This is a fault of shedbook: {type(error).__name__}: {error}"),
                )
            pipe.send(answer)


def _end_without(parent: int) -> None:
    """End this process when it has another parent than at first."""
    while os.getppid() == parent:
        time.sleep(_LOOK_FOR_PARENT_S)
    os._exit(0)
