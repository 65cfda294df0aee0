"""Try the wheel as a stranger gets it: built once, installed alone into a new environment for each Python.

Usage: python tools/try_wheel.py PYTHON [PYTHON …]

In each environment a manuscript is begun, proof-read and built, and a phrase is played. Everything that the
wheel brought is listed with the licence that its own metadata names; a licence of the GPL family other than
the LGPL ends the trial with 1.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).parent.parent
MUST_TRAVEL = ("LICENSE", "THIRD-PARTY.md", "Leipzig-OFL-1.1.txt", "Source-Sans-and-Serif-OFL-1.1.txt")
LIST_LICENCES = """
import re
from importlib.metadata import distributions
for found in sorted(distributions(), key=lambda one: one.name.lower()):
    data = found.metadata
    rows = [text for text in data.get_all("Classifier") or () if text.startswith("License")]
    named = [text.rpartition(" :: ")[2] for text in rows]
    first = (data["License"] or "").strip().partition(chr(10))[0]
    licence = data["License-Expression"] or "; ".join(named) or first or "not named"
    gpl = re.search(r"(?<!L)(?<!Lesser )(GPL|General Public)", licence) and "Lesser" not in licence
    print("GPL" if gpl else "ok ", found.name, found.version, "|", licence)
"""


def said(*command: str | Path, cwd: Path | None = None) -> str:
    """Run a command and return what it printed; what goes wrong is shown and ends the trial."""
    done = subprocess.run(
        [str(word) for word in command], cwd=cwd, capture_output=True, text=True, check=False
    )
    if done.returncode:
        sys.exit(f"{' '.join(map(str, command))}\n{done.stdout}{done.stderr}")
    return done.stdout


def try_one(python: str, wheel: Path, work: Path) -> None:
    """Install the wheel alone and use it."""
    env = work / Path(python).parent.parent.name
    said(python, "-m", "venv", env)
    said(env / "bin/python", "-m", "pip", "install", "--quiet", wheel)
    command = env / "bin/shedbook"
    print(said(env / "bin/python", "-V").strip(), "|", said(command, "--version").strip())
    licences = said(env / "bin/python", "-c", LIST_LICENCES)
    print(licences)
    if any(line.startswith("GPL") for line in licences.splitlines()):
        sys.exit("A plain installation brings a part under the GPL.")
    said(command, "new", "book", cwd=env)
    said(command, "check", "book", cwd=env)
    said(command, "build", "book", "--out", "out", "--keys", "C Ab", "--phrases", "1", cwd=env)
    said(command, "play", "book/phrases/01-first-light.toml", "--out", "first.mid", cwd=env)
    made = sorted(path.name for path in (env / "out").rglob("*.pdf"))
    print(
        "new, check, build, play:", ", ".join(made), "first.mid", (env / "first.mid").stat().st_size, "bytes"
    )


def main(pythons: list[str]) -> None:
    """Build the wheel, look into it, and try it with each Python."""
    with tempfile.TemporaryDirectory(prefix="shedbook-wheel-") as text:
        work = Path(text)
        source = work / "source"  # a copy, because building leaves a folder where it is done
        shutil.copytree(ROOT, source, ignore=shutil.ignore_patterns(".*", "build", "tests", "docs/images"))
        said(pythons[0], "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", work, source)
        (wheel,) = work.glob("*.whl")
        inside = [name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/licenses/" in name]
        missing = [name for name in MUST_TRAVEL if not any(path.endswith(name) for path in inside)]
        if missing:
            sys.exit(f"The wheel lacks {', '.join(missing)}.")
        print(
            wheel.name,
            wheel.stat().st_size,
            "bytes, with",
            ", ".join(path.rpartition("/")[2] for path in inside),
        )
        for python in pythons:
            try_one(python, wheel, work)


if __name__ == "__main__":
    main(sys.argv[1:] or [sys.executable])
