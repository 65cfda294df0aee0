"""What besides the manuscript decides how a book comes out: our own files and the libraries' versions."""

from __future__ import annotations

import hashlib
import os
import re
import sys
from collections.abc import Sequence
from functools import cache
from importlib.util import find_spec
from pathlib import Path

LIBRARIES = ("verovio", "typst", "font_source_sans_pro", "font_source_serif_pro", "segno")
"""The distributions whose version may change a note's place on the page."""

SOUND_LIBRARIES = (
    ("pyfluidsynth", "fluidsynth"), ("midirenderer", ""), ("soundfile", ""), ("numpy", ""), ("scipy", ""),
    ("mido", ""),
)  # fmt: skip
"""Distributions that take part in the sound, and what they are imported as where that is another name."""

_OURS = Path(__file__).parents[2]
_NOT_PRINTED = ("cli",)
_NOT_IN_A_SCORE = ("cli", "exchange", "sound")
_SUFFIXES = (".py", ".typ", ".ttf")
_ON_A_PAGE = (".js", ".css", ".html", ".mp3", ".json")
"""Files of ours that go into the student's page as they are."""
_LOADED_BY_NAME = ("shedbook.sound.feels.rows",)
"""Packages whose modules are found in their folder, so that no text mentions them one by one."""
_NAMED = re.compile(r"\bshedbook(?:\.\w+)+")
_TAKEN_FROM = re.compile(r"from\s+(shedbook[\w.]*)\s+import\s+(\([^)]*\)|[^\n]+)")


@cache
def fingerprint() -> str:
    """Return the hash of everything but the manuscript that decides how a book and its tracks come out.

    That is our own source files, except those of the command line, and the versions of Python and of the
    libraries that print and play. Fonts and the system's synthesiser are watched by the build itself.
    """
    ours = _of_rooms(_NOT_PRINTED, (*_SUFFIXES, *_ON_A_PAGE))
    return hashlib.sha256(f"{ours}\n{sound_libraries()}".encode()).hexdigest()


def sound_libraries() -> str:
    """Return a line for each library that takes part in the sound, with its version."""
    return "\n".join(f"{library} {library_version(library, module)}" for library, module in SOUND_LIBRARIES)


@cache
def score_fingerprint() -> str:
    """Return the hash of what scores and pages depend on: without what plays and what exchanges files."""
    return _of_rooms(_NOT_IN_A_SCORE)


@cache
def own_files() -> str:
    """Return the hash of our own files that print or play, and of Python's version, without the libraries."""
    return _hash_of_files(_NOT_PRINTED, (*_SUFFIXES, *_ON_A_PAGE)).hexdigest()


def _of_rooms(without: Sequence[str], suffixes: tuple[str, ...] = _SUFFIXES) -> str:
    found = _hash_of_files(without, suffixes)
    for library in LIBRARIES:
        found.update(f"{library} {library_version(library)}\n".encode())
    return found.hexdigest()


def _hash_of_files(without: Sequence[str], suffixes: tuple[str, ...]) -> hashlib._Hash:
    found = hashlib.sha256(f"python {sys.version_info[0]}.{sys.version_info[1]}\n".encode())
    for name in _files(without, suffixes):
        with open(f"{_OURS}/{name}", "rb") as file:  # noqa: PTH123 - read at every build: `Path` is slower
            found.update(name.encode())
            found.update(hashlib.sha256(file.read()).digest())
    return found


def _files(without: Sequence[str], suffixes: tuple[str, ...]) -> list[str]:
    """Return our files from the package's folder, in a fixed order, without some of its rooms."""
    found = []
    for folder, inner, files in os.walk(_OURS):
        below = folder[len(str(_OURS)) + 1 :]
        inner[:] = [name for name in inner if name != "__pycache__" and (below or name not in without)]
        found += [f"{below}/{name}" if below else name for name in files if name.endswith(suffixes)]
    return sorted(found)


@cache
def fingerprint_of(module: str) -> str:
    """Return the hash of one of our modules and of all of ours that it takes from, at any remove.

    Every mention of a module counts, in a function or a text too: rather one too many than one too few. Of a
    package that is loaded by name every module counts.
    """
    found = hashlib.sha256(f"python {sys.version_info[0]}.{sys.version_info[1]}\n".encode())
    for name, text in sorted(taken_in(module).items()):
        found.update(f"{name} {hashlib.sha256(text.encode()).hexdigest()}\n".encode())
    return found.hexdigest()


def taken_in(module: str) -> dict[str, str]:
    """Return the texts, by name, of one of our modules and of all of ours that it takes from."""
    waiting, found = [module], dict[str, str]()
    while waiting:
        name = waiting.pop()
        path = _source(name)
        if name in found or path is None:
            continue
        text = found[name] = path.read_text(encoding="utf-8")
        waiting += _NAMED.findall(text)
        for source, names in _TAKEN_FROM.findall(text):
            waiting += (f"{source}.{one}" for one in re.findall(r"\w+", names))
        package = name.rpartition(".")[0]
        if "." in package:  # the package itself is a face that loads whatever it is asked for
            waiting.append(package)
        if name in _LOADED_BY_NAME:
            waiting += (f"{name}.{one.stem}" for one in path.parent.glob("*.py"))
    return found


def _source(module: str) -> Path | None:
    """Return the file of one of our modules or packages, or None where the name stands for something else."""
    place = _OURS.joinpath(*module.split(".")[1:])
    return next((path for path in (place.with_suffix(".py"), place / "__init__.py") if path.is_file()), None)


def library_version(library: str, module: str = "") -> str:
    """Return the version of an installed distribution, or "" when it is not there.

    `module` is what it is imported as, where that is not its own name. The folder names beside the module
    are read: `importlib.metadata` would take longer than a whole build in which nothing has changed.
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
