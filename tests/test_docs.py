"""The documents are true: their commands run, their links lead somewhere, the command page is complete."""

import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shedbook.cli.command_reference import command_page
from shedbook.cli.known_verbs import VERBS
from shedbook.cli.main import main

ROOT = Path(__file__).parents[1]
PAGES = [ROOT / "README.md", ROOT / "ARCHITECTURE.md", *sorted((ROOT / "docs").glob("*.md"))]
_SHELL = re.compile(r"```sh\n(.*?)```", re.DOTALL)
_LINK = re.compile(r"\]\(([^)#:]+)\)")


def commands(page: Path) -> Iterator[str]:
    """Yield every `shedbook` command of a page's shell blocks, in order."""
    for block in _SHELL.findall(page.read_text(encoding="utf-8")):
        for line in block.splitlines():
            if line.startswith("shedbook "):
                yield line


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_command_of_a_page_runs(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    for command in commands(page):
        if command.startswith("shedbook workbench "):
            assert opens(command), command
            continue
        assert main(shlex.split(command)[1:]) == 0, f"{command}\n{capsys.readouterr().err}"


def opens(command: str) -> bool:
    """Say whether the command opens the workbench, which is ended at once."""
    words = [*shlex.split(command)[1:], "--no-browser"]
    process = subprocess.Popen([sys.executable, "-m", "shedbook", *words], stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    address = process.stdout.readline()
    process.terminate()
    process.wait(20)
    process.stdout.close()
    return address.startswith("http://127.0.0.1:")


def test_the_readme_shows_every_verb() -> None:
    shown = {shlex.split(command)[1] for command in commands(ROOT / "README.md")}
    assert {row.name for row in VERBS} - shown == set()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_lead_somewhere(page: Path) -> None:
    links = _LINK.findall(page.read_text(encoding="utf-8"))
    assert [link for link in links if not (page.parent / link).exists()] == []


@pytest.mark.parametrize("page", sorted((ROOT / "docs").glob("*.md")), ids=lambda page: page.name)
def test_modules_that_a_page_names_are_there(page: Path) -> None:
    """A path such as `theory/tables/scales.py`, from the package or from the root, or made on the page."""
    text = page.read_text(encoding="utf-8")
    made = set(re.findall(r"^```python (src/\S+)$", text, re.MULTILINE))
    named = set(re.findall(r"`((?:\w+/)+\w+\.py)`", text)) - made
    places = (ROOT, ROOT / "src" / "shedbook", ROOT / "src" / "shedbook" / "sound")
    assert [name for name in sorted(named) if not any((place / name).is_file() for place in places)] == []


def test_the_command_page_is_the_help_text() -> None:
    """Made anew with `python -m shedbook.cli.command_reference > docs/commands.md`."""
    assert (ROOT / "docs" / "commands.md").read_text(encoding="utf-8") == command_page()
