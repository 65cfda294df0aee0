"""Items one after another: from arguments, from standard input, and those that cannot be read."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest

from shedbook.cli.batch import read_items, run_items
from shedbook.errors import ShedbookError


def as_json(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, list)
    return found


def test_items_go_on_after_one_that_cannot_be_read(capsys: pytest.CaptureFixture[str]) -> None:
    def describe(item: str) -> dict[str, object]:
        if item == "bad":
            raise ShedbookError("It is bad.", hint="Make it good.")
        return {"item": item}

    assert run_items(["a", "bad", "b"], describe, lambda found: str(found["item"]), True) == 1
    assert as_json(capsys) == [
        {"item": "a"},
        {"input": "bad", "error": "It is bad. Make it good."},
        {"item": "b"},
    ]
    assert run_items(["a", "bad", "b"], describe, lambda found: str(found["item"]), False) == 1
    out, err = capsys.readouterr()
    assert out == "a\n\nb\n\n"
    assert err == "shedbook: It is bad.\n  Make it good.\n"
    assert run_items([], describe, lambda found: "", True) == 0


def test_standard_input_may_be_text_already(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("a\n\n b \n"))

    assert list(read_items(["x", "-", "y"])) == ["x", "a", "b", "y"]
