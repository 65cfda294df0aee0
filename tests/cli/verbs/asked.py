"""How the tests of verbs ask one, read its JSON and type into it; and two phrases to ask about."""

from __future__ import annotations

import argparse
import io
import json
from typing import Any

import pytest

GOOD = 'changes = "Dm7 | G7"\nline = "1/4 d5 e f a | 1/1 b4"\n'
SHORT = 'changes = "Dm7 | G7"\nline = "1/4 d5 e f a | 1/8 g f e d c d e"\n'
"""The second bar does not add up."""


def run(module: Any, *arguments: str) -> int:
    parser = argparse.ArgumentParser()
    module.add_arguments(parser)
    status: int = module.run(parser.parse_args(arguments))
    return status


def as_json(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    """Return the one JSON document that standard output must hold."""
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, list)
    return found


def type_in(monkeypatch: pytest.MonkeyPatch, text: str | bytes) -> None:
    raw = text if isinstance(text, bytes) else text.encode()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(raw), encoding="utf-8"))
