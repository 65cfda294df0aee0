"""A plug-in of pytest by which the jobs of a build are done in the process of the test itself.

A fault that is exchanged in a process is not in the workers that are started from another one, and what they
run is not recorded; so where faults are planted a build has no workers. The tests of the workshop, which is
about workers, do have them.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable
from concurrent.futures import Executor, Future
from typing import Any

import pytest

_CREW = "shedbook.book.workshop.crew"
_OPENED_BY = ("open_processes", "_open_slim")
_WITH_WORKERS = "tests/book/workshop/"


class Here(Executor):
    """Does each call at once, in this process."""

    def submit(self, function: Callable[..., Any], /, *arguments: Any, **named: Any) -> Future[Any]:
        """Call the function and return what came of it."""
        future: Future[Any] = Future()
        try:
            future.set_result(function(*arguments, **named))
        except Exception as error:
            future.set_exception(error)
        return future


def _here(workers: int) -> Executor:
    return Here()


class OneProcess:
    """The plug-in; it reads the module concerned as late as a test does, for a fault may be planted in it."""

    def __init__(self) -> None:
        self.own: dict[str, Callable[[int], Executor]] = {}

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> None:
        """Give the test workers or none."""
        crew = importlib.import_module(_CREW)
        self.own = self.own or {name: getattr(crew, name) for name in _OPENED_BY}
        for name, own in self.own.items():
            setattr(crew, name, own if item.nodeid.startswith(_WITH_WORKERS) else _here)
