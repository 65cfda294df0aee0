"""docs/extending.md is walked, part by part, in a copy of the program.

A block of the page is a step: `diff` changes a file, `python` and `toml` with a path write one, `console`
runs what stands behind a `$`, and what stands under it must be said. "console fails" must end with an error.
Source of every check: the page itself.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "docs" / "extending.md").read_text(encoding="utf-8")
COPIED = ("src", "tests", "docs", "examples", "pyproject.toml", "README.md", "ARCHITECTURE.md")
_BLOCK = re.compile(r"^```(\w+)([^\n]*)\n(.*?)^```$", re.DOTALL | re.MULTILINE)


class Step(NamedTuple):
    kind: str
    about: str
    text: str


def parts() -> dict[str, list[Step]]:
    """Return the steps of each part of the page."""
    _, *sections = re.split(r"^## ", PAGE, flags=re.MULTILINE)
    return {
        section.partition("\n")[0]: [
            Step(kind, about.strip(), text) for kind, about, text in _BLOCK.findall(section)
        ]
        for section in sections
    }


PARTS = parts()


def changed(folder: Path, text: str) -> None:
    """Make the changes of a diff; the lines before and after must stand in the file once."""
    head, _, body = text.partition("\n")
    assert head.startswith("--- ")
    file = folder / head.removeprefix("--- ")
    whole = file.read_text(encoding="utf-8")
    for hunk in re.split(r"^@@\n", body, flags=re.MULTILINE):
        lines = hunk.splitlines()
        old = "".join(f"{line[1:]}\n" for line in lines if line[:1] != "+")
        new = "".join(f"{line[1:]}\n" for line in lines if line[:1] != "-")
        assert old != new
        assert whole.count(old) == 1, f"these lines stand {whole.count(old)} times in {file}:\n{old}"
        whole = whole.replace(old, new)
    file.write_text(whole, encoding="utf-8")


def calls(text: str) -> Iterator[tuple[str, list[str]]]:
    """Yield each command of a console block with the lines that it must say."""
    command, said = "", list[str]()
    for line in text.splitlines():
        if line.startswith("$ "):
            if command:
                yield command, said
            command, said = line[2:], []
        elif line.strip():
            said.append(line.strip())
    yield command, said


def run(folder: Path, command: str) -> tuple[int, str]:
    """Run a command of the page on the copy; return its exit status and all that it said.

    What Python compiles lies beside the copy and stays for the next part: a copy has the dates of its files.
    """
    call, _, target = command.partition(" > ")
    words = shlex.split(call)
    program = [sys.executable, "-m", "shedbook"] if words[0] == "shedbook" else [sys.executable]
    paths = os.pathsep.join((str(folder / "src"), str(folder / "tests")))
    done = subprocess.run(
        [*program, *words[1:]],
        cwd=folder,
        env={
            **os.environ,
            "PYTHONPATH": paths,
            "PYTHONDONTWRITEBYTECODE": "",
            "PYTHONPYCACHEPREFIX": str(folder.parent / "compiled"),
            "COLUMNS": "200",
        },
        capture_output=True,
        text=True,
        check=False,
    )
    if target:
        (folder / target).write_text(done.stdout, encoding="utf-8")
    return done.returncode, done.stdout + done.stderr


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The place of the copy, the same for each part."""
    return tmp_path_factory.mktemp("walk") / "copy"


@pytest.mark.parametrize("part", PARTS)
def test_the_walk(part: str, copy: Path) -> None:
    steps = PARTS[part]
    shutil.rmtree(copy, ignore_errors=True)
    copy.mkdir()
    for name in COPIED:
        source, target = ROOT / name, copy / name
        if source.is_dir():
            shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, target)
    for step in steps:
        if step.kind == "diff":
            changed(copy, step.text)
        elif step.kind in ("python", "toml"):
            assert not (copy / step.about).exists()
            (copy / step.about).write_text(step.text, encoding="utf-8")
        else:
            for command, said in calls(step.text):
                status, output = run(copy, command)
                assert bool(status) == (step.about == "fails"), f"{command}\n{output}"
                for line in said:
                    assert plain(line) in plain(output), f"{command}\n{output}"


def test_every_part_fails_before_it_succeeds() -> None:
    """A walk that never fails would lead nobody; one that ends with a failure would lead nowhere."""
    for part, steps in PARTS.items():
        kinds = [step.about for step in steps if step.kind == "console"]
        assert "fails" in kinds, part
        assert kinds[-1] != "fails", part


def test_the_page_says_what_can_be_added() -> None:
    assert list(PARTS) == [
        "A scale", "A way to write a chord", "A rule", "An instrument", "A feel", "An edition", "A verb",
    ]  # fmt: skip
    assert {step.kind for steps in PARTS.values() for step in steps} == {"diff", "python", "toml", "console"}
