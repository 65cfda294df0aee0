"""How much memory a process holds at most, from one moment on: what the system says of it."""

from __future__ import annotations

import contextlib
from pathlib import Path
from typing import NamedTuple

try:
    import resource
except ImportError:  # not on Windows
    resource = None  # type: ignore[assignment]

_STATUS = Path("/proc/self/status")
_PEAK = "VmHWM:"


class PhaseMemory(NamedTuple):
    """The memory of a phase of a build at its peak, in megabytes.

    `largest` is that of the largest process, `together` the sum of every process's own peak: they hold no
    more at any one moment.
    """

    phase: str
    largest: int
    together: int


def begin_peak() -> None:
    """Forget what this process held before, where the system can (Linux: proc(5), clear_refs)."""
    with contextlib.suppress(OSError):
        Path("/proc/self/clear_refs").write_text("5", encoding="ascii")


def peak_mb() -> float:
    """Return the most megabytes that this process held since `begin_peak`; 0 where nobody knows."""
    with contextlib.suppress(OSError):
        for line in _STATUS.read_text(encoding="ascii", errors="replace").splitlines():
            if line.startswith(_PEAK):
                return int(line.split()[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024 if resource is not None else 0.0
