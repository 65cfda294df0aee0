"""An hour of audio: how long `shedbook takes` listens to it, how much memory that takes, what it finds.

A session of the demo book's first phrases is recorded as one file: each take after the tones of its slate,
clarinet, trumpet and guitar of FluidR3 GM in turn (`tests/listen/planted_takes.py`, without planted slips),
silence of a room between them. The verb runs in a process of its own, whose time and memory are read.

    nice -n 15 python -m benchmarks.hour_of_takes [--takes N] [--minutes N]
"""

from __future__ import annotations

import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import soundfile

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from listen.planted_takes import Manner, take_of  # noqa: E402 - the tests' folder must be on the path first
from shedbook.book.lessons.session_list import read_session  # noqa: E402
from shedbook.book.manuscript.opening import open_manuscript  # noqa: E402
from shedbook.book.manuscript.source import read_phrase  # noqa: E402
from shedbook.book.verbs.session import SessionOrder, make_session  # noqa: E402
from shedbook.sound.audio.slate import slate_tones  # noqa: E402
from shedbook.sound.audio.tables.formats import RATE_HZ  # noqa: E402

DEMO = ROOT / "examples" / "tidewater"
_PROGRAMS = ("clarinet", "trumpet", "guitar")
_ROOM = 10 ** (-66 / 20)
_SLATE_TO_TAKE_S = 0.8
"""Shorter than the silence that parts pieces: the slate must not be heard as part of the take."""

_MEASURED = """
import re, runpy, sys
from pathlib import Path
try:
    runpy.run_module("shedbook", run_name="__main__")
finally:
    print(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1], file=sys.stderr)
"""
"""The verb, and at its end the most memory that it held, in kB: what `wait4` says of a child holds what its
parent held when it was made."""


def record(folder: Path, takes: int, seconds: float) -> list[int]:
    """Write a session's list and one recording of it; return the phrases in the order in which they sound."""
    numbers = tuple(str(number) for number in range(1, takes + 1))
    make_session(SessionOrder(DEMO, folder, numbers, sounding=False))
    session = read_session(folder)
    phrases = {source.number: read_phrase(source) for source in open_manuscript(DEMO).phrases}
    dice, noise = random.Random(11), np.random.default_rng(11)
    every = seconds / len(session)
    order = []
    with soundfile.SoundFile(folder / "hour.wav", "w", RATE_HZ, 1) as out:
        for place, (number, row) in enumerate(session.items()):
            manner = Manner(program=_PROGRAMS[place % len(_PROGRAMS)], jitter_ms=6)
            played = take_of(phrases[row.phrase], dice, manner).samples.mean(axis=1)
            sound = noise.normal(0, _ROOM, round(every * RATE_HZ)).astype(np.float32)
            slate = slate_tones(number, RATE_HZ)
            at = round(2 * RATE_HZ)
            sound[at : at + len(slate)] += slate
            at += len(slate) + round(
                (_SLATE_TO_TAKE_S - 0.6) * RATE_HZ
            )  # takes begin with 0.6 s of their own
            played = played[: len(sound) - at]
            sound[at : at + len(played)] += played
            out.write(sound)
            order.append(row.phrase)
    return order


def main() -> None:
    """Record, listen, print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--takes", type=int, default=30)
    parser.add_argument("--minutes", type=float, default=60)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "session"
        order = record(folder, options.takes, 60 * options.minutes)
        file = folder / "hour.wav"
        command = [sys.executable, "-c", _MEASURED, "takes", str(DEMO), str(file), "--json"]
        begun = time.perf_counter()
        with (Path(name) / "found.json").open("w+") as out:
            child = subprocess.Popen(command, stdout=out, stderr=(Path(name) / "peak.txt").open("w"))
            _, status, used = os.wait4(child.pid, 0)
            wall = time.perf_counter() - begun
            child.returncode = os.waitstatus_to_exitcode(status)
            out.seek(0)
            (found,) = json.load(out)
        peak_kb = int((Path(name) / "peak.txt").read_text().rsplit(maxsplit=1)[-1])
    takes, (recording,) = found["takes"], found["recordings"]
    heard = [take["phrase"] for take in takes]
    print(f"{options.minutes:g} minutes, {len(order)} takes; {file.name} at {RATE_HZ} Hz, one channel")
    spent = used.ru_utime + used.ru_stime
    alike = sum(one == other for one, other in zip(heard, order, strict=False))
    slips = sum(len(take["slips"]) for take in takes)
    print(f"wall {wall:.0f} s, processor {spent:.0f} s, peak {peak_kb / 1024:.0f} MB")
    print(f"slates read {len(recording['slates'])}; takes found {len(takes)}, of the slate's phrase {alike}")
    print(f"slips said {slips} (none was planted); other pieces {len(recording['other_pieces'])}")


if __name__ == "__main__":
    main()
