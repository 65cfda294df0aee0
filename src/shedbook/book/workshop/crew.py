"""Running jobs on any executor, and surviving a worker that ends without a word.

Engraving happens in C++: a score that it cannot bear ends the whole process. So jobs run in worker
processes, and when one is lost, what was not finished is run again one by one, until the guilty call is
alone; it is given back as lost, and the others go on.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from multiprocessing.connection import wait
from pathlib import Path
from typing import Generic, TypeVar

from shedbook.book.workshop.memory import PhaseMemory, begin_peak, peak_mb

Order = TypeVar("Order")
Result = TypeVar("Result")

OpenExecutor = Callable[[int], Executor]
"""Gives an executor with so many workers."""


@dataclass(frozen=True, slots=True)
class _Measured(Generic[Result]):
    """The result of a call with the number of the process that made it and the megabytes it held at most."""

    result: Result
    process: int
    peak: float


def _measured(function: Callable[[Order], Result], order: Order) -> _Measured[Result]:
    process = os.getpid()
    worker = multiprocessing.parent_process() is not None
    if worker:
        begin_peak()
    result = function(order)
    return _Measured(result, process, peak_mb() if worker else 0.0)


class Lost:
    """Stands in the place of a result: the worker ended while it was at this call alone."""


class Crew:
    """Workers that are opened when the first call comes, and stopped at once when asked to."""

    def __init__(self, workers: int, open_executor: OpenExecutor | None = None) -> None:
        self.workers = max(1, workers)
        self._open: OpenExecutor = open_executor or open_processes
        self._executor: Executor | None = None
        self._size = 0
        self._slim = False
        self._peaks: dict[int, float] = {}

    def prepare(self, function: Callable[[], object]) -> None:
        """Open one worker and let it load what it will need, while the caller finds out what to do."""
        if self._open is open_processes:
            with _signals_held():
                self._ready(1).submit(function)

    def phase_memory(self, phase: str) -> PhaseMemory:
        """Return what the processes of a phase held at most, this one too, and begin a new phase."""
        peaks = [peak_mb(), *self._peaks.values()]
        self._peaks.clear()
        begin_peak()
        return PhaseMemory(phase, round(max(peaks)), round(sum(peaks)))

    def _noted(self, measured: _Measured[Result]) -> Result:
        self._peaks[measured.process] = max(self._peaks.get(measured.process, 0.0), measured.peak)
        return measured.result

    def run(
        self, function: Callable[[Order], Result], orders: Sequence[Order]
    ) -> Iterator[tuple[Order, Result | Lost]]:
        """Call the function for each order and give the results as they come, in no certain order."""
        left = dict(enumerate(orders))
        for place, result in self._together(function, orders):
            yield left.pop(place), result
        for order in left.values():  # only after a worker was lost
            yield order, self._alone(function, order)

    def run_fresh(
        self, function: Callable[[Order], Result], orders: Sequence[Order]
    ) -> Iterator[tuple[Order, Result | Lost]]:
        """Run calls of which no worker takes two: what a library keeps of one goes with its worker.

        Workers that are opened for them hold nothing of what this process holds.
        """
        self._slim = True
        try:
            for start in range(0, len(orders), self.workers):
                if start:
                    self.close()
                yield from self.run(function, orders[start : start + self.workers])
        finally:
            self._slim = False

    def _together(
        self, function: Callable[[Order], Result], orders: Sequence[Order]
    ) -> Iterator[tuple[int, Result]]:
        waiting: dict[Future[_Measured[Result]], int] = {}
        try:
            with _signals_held():
                for place, order in enumerate(orders):
                    waiting[self._ready(len(orders)).submit(_measured, function, order)] = place
            for future in as_completed(waiting):
                yield waiting[future], self._noted(future.result())
        except BrokenExecutor:
            self.stop()
        except BaseException:
            # Broken off by the caller, a signal or a fault. The calls that wait are not cancelled one by one:
            # a pool that loses a worker afterwards would fail on them.
            self.stop()
            raise

    def _alone(self, function: Callable[[Order], Result], order: Order) -> Result | Lost:
        try:
            with _signals_held():
                future = self._ready(1).submit(_measured, function, order)
            return self._noted(future.result())
        except BrokenExecutor:
            self.stop()
            return Lost()

    def _ready(self, calls: int) -> Executor:
        size = min(self.workers, calls)
        if self._executor is not None and self._size < size:
            self.stop()
        if self._executor is None:
            slim = self._slim and self._open is open_processes
            self._executor, self._size = (_open_slim if slim else self._open)(size), size
        return self._executor

    def close(self) -> None:
        """Let the workers go; every call has been answered."""
        executor, self._executor = self._executor, None
        if executor is not None:
            executor.shutdown()

    def stop(self) -> None:
        """End the workers now, whatever they are at."""
        executor, self._executor = self._executor, None
        if executor is None:
            return
        processes = getattr(executor, "_processes", None) or {}
        for process in list(processes.values()):
            process.kill()
        executor.shutdown(wait=bool(processes), cancel_futures=not processes)


def open_processes(workers: int) -> Executor:
    """Return a pool of processes on this machine.

    Forked where that is safe: a worker then starts in a few milliseconds. Else forked from a process that
    does nothing else and has loaded once what every worker needs; on other systems than Linux started anew.
    """
    return ProcessPoolExecutor(workers, mp_context=_context(), initializer=_begin_worker)


def _open_slim(workers: int) -> Executor:
    return ProcessPoolExecutor(workers, mp_context=_slim_context(), initializer=_begin_worker)


def _context() -> multiprocessing.context.BaseContext:
    return multiprocessing.get_context("fork") if _single_threaded() else _slim_context()


def _slim_context() -> multiprocessing.context.BaseContext:
    """Return how to start a process that holds nothing of this one."""
    if sys.platform != "linux":
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(list(LOADED_ONCE))
    return context


LOADED_ONCE: tuple[str, ...] = ("shedbook.book.scores.engraving", "shedbook.book.building.make")
"""What workers that are forked from a process of their own find loaded: by name, for it lies above."""


def _single_threaded() -> bool:
    """Say whether this process has one thread, a library's own included: a fork would lose the others.

    The page layout keeps a pool of threads once it has been used; a forked worker would wait for it for ever.
    """
    threads = Path("/proc/self/task")
    return sys.platform == "linux" and threads.is_dir() and len(list(threads.iterdir())) == 1


@contextlib.contextmanager
def _signals_held() -> Iterator[None]:
    """Keep SIGINT and SIGTERM waiting, so that a worker cannot be struck before it has begun."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin_worker() -> None:
    """A worker leaves the keyboard to its parent, and ends with it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT, signal.SIGTERM})
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
