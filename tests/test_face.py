"""The programmer's face: its page runs, it loads lazily, a phrase shows itself. Source: docs/python.md."""

from __future__ import annotations

import contextlib
import io
import re
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

import shedbook
from shedbook import face
from shedbook.phrase.model import Phrase

PAGE = Path(__file__).parents[1] / "docs" / "python.md"
_BLOCK = re.compile(r"```(python|text)\n(.*?)```", re.DOTALL)


def test_the_examples_of_the_page_print_what_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    printed, compared = "", 0
    for kind, text in _BLOCK.findall(PAGE.read_text(encoding="utf-8")):
        if kind == "text":
            assert printed == text
            compared += 1
            continue
        out = io.StringIO()
        with contextlib.redirect_stdout(out):
            exec(compile(text, str(PAGE), "exec"), names)
        printed = out.getvalue()
    assert compared == 5


def test_importing_loads_nothing() -> None:
    code = "import shedbook, sys; print([name for name in sys.modules if name.startswith('shedbook.')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_names_are_those_of_the_face() -> None:
    assert shedbook.__all__ == [name for name in face.__all__ if name.islower()]
    assert all(f"`{name}(" in PAGE.read_text(encoding="utf-8") for name in shedbook.__all__)
    assert all(getattr(shedbook, name) is getattr(face, name) for name in shedbook.__all__)
    assert [name for name in dir(shedbook) if not name.startswith("_")] == shedbook.__all__
    with pytest.raises(AttributeError, match="tune"):
        shedbook.__getattr__("tune")


def test_a_notebook_shows_a_phrase_as_a_score() -> None:
    """IPython's own formatter asks `for_type` what shows a value; no more of it is used."""
    formatters = pytest.importorskip("IPython.core.formatters")
    shell = SimpleNamespace(display_formatter=formatters.DisplayFormatter())
    face.show_in_notebooks(shell)
    phrase: Phrase = shedbook.read_phrase(changes="C | F", line="1/4 c4 e g c5 | f4 a c5 f")
    for value in (phrase, shedbook.draw(phrase)):
        shown, _ = shell.display_formatter.format(value)
        assert shown["image/svg+xml"].startswith("<svg")


def test_a_notebook_that_is_there_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    taught: list[type] = []
    svg = SimpleNamespace(for_type=lambda kind, show: taught.append(kind))
    shell = SimpleNamespace(display_formatter=SimpleNamespace(formatters={"image/svg+xml": svg}))
    monkeypatch.setitem(sys.modules, "IPython", SimpleNamespace(get_ipython=lambda: shell))
    face._look_for_a_notebook()
    assert Phrase in taught
