"""`python -m benchmarks`: every measurement of speed, as ratios; `docs/speed.md` keeps the figures."""

from __future__ import annotations

import subprocess
import sys

MEASUREMENTS = (
    "theory_speed",
    "search_speed",
    "lattice_speed",
    "analysis_speed",
    "exchange_speed",
    "midi_speed",
    "build_speed",
    "edition_speed",
    "sound_speed",
    "catalogue_speed",
    "draft_speed",
    "workbench_speed",
    "film_speed",
)


def main() -> int:
    failed = 0
    for name in MEASUREMENTS:
        print(f"# {name}", flush=True)
        # A process each, so that none has another's memory to look after.
        failed |= subprocess.run([sys.executable, "-m", f"benchmarks.{name}"], check=False).returncode
        print(flush=True)
    return failed


if __name__ == "__main__":
    sys.exit(main())
