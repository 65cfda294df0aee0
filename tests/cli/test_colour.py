"""Colour only where a terminal shows it. Source: the convention of NO_COLOR."""

import io

import pytest

from shedbook.cli.colour import coloured


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")


@pytest.mark.parametrize(("kind", "code"), [("error", 31), ("warning", 33), ("advice", 36), ("ok", 32)])
def test_a_terminal_shows_colour(kind: str, code: int) -> None:
    """ECMA-48: 31 red, 32 green, 33 yellow, 36 cyan; 0 ends it."""
    assert coloured("x", kind, Terminal()) == f"\x1b[{code}m" + "x\x1b[0m"
    assert coloured("x", "nothing", Terminal()) == "x"


def test_a_file_shows_none() -> None:
    assert coloured("x", "error", io.StringIO()) == "x"


@pytest.mark.parametrize(
    ("name", "text", "shown"),
    [("NO_COLOR", "1", False), ("NO_COLOR", "", True), ("TERM", "dumb", False)],
)
def test_the_reader_can_refuse_it(name: str, text: str, shown: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(name, text)
    assert (coloured("x", "error", Terminal()) != "x") is shown
