"""What is installed, in which version, what is missing, and what to do about it on this system."""

from __future__ import annotations

import platform
import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from shedbook.book.verbs.tables.installing import PARTS, SYSTEMS, SystemRow
from shedbook.errors import SoundError
from shedbook.sound.audio.fluidsynth_door import fluid_name
from shedbook.sound.audio.sound_fonts import find_font
from shedbook.sound.audio.system_player import listeners
from shedbook.sound.audio.tables.voices import INSTALL, PROGRAM
from shedbook.sound.audio.voice_door import voice_there, voice_version

_AGAIN = "install shedbook again: pip install --force-reinstall shedbook"


@dataclass(frozen=True, slots=True)
class Part:
    """One thing that the program uses.

    Attributes:
        name: what it is called.
        found: its version or place, "" where it is missing.
        serves: what it is for.
        needed: whether something cannot be made at all without it.
        mend: what to do where it is missing.
    """

    name: str
    found: str
    serves: str
    needed: bool = False
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Setup:
    """The system by name, and every part in the order in which it is told."""

    system: str
    parts: tuple[Part, ...]

    @property
    def whole(self) -> bool:
        """Whether nothing is missing without which something cannot be made."""
        return all(part.found or not part.needed for part in self.parts)


def setup(font: Path | None = None) -> Setup:
    """Look at what is there; nothing is changed.

    Args:
        font: the author's own SoundFont, None for the one that is found.
    """
    system = this_system()
    return Setup(system.name, (*_python(), *_libraries(), *_sound(system, font), *_film()))


def this_system() -> SystemRow:
    """Return the row of the system that this is; the last Linux row stands for a system of no row."""
    fits = [row for row in SYSTEMS if sys.platform.startswith(row.platform)]
    there = [row for row in fits if not row.program or shutil.which(row.program)]
    return there[0] if there else next(row for row in SYSTEMS if row.name == "Linux")


def _python() -> Iterator[Part]:
    yield Part("shedbook", version("shedbook"), "this program")
    yield Part("Python", platform.python_version(), f"in {sys.prefix}")


def _libraries() -> Iterator[Part]:
    for name, serves, _ in PARTS:
        try:
            found = version(name)
        except PackageNotFoundError:
            found = ""
        yield Part(name, found, serves, needed=True, mend=_AGAIN)


def _film() -> Iterator[Part]:
    try:
        found = version("av")
    except PackageNotFoundError:
        found = ""
    yield Part("av", found, "score videos: shedbook film", mend='pip install "shedbook[film]"')


def _sound(system: SystemRow, font: Path | None) -> Iterator[Part]:
    try:
        synth = fluid_name().removeprefix("FluidSynth ")
    except SoundError:
        synth = ""
    yield Part(
        "FluidSynth", synth, "the better synthesiser; without it the one that came with shedbook plays",
        mend=system.synthesiser,
    )  # fmt: skip
    try:
        there = find_font(font)
        place = f"{there.name}, {there.path}"
    except SoundError:
        place = ""
    yield Part(
        "SoundFont", place, "the sounds; without one tracks are MIDI files only", needed=True,
        mend=system.sound_font,
    )  # fmt: skip
    place = voice_there()
    yield Part(
        PROGRAM, place and (voice_version(place) or place), "a spoken count-in; without it strokes count",
        mend=INSTALL,
    )  # fmt: skip
    try:
        players = ", ".join(row.program for row in listeners()) or "part of the system"
    except SoundError:
        players = ""
    yield Part(
        "a program that plays sound", players, "shedbook play without --out",
        mend="write a file and open it: shedbook play … --out low-tide.mp3",
    )  # fmt: skip
