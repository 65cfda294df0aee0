"""Hold two builds of one manuscript, made on processors of two families, against each other.

    python tools/other_processor.py OUT_A OUT_B

Everything that is not sound must be the same byte for byte. Sound is decoded: WAV and FLAC may differ by one
step of 16 bits, coded sound by the noise of its coder, which decides anew wherever a sample differs: the
difference of MP3 may have -70 dBFS (root of the mean square), that of Opus -50. A zip and the manifest follow
from the files in them. Prints a line for each kind of file; ends with status 1 if anything goes beyond.
"""

from __future__ import annotations

import argparse
import io
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
import soundfile

_STEP = 1 / 32768
_LOSSLESS = (".wav", ".flac")
_RMS_DBFS = {".mp3": -70.0, ".opus": -50.0}
_FOLLOWING = (".zip", "manifest.json")
"""What holds other files, or their checksums."""


class Compared(NamedTuple):
    """One file of both builds: whether it is the same, how far its samples lie apart, and what is wrong.

    `largest` is in steps of 16 bits, `rms_dbfs` the root of the mean square of the difference.
    """

    kind: str
    same: bool
    largest: float = 0.0
    rms_dbfs: float = -200.0
    wrong: str = ""


def compared(one: Path, other: Path) -> Compared:
    """Return how a file lies to the same file of the other build."""
    kind = one.suffix
    if not (one.exists() and other.exists()):
        return Compared(kind, False, wrong="is in one of them only")
    if one.read_bytes() == other.read_bytes():
        return Compared(kind, True)
    if one.name.endswith(_FOLLOWING):
        return Compared(kind, False)
    if kind not in (*_LOSSLESS, *_RMS_DBFS):
        return Compared(kind, False, wrong="is another")
    (first, _), (second, _) = (soundfile.read(io.BytesIO(path.read_bytes())) for path in (one, other))
    if first.shape != second.shape:
        return Compared(kind, False, wrong=f"has {second.shape} samples for {first.shape}")
    apart = np.abs(first - second)
    largest = float(apart.max() / _STEP)
    rms = float(10 * np.log10((apart**2).mean() + 1e-20))
    beyond = largest > 1.01 if kind in _LOSSLESS else rms > _RMS_DBFS[kind]
    return Compared(kind, False, largest, rms, "lies too far apart" if beyond else "")


def finished(first: Path, second: Path) -> Iterator[Path]:
    """Yield the names of all finished files of both; what a store keeps is no file for anyone."""
    yield from sorted(
        {
            path.relative_to(folder)
            for folder in (first, second)
            for path in folder.rglob("*")
            if path.is_file() and ".store" not in path.parts
        }
    )


def main() -> int:
    """Compare, and print what was found."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("first", type=Path)
    parser.add_argument("second", type=Path)
    options = parser.parse_args()
    found: dict[str, list[Compared]] = {}
    for name in finished(options.first, options.second):
        told = compared(options.first / name, options.second / name)
        found.setdefault(told.kind or name.name, []).append(told)
        if told.wrong:
            print(f"{name}: {told.wrong}")
    for kind, all_of_it in sorted(found.items()):
        differ = [one for one in all_of_it if not one.same]
        line = f"{kind}: {len(all_of_it)} files, {len(all_of_it) - len(differ)} the same byte for byte"
        if differ and kind in (*_LOSSLESS, *_RMS_DBFS):
            largest, rms = max(one.largest for one in differ), max(one.rms_dbfs for one in differ)
            line += f"; others at most {largest:.1f} steps of 16 bits and {rms:.0f} dBFS (rms) apart"
        print(line)
    return int(any(one.wrong for several in found.values() for one in several))


if __name__ == "__main__":
    sys.exit(main())
