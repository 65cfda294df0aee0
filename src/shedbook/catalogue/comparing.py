"""What is named on the command line, compared: manuscripts, versions in git, bundles, in any pair."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from shedbook.book.bundle.manifest import Changes
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.catalogue.book_state import BookState, is_bundle, state_of_bundle, state_of_manuscript
from shedbook.catalogue.errata import Errata, compared, folder_at
from shedbook.catalogue.errata_words import changes_text


def compared_states(old: str, new: str) -> Errata:
    """Return what changed between two books: each a manuscript, FOLDER@VERSION, or a bundle.

    Raises:
        ManuscriptError: if one cannot be read.
    """
    return compared(state_at(old, keys=False), state_at(new))


def state_at(text: str, *, keys: bool = True) -> BookState:
    """Return what a book holds that is named by a path, or by FOLDER@VERSION of git.

    Raises:
        ManuscriptError: if it cannot be read.
    """
    folder, at, version = text.rpartition("@")
    path = Path(text)
    if at and not path.exists():
        with ExitStack() as stack:
            return state_of_manuscript(
                open_manuscript(stack.enter_context(folder_at(Path(folder), version))), keys=keys
            )
    if path.exists() and is_bundle(path):
        return state_of_bundle(path)
    return state_of_manuscript(open_manuscript(text), keys=keys)


def changes_since(
    old: str, manuscript: Path, as_rows: Callable[[Errata], tuple[dict[str, Any], ...]]
) -> Changes:
    """Return the change list that a bundle carries: what changed from a book before to a manuscript.

    Args:
        old: the book before, as `state_at` takes it.
        manuscript: the folder of the manuscript.
        as_rows: what makes of it the rows of its JSON.

    Raises:
        ManuscriptError: if one cannot be read.
    """
    found = compared(state_at(old, keys=False), state_of_manuscript(open_manuscript(manuscript)))
    since = "" if found.old is None else found.old.version
    return Changes(since, changes_text(found), as_rows(found))
