"""Record the SHA-256 of everything that the program makes, so that a rebuilding can be held against it.

    python tools/artefacts.py record before.json     # with the version before
    python tools/artefacts.py record after.json      # with the version after
    python tools/artefacts.py compare before.json after.json

The demo book and the starter book are built in all editions, papers and ways to print, with their tracks;
phrases are exported in every format, shown, played, checked and explained. Only the command line is used, so
the same script serves two versions whose modules have other names.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

HERE = Path(__file__).parents[1]
DEMO = HERE / "examples" / "tidewater"

EDITIONS = "concert, bflat, eflat, bass, f"
FEW = ("--phrases", "1,9,19,35")

BUILDS: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "editions": (f'editions = "{EDITIONS}"', ()),
    "instruments": ('editions = "tenor saxophone, alto saxophone, trombone, flute, double bass"', FEW),
    "tablature": ('editions = "guitar, electric bass"\ntablature = true', FEW),
    "letter": ('page_size = "letter"', FEW),
    "tablet": ('page_size = "tablet"', FEW),
    "large print": ("large_print = true", FEW),
    "by key": ('arrange = "keys"\nparts = "scale"', FEW),
    "parts": ('parts = "progression"\nstudy_marks = "all"\nkey_signatures = true', FEW),
    "signs": ('chord_style = "signs"\nstudy_marks = "none"\nown_staves = false\ndate = "2026-05-01"', FEW),
    "chromatic": ('keys = "chromatic"\nenharmonic = "F# Db"\ncourtesy = "always"', FEW),
    "written keys": ('keys = "fifths"\nkeys_are = "written"\neditions = "bflat"', FEW),
    "sample": ("", ("--sample", "3", "--licensee", "A. Reader")),
    "proof sheet": ("", (*FEW, "--proof-sheet")),
    "three keys": ("", (*FEW, "--keys", "C F# Bb")),
}
"""By name, lines for manuscript.toml in place of the demo's own, and options of the build."""

TRACKS = """
[tracks]
kinds = ["demonstration", "play-along", "line", "click", "call-and-answer", "twelve-keys", "loop", "tuning"]
phrases = [9, 19]
formats = ["wav", "flac", "mp3", "opus", "mid"]
tempos = "own"
rounds = 2
"""

FORMATS = ("musicxml", "mxl", "midi", "mei", "svg", "png")
PLAYED = ("wav", "mid", "mp3")
EXPORTED = (("concert", ""), ("bflat", "Ab"), ("guitar", ""))

Hashes = dict[str, str]


def run(*words: str | Path) -> bytes:
    """Run one command of the program and return what it printed, without times and places."""
    done = subprocess.run(
        [sys.executable, "-m", "shedbook", *map(str, words)], capture_output=True, check=False, cwd=HERE
    )
    return str(done.returncode).encode() + b"\n" + done.stdout + done.stderr


def hashed(content: bytes) -> str:
    """Return the SHA-256 of some bytes."""
    return hashlib.sha256(content).hexdigest()


def files_of(folder: Path, name: str) -> Hashes:
    """Return the hash of every visible file beneath a folder."""
    return {
        f"{name}/{path.relative_to(folder)}": hashed(path.read_bytes())
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(folder).parts)
    }


def book(scratch: Path, name: str, lines: str, more: str = "") -> Path:
    """Write the demo book with other settings and return its folder."""
    folder = scratch / name.replace(" ", "-")
    (folder / "phrases").mkdir(parents=True)
    for path in (DEMO / "phrases").glob("*.toml"):
        (folder / "phrases" / path.name).write_bytes(path.read_bytes())
    own = {line.partition("=")[0].strip() for line in lines.splitlines()}
    kept = (DEMO / "manuscript.toml").read_text(encoding="utf-8").partition("[tracks]")[0]
    kept = "\n".join(line for line in kept.splitlines() if line.partition("=")[0].strip() not in own)
    top, table, rest = kept.partition("\n[")
    (folder / "manuscript.toml").write_text(f"{top}\n{lines}\n{table}{rest}\n{more}\n", encoding="utf-8")
    return folder


