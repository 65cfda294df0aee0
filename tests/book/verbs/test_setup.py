"""What is there and what is missing. Source of the checks: our own tables and what the tests hide."""

from __future__ import annotations

import re
import shutil
import sys
import tomllib
from importlib.metadata import PackageNotFoundError
from pathlib import Path

import pytest

from shedbook.book.verbs import setup as room
from shedbook.book.verbs.setup import setup, this_system
from shedbook.book.verbs.tables.installing import PARTS
from shedbook.cli.main import main
from shedbook.errors import SoundError


def test_every_part_of_a_plain_installation_is_listed() -> None:
    """Source: the dependencies in pyproject.toml."""
    project = tomllib.loads((Path(__file__).parents[3] / "pyproject.toml").read_text(encoding="utf-8"))
    named = {re.split(r"[<>=!~]", text)[0] for text in project["project"]["dependencies"]}
    assert {name for name, _, _ in PARTS} == named


def test_all_is_there_in_the_tests_environment() -> None:
    found = setup()
    assert found.whole
    assert {part.name: bool(part.found) for part in found.parts}["SoundFont"]


def test_what_is_missing_is_named_with_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def missing(*_: object) -> object:
        raise SoundError("No.")

    def no_version(name: str) -> str:
        if name == "verovio":
            raise PackageNotFoundError(name)
        return "1"

    monkeypatch.setattr(room, "find_font", missing)
    monkeypatch.setattr(room, "fluid_name", missing)
    monkeypatch.setattr(room, "listeners", missing)
    monkeypatch.setattr(room, "version", no_version)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(shutil, "which", lambda name: name == "apt-get" or None)
    found = setup()
    assert not found.whole
    assert [part.name for part in found.parts if not part.found] == [
        "verovio", "FluidSynth", "SoundFont", "espeak-ng", "a program that plays sound",
    ]  # fmt: skip
    assert main(["setup"]) == 1
    said = capsys.readouterr().out
    assert "sudo apt install fluid-soundfont-gm" in said
    assert "Something is missing" in said


@pytest.mark.parametrize(
    ("platform", "programs", "name"),
    [
        ("linux", {"apt-get"}, "Debian or Ubuntu"), ("linux", {"dnf"}, "Fedora"), ("linux", set(), "Linux"),
        ("darwin", {"brew"}, "macOS"), ("win32", set(), "Windows"), ("freebsd14", set(), "Linux"),
    ],
)  # fmt: skip
def test_the_system_is_known(
    platform: str, programs: set[str], name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(shutil, "which", lambda program: program if program in programs else None)
    assert this_system().name == name


def test_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["setup", "--json"]) == 0
    assert '"name": "SoundFont"' in capsys.readouterr().out
