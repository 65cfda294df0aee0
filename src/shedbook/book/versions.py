"""What besides the manuscript decides how a book comes out: our own files and the libraries' versions."""

from __future__ import annotations

import hashlib
import sys
from functools import cache
from importlib.util import find_spec
from pathlib import Path

LIBRARIES = ("verovio", "typst", "font_source_sans_pro", "font_source_serif_pro", "segno")
"""The distributions whose version may change a note's place on the page."""

_OURS = Path(__file__).parents[1]
_NOT_PRINTED = ("cli",)
_SUFFIXES = (".py", ".typ")


@cache
def fingerprint() -> str:
    """Return the hash of our own source files and of the libraries' versions."""
    found = hashlib.sha256(f"python {sys.version_info[0]}.{sys.version_info[1]}\n".encode())
    for path in sorted(_OURS.rglob("*")):
        if path.suffix in _SUFFIXES and path.relative_to(_OURS).parts[0] not in _NOT_PRINTED:
            found.update(str(path.relative_to(_OURS)).encode())
            found.update(hashlib.sha256(path.read_bytes()).digest())
    for library in LIBRARIES:
        found.update(f"{library} {library_version(library)}\n".encode())
    return found.hexdigest()


def library_version(library: str, module: str = "") -> str:
    """Return the version of an installed distribution, or "" when it is not there.

    `module` is what it is imported as, where that is not its own name. The folder names beside the module are read: `importlib.metadata` would take longer than a whole
    build in which nothing has changed.
    """
    found = _there(module or library)
    if found is None:
        return ""
    for folder in (found.parent.parent, found.parent):
        for path in sorted(folder.glob(f"{library}-*.dist-info")):
            return path.name.removesuffix(".dist-info").partition("-")[2]
    return ""


def _there(module: str) -> Path | None:
    """Return where a module lies, or None; nothing is loaded."""
    spec = find_spec(module)
    return None if spec is None or spec.origin is None else Path(spec.origin)
