"""A disk that fails: `python tools/failing_disk.py NTH ERRNO LOG -- VERB…` runs shedbook with one fault.

Every call that changes a file or folder is counted, over this process and the workers forked from it; the
NTH fails with the error. NTH 0 fails none; an ERRNO below 0 is how many milliseconds longer each call takes.
How many calls there were is written into LOG at the end.
"""

from __future__ import annotations

import builtins
import io
import mmap
import os
import struct
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

_CALLS = (
    "replace", "rename", "link", "symlink", "unlink", "remove", "mkdir", "rmdir", "fsync", "write",
    "truncate", "utime",
)  # fmt: skip
_WRITING = frozenset("wax+")


class Counter:
    """A number that forked processes share."""

    def __init__(self) -> None:
        self._map = mmap.mmap(-1, 8)

    def up(self) -> int:
        """Count one more and return the number."""
        number: int = struct.unpack("q", self._map[:8])[0] + 1
        self._map[:8] = struct.pack("q", number)
        return number

    @property
    def value(self) -> int:
        """The number now."""
        return int(struct.unpack("q", self._map[:8])[0])


class Disk:
    """The calls that change something beneath a folder, of which one fails or all take longer."""

    def __init__(self, nth: int, error: int, ours: str) -> None:
        self.nth, self.error, self.ours = nth, error, ours
        self.counter = Counter()

    def strike(self, *places: object) -> None:
        """Count a call; raise OSError if it is the one that fails."""
        if not any(self._beneath(one) for one in places):
            return
        if self.error < 0:
            time.sleep(-self.error / 1000)
        if self.counter.up() == self.nth:
            raise OSError(self.error, os.strerror(self.error), str(places[0]))

    def _beneath(self, where: object) -> bool:
        if isinstance(where, int):
            try:
                where = Path(f"/proc/self/fd/{where}").readlink()
            except OSError:
                return False
        return isinstance(where, str | os.PathLike) and os.fspath(where).startswith(self.ours)


def fail_at(nth: int, error: int, ours: str) -> Counter:
    """Let the nth call that changes something beneath a folder fail; return what counts them."""
    disk = Disk(nth, error, ours)

    def watched(call: Callable[..., Any]) -> Callable[..., Any]:
        def asked(where: Any, *rest: Any, **named: Any) -> Any:
            disk.strike(where, *(one for one in rest if isinstance(one, str | os.PathLike)))
            return call(where, *rest, **named)

        return asked

    for name in _CALLS:
        setattr(os, name, watched(getattr(os, name)))
    plain_open: Any = builtins.open

    def opened(where: Any, mode: str = "r", *rest: Any, **named: Any) -> Any:
        if _WRITING & set(mode):
            disk.strike(where)
        return plain_open(where, mode, *rest, **named)

    for module in (builtins, io):  # pathlib opens by the name in io
        setattr(module, "open", opened)  # noqa: B010
    return disk.counter


def main() -> int:
    """Run shedbook on a disk that fails once."""
    nth, error, log, _, *verb = sys.argv[1:]
    from shedbook.cli.main import main as run  # noqa: PLC0415 - loaded before anything fails

    counter = fail_at(int(nth), int(error), str(Path.cwd()))
    try:
        status = run(verb)
    except SystemExit as ended:
        status = int(ended.code or 0)
    finally:
        Path(log).write_text(str(counter.value))
    return status


if __name__ == "__main__":
    sys.exit(main())
