"""The handful of names for those who program: `import shedbook` gives them, and loads this on first use.

These names stay; everything else is private by its place. A phrase shows itself as a score in a notebook.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from shedbook.analysis.account import Account, account
from shedbook.analysis.telling import explain as told
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.whole_book import CONCERT, Settings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.manuscript.source import read_phrase as read_source
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import study
from shedbook.book.verbs.build import Built
from shedbook.book.verbs.build import build as build_request
from shedbook.book.verbs.show import drawing_of
from shedbook.engrave.drawing.picture import Drawing
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

__all__ = [
    "Account",
    "Built",
    "Drawing",
    "Manuscript",
    "Phrase",
    "account",
    "build",
    "draw",
    "explain",
    "open_manuscript",
    "read_phrase",
    "transpose",
]


def read_phrase(source: PhraseSource | None = None, /, **fields: object) -> Phrase:
    """Return a phrase with its notes read.

    Args:
        source: one of `Manuscript.phrases`; None for a phrase that is given by its keys.
        fields: the keys of a phrase as docs/manuscript.md lists them, such as `line` and `changes`.

    Raises:
        ReadError: if it cannot be read; the error says where and what to do.
    """
    return phrase_from_fields(fields) if source is None else read_source(source)


def explain(phrase: Phrase, *, edition: str = CONCERT) -> tuple[str, ...]:
    """Return the sentences that say why a phrase works, by the note names of an edition's reader.

    Raises:
        UnknownNameError: for an edition that is not there.
    """
    return told(account(transpose(phrase, edition=edition)))


def transpose(phrase: Phrase, key: str = "", *, edition: str = CONCERT) -> Phrase:
    """Return a phrase in another key, spelled and placed for the reader of an edition.

    Args:
        phrase: the phrase in concert pitch.
        key: the tonic of the concert key, such as "Eb"; "" for the phrase's own.
        edition: concert, bflat, eflat, bass, f, or an instrument. The notes are those that its reader sees.

    Raises:
        UnknownNameError: for a key or edition that is not there.
    """
    settings = Settings()
    (reader, *_) = chosen_editions((edition,), settings)
    placing = placing_of(study(phrase), key_order(settings, (key,) if key else ()), reader)
    return (placing.keys[0] if key else placing.home).phrase


def draw(phrase: Phrase, key: str = "", *, edition: str = CONCERT) -> Drawing:
    """Return a phrase as a score; its `svg` is a whole picture, its measures are in millimetres.

    Raises:
        UnknownNameError: for a key or edition that is not there.
    """
    return drawing_of(phrase, Settings(), key=key, edition=edition)


def build(manuscript: str | Path, out: str | Path | None = None, **asked: Any) -> Built:
    """Build the books of a manuscript's folder.

    Args:
        manuscript: the folder.
        out: where the books go; None for a folder beside the manuscript.
        asked: what `Request` in book/manuscript/request.py takes, such as `keys=("C", "F")` or `final=True`.

    Raises:
        ShedbookError: as the command `shedbook build`.
    """
    return build_request(Request(Path(manuscript), None if out is None else Path(out), **asked))


def show_in_notebooks(shell: Any) -> None:
    """Tell a notebook's shell how a phrase and a drawing are shown.

    Args:
        shell: what IPython's `get_ipython()` returns.
    """
    svg = shell.display_formatter.formatters["image/svg+xml"]
    svg.for_type(Phrase, lambda phrase: draw(phrase).svg)
    svg.for_type(Drawing, lambda drawing: drawing.svg)


def _look_for_a_notebook() -> None:
    """Teach the notebook in which this is loaded, if it is one, to show phrases."""
    notebook = sys.modules.get("IPython")
    shell = notebook.get_ipython() if notebook is not None else None
    if shell is not None:
        show_in_notebooks(shell)


_look_for_a_notebook()
