"""The store of a book's output: how much it holds, how old it is, and what can go."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.workshop.output_folder import STORE, examine
from shedbook.book.workshop.store import Holding, Store
from shedbook.errors import OutputError


@dataclass(frozen=True, slots=True)
class Tidied:
    """What the store held before and holds after."""

    before: tuple[Holding, ...]
    after: tuple[Holding, ...]


def holdings(out: Path) -> tuple[Holding, ...]:
    """Return how much of each kind the store of an output folder holds.

    Raises:
        OutputError: if the folder is not an output folder of ours.
    """
    return _store(out).holdings()


def tidy(out: Path, kept_builds: int) -> Tidied:
    """Throw away what none of the latest builds used; books and tracks stay where they are.

    Args:
        out: the output folder.
        kept_builds: how many of the latest builds count; 0 for none: the next build makes all anew.

    Raises:
        OutputError: if the folder is not ours, or a build is running in it.
    """
    store = _store(out)
    before = store.holdings()
    if not store.tidy(kept_builds):
        raise OutputError(f"A build is running in {out}.", hint="Wait until it has ended, and tidy then.")
    return Tidied(before, store.holdings())


def _store(out: Path) -> Store:
    if not examine(out):
        raise OutputError(
            f"{out} is no folder that a build has made.", hint="Name the folder where the books are."
        )
    return Store(out / STORE)
