"""Small manuscripts to build, and the command to build them with."""

import contextlib
import io
import subprocess
import sys
from pathlib import Path

from shedbook.cli.main import main

TITLES = ("Low tide", "Half past the pier", "Salt and rope")

_PHRASES = (
    ("Dm7b5 | G7b9 | Cm6 | %", "1/8 f4 ab c5 eb d f ab g | ab f d b4 ab g f d | 1/2 eb4 g | 1/1 c5", 132),
    ("Dm7 | G7 | Cmaj7 | %", "1/8 d4 f a c5 e d c a4 | b4 d5 f ab g f d b4 | 1/4 c5 b4 g e | 1/1 c4", 120),
    ("G7 | %", "1/8 g4 b d5 f e d b4 g | 1/1 g4", 96),
)
"""Invented lines, made to be built."""


def write_manuscript(folder: Path, phrases: int = 3, settings: str = "") -> Path:
    """Write a manuscript with so many phrases and return its folder."""
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text(
        f'title = "Tidal studies"\nauthor = "A. Writer"\n{settings}', encoding="utf-8"
    )
    for number in range(phrases):
        write_phrase(folder, number)
    return folder


def write_phrase(folder: Path, number: int, *, line: str = "", tempo: int = 0, extra: str = "") -> Path:
    """Write one phrase file, with another line or tempo when asked."""
    changes, plain_line, plain_tempo = _PHRASES[number % len(_PHRASES)]
    title = TITLES[number % len(TITLES)] + ("" if number < len(TITLES) else f" {number}")
    path = folder / "phrases" / f"{number + 1:02}.toml"
    path.write_text(
        f'title = "{title}"\nchanges = "{changes}"\nline = "{line or plain_line}"\n'
        f'tempo = {tempo or plain_tempo}\ncommentary = "Listen to bar two."\n{extra}',
        encoding="utf-8",
    )
    return path


def command(*arguments: object) -> list[str]:
    """Return the command line of shedbook."""
    return [sys.executable, "-m", "shedbook", *map(str, arguments)]


def run(*arguments: object) -> subprocess.CompletedProcess[str]:
    """Run the command to its end in this process; what it starts by itself are processes of their own."""
    out, err, words = io.StringIO(), io.StringIO(), [str(one) for one in arguments]
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = main(words)
        except SystemExit as stop:
            status = int(stop.code or 0)
    return subprocess.CompletedProcess(words, status, out.getvalue(), err.getvalue())


def run_apart(*arguments: object) -> subprocess.CompletedProcess[str]:
    """Run the command to its end in a process of its own."""
    return subprocess.run(command(*arguments), capture_output=True, text=True, timeout=120, check=False)
