"""How long a listener waits: from the start of `shedbook play` to the first sound that is handed on.

    python -m benchmarks.first_sound [TIMES]

The command is started as a process of its own, with a stand-in for the program that plays (a shell script
that notes when the first sound reaches it). What a sound card adds is not in it. Printed are the median, the
quickest and the slowest of so many starts in seconds of wall time, and the processor seconds until the end of
the track is reached, for the demo's phrases one by one; before them the bare start of Python with NumPy.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"
STAND_IN = """#!/bin/sh
head -c 46 > /dev/null
date +%s%N > "$FIRST_SOUND"
exit 0
"""
"""The head of a WAV file has 44 bytes; two more are the first sample."""
PROGRAMS = ("paplay", "aplay", "ffplay")
WAYS = (
    ("a phrase of swing", ("--phrase", "2")),
    ("another, of bossa", ("--phrase", "1", "--feel", "bossa")),
    ("in another key, slower", ("--phrase", "2", "--key", "Eb", "--tempo", "70")),
    ("eight rounds", ("--phrase", "2", "--rounds", "8")),
    ("without the line", ("--phrase", "2", "--parts", "trio")),
    ("a loop", ("--phrase", "2", "--loop", "--count-in", "0")),
)


def main() -> None:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    bare = sorted(_wall((sys.executable, "-c", "import numpy")) for _ in range(times))
    print(f"{'Python with NumPy':24} {_said(bare)}")
    with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
        folder = Path(name)
        for program in PROGRAMS:
            file = folder / program
            file.write_text(STAND_IN)
            file.chmod(0o755)
        for what, options in WAYS:
            first_sound(folder, options)  # the font is read into the disk's cache, modules are compiled
            print(
                f"{what:24} {_said(sorted(first_sound(folder, options) for _ in range(times)))}", flush=True
            )


def first_sound(folder: Path, options: tuple[str, ...]) -> float:
    """Return the seconds from the start of the process to the first sound."""
    note = folder / "heard"
    note.unlink(missing_ok=True)
    env = {**os.environ, "PATH": f"{folder}:{os.environ['PATH']}", "FIRST_SOUND": str(note)}
    command = [sys.executable, "-m", "shedbook", "play", str(DEMO), *options]
    start = time.time_ns()
    subprocess.run(command, env=env, capture_output=True, check=False)
    return (int(note.read_text()) - start) / 1e9


def _wall(command: tuple[str, ...]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True)
    return time.perf_counter() - start


def _said(seconds: list[float]) -> str:
    return f"{statistics.median(seconds):.2f} s ({seconds[0]:.2f} to {seconds[-1]:.2f})"


if __name__ == "__main__":
    main()