def builds(scratch: Path) -> Hashes:
    """Build the demo book in every way and return the hashes of what came of it."""
    found: Hashes = {}
    for name, (lines, options) in BUILDS.items():
        out = scratch / "out" / name.replace(" ", "-")
        said = run("build", book(scratch, name, lines), "--out", out, *options)
        found[f"build {name} status"] = said.partition(b"\n")[0].decode()
        found |= files_of(out, f"build {name}")
    return found


def tracks(scratch: Path) -> Hashes:
    """Make tracks of every kind in every format and return their hashes."""
    out = scratch / "out" / "tracks"
    run("build", book(scratch, "sounding", "", TRACKS), "--out", out, "--phrases", "9,19")
    return files_of(out, "build tracks")


def exports(scratch: Path) -> Hashes:
    """Export the demo book in every format and return the hashes."""
    found: Hashes = {}
    for form in FORMATS:
        for edition, key in EXPORTED:
            out = scratch / "out" / f"export-{form}-{edition}"
            words: list[str | Path] = ["export", DEMO, "--format", form, "--edition", edition, "--out", out]
            run(*words, *(["--key", key] if key else []))
            found |= files_of(out, f"export {form} {edition} {key}")
    return found


def single(scratch: Path) -> Hashes:
    """Show, play, check and explain phrases and return the hashes of what came of it."""
    found: Hashes = {}
    for path in sorted((DEMO / "phrases").glob("*.toml"))[::6]:
        for name, options in (("show.svg", ()), ("show.png", ("--key", "Ab", "--edition", "bass"))):
            out = scratch / f"{path.stem}-{name}"
            run("show", path, "--out", out, *options)
            found[f"{name} {path.stem}"] = hashed(out.read_bytes())
        for form in PLAYED:
            out = scratch / f"{path.stem}.{form}"
            run("play", path, "--out", out)
            found[f"play {form} {path.stem}"] = hashed(out.read_bytes())
    for words in (("check", DEMO), ("explain", DEMO), ("explain", DEMO, "--json"),
                  ("explain", DEMO, "--edition", "bflat")):  # fmt: skip
        found[" ".join(map(str, words)).replace(str(DEMO), "demo")] = hashed(_plain(run(*words)))
    starter = scratch / "starter"
    run("new", starter)
    found |= files_of(starter, "new")
    run("build", starter, "--out", scratch / "out" / "starter")
    return found | files_of(scratch / "out" / "starter", "build starter")


def _plain(said: bytes) -> bytes:
    """Return what a command said without the folder of this checkout."""
    return re.sub(rb"[^\s\"]*examples/tidewater", b"demo", said)


def record() -> Hashes:
    """Return every hash by its name."""
    parts: tuple[Callable[[Path], Hashes], ...] = (builds, exports, single, tracks)
    found: Hashes = {}
    with tempfile.TemporaryDirectory() as folder:
        for part in parts:
            found |= part(Path(folder))
            print(f"{part.__name__}: {len(found)} hashes so far", file=sys.stderr)
    return found


def compare(before: Hashes, after: Hashes) -> int:
    """Print what differs, and return 1 if anything does."""
    names = sorted(before.keys() | after.keys())
    other = [name for name in names if before.get(name) != after.get(name)]
    for name in other:
        state = "is gone" if name not in after else "is new" if name not in before else "differs"
        print(f"{name}: {state}")
    print(f"{len(names) - len(other)} of {len(names)} artefacts are the same byte for byte.")
    return 1 if other else 0


def main() -> int:
    """Run the script."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    verbs = parser.add_subparsers(dest="verb", required=True)
    verbs.add_parser("record").add_argument("file", type=Path)
    two = verbs.add_parser("compare")
    two.add_argument("before", type=Path)
    two.add_argument("after", type=Path)
    asked = parser.parse_args()
    if asked.verb == "record":
        os.environ["COLUMNS"] = "100"
        asked.file.write_text(json.dumps(record(), indent=0, sort_keys=True) + "\n", encoding="utf-8")
        return 0
    return compare(*(json.loads(path.read_text(encoding="utf-8")) for path in (asked.before, asked.after)))


if __name__ == "__main__":
    sys.exit(main())
