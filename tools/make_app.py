"""Make a folder that runs shedbook on a machine of this kind without Python, and try it.

Usage: PYTHON tools/make_app.py FOLDER, with a Python in whose environment shedbook and PyInstaller are
installed (`make app` makes one). The folder FOLDER/shedbook is made; the program in it is called shedbook,
on Windows shedbook.exe. Made and tried on Linux; the same script is written for macOS and Windows and
untried there.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from importlib.util import find_spec
from pathlib import Path

ROOT = Path(__file__).parent.parent
ENTRY = """\
import multiprocessing
import sys

if __name__ == "__main__":
    multiprocessing.freeze_support()
    if sys.argv[1:2] == ["-c"]:  # how multiprocessing starts its own helpers
        exec(sys.argv[2])
        sys.exit()
    from shedbook.cli.main import main

    sys.exit(main())
"""
WHOLE = (
    "shedbook",
    "verovio",
    "typst",
    "font_source_sans_pro",
    "font_source_serif_pro",
    "midirenderer",
    "soundfile",
    "uvicorn",
    "watchfiles",
)
"""Packages that are taken with their data; ours with its sources, whose hash names the finished parts."""
NAMED = (
    "shedbook", "verovio", "typst", "font-source-serif-pro", "font-source-sans-pro", "segno", "msgspec",
    "numpy", "scipy", "soundfile", "mido", "midirenderer", "pyfluidsynth",
)  # fmt: skip
"""Distributions whose version is asked for while the program runs."""
UNUSED = ("tkinter", "IPython", "pytest", "matplotlib", "setuptools", "pip")


def make(folder: Path) -> Path:
    """Make the folder and return the program in it."""
    with tempfile.TemporaryDirectory(prefix="shedbook-app-") as text:
        work = Path(text)
        entry = work / "shedbook_entry.py"
        entry.write_text(ENTRY, encoding="utf-8")
        command = [
            sys.executable,
            "-m",
            "PyInstaller",
            "--noconfirm",
            "--onedir",
            "--console",
            "--log-level",
            "WARN",
        ]
        command += [
            "--name",
            "shedbook",
            "--distpath",
            str(folder),
            "--workpath",
            str(work),
            "--specpath",
            str(work),
        ]
        for name in WHOLE:
            if find_spec(name) is not None:
                command += ["--collect-all", name]
        for name in NAMED:
            command += ["--copy-metadata", name]
        for name in UNUSED:
            command += ["--exclude-module", name]
        subprocess.run([*command, str(entry)], check=True)
    return folder / "shedbook" / ("shedbook.exe" if sys.platform == "win32" else "shedbook")


def try_it(program: Path) -> None:
    """Use the program as a musician would, without any Python on the path, and print what it takes."""
    bare = {"PATH": "" if sys.platform != "win32" else os.environ["PATH"], "HOME": str(program.parent)}
    size = sum(path.lstat().st_size for path in program.parent.rglob("*") if path.is_file())
    times = []
    for _ in range(5):
        begun = time.perf_counter()
        subprocess.run([program, "--version"], check=True, env=bare, capture_output=True)
        times.append(time.perf_counter() - begun)
    with tempfile.TemporaryDirectory(prefix="shedbook-try-") as text:
        for words in (
            ("new", "book"), ("check", "book"), ("build", "book", "--out", "out", "--keys", "C Ab"),
            ("play", "book", "--out", "first.mid"),
        ):  # fmt: skip
            begun = time.perf_counter()
            done = subprocess.run(
                [program, *words], cwd=text, env=bare, capture_output=True, text=True, check=False
            )
            print(f"shedbook {' '.join(words)}: {done.returncode}, {time.perf_counter() - begun:.1f} s")
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
    print(
        f"{program.parent}: {size / 1e6:.0f} MB; starts in {sorted(times)[2]:.2f} s (median of 5 --version)"
    )


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    try_it(make(Path(sys.argv[1]).resolve()))
