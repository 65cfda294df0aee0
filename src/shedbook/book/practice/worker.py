"""What workers run for the page: a phrase as it is played, and as each edition reads it, into the store."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shedbook.book.manuscript.source import locate
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.workshop.store import Store
from shedbook.errors import ReadError, ShedbookError

KIND = "card"
"""How the store calls what the page must know of a phrase."""


@dataclass(frozen=True, slots=True)
class PracticeDone:
    """What became of an order: how many jobs were run, and what went wrong."""

    jobs_run: int
    errors: tuple[ShedbookError, ...] = ()


def make_phrase_data(order: PracticeOrder) -> PracticeDone:
    """Make what is missing of a phrase."""
    # Loaded here: the parent of the workers needs neither the players nor the engraver.
    from shedbook.book.practice.part import read_part  # noqa: PLC0415
    from shedbook.book.practice.played import play_phrase  # noqa: PLC0415
    from shedbook.book.practice.timed import time_tracks  # noqa: PLC0415

    store, made = Store(Path(order.store)), 0
    played, *parts = order.names()
    jobs: list[tuple[str, Callable[[], object]]] = [(played, lambda: play_phrase(order.played()))]
    for name, edition in zip(parts, order.editions, strict=True):
        jobs.append((name, lambda edition=edition: read_part(order.part(edition))))  # type: ignore[misc]
    if order.tracks:
        jobs.append((order.timed_name(), lambda: time_tracks(order.timed())))
    try:
        for name, job in jobs:
            if not store.has(KIND, name):
                content = json.dumps(job(), ensure_ascii=False, separators=(",", ":"))
                store.write(KIND, name, content.encode())
                made += 1
    except ReadError as error:
        return PracticeDone(made, (locate(error, order.source),))
    except ShedbookError as error:
        return PracticeDone(made, (error,))
    return PracticeDone(made)


def data_in(store: Store, name: str) -> Any:
    """Return what the store holds under a name, or None where it is missing."""
    content = store.read(KIND, name)
    return None if content is None else json.loads(content)
