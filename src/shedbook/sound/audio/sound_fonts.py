"""Which SoundFont is played: the author's own, or the best of those that are there.

A font is looked at before it is used: a synthesiser that cannot read its font renders silence and says
nothing.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from shedbook.errors import SoundError
from shedbook.sound.audio.tables.sound_fonts import SOUND_FONTS, FontRow

_ENDS_BYTES = 1 << 16
_PRESET_BYTES = 38


@dataclass(frozen=True, slots=True)
class SoundFont:
    """A SoundFont that is there: its name as reports and tags print it, and where it lies."""

    name: str
    path: Path
    licence: str = ""

    def has(self, bank: int, program: int) -> bool:
        """Whether it has a preset; both count from 0, and bank 128 holds the drum kits."""
        return (bank, program) in _presets(self.path)

    @property
    def compressed(self) -> bool:
        """Whether its samples are compressed (SF3), which not every synthesiser can read."""
        return _version(self.path) == 3


def find_font(named: Path | None = None) -> SoundFont:
    """Return the font that the author names, else the best one that is there.

    Raises:
        SoundError: if the named file is no SoundFont, or if none is there; the hint says what to do.
    """
    if named is not None:
        _check(named)
        return SoundFont(named.stem, named)
    for row in SOUND_FONTS:
        path = _place(row)
        if path is not None and _version(path):
            return SoundFont(row.name, path, row.licence)
    raise SoundError(
        "No SoundFont is there, so nothing can sound.",
        hint="Install one: " + ", or ".join(dict.fromkeys(row.install for row in SOUND_FONTS if row.install))
        + '; or name your own in manuscript.toml: [tracks] sound_font = "…".',
    )  # fmt: skip


def font_places(named: Path | None = None) -> tuple[Path, ...]:
    """Return where a font is looked for, whether one is there or not: a change there may change the font."""
    if named is not None:
        return (named,)
    places = [Path(text).expanduser() for row in SOUND_FONTS for text in row.paths]
    return (*places, *(path for row in SOUND_FONTS if row.package and (path := _place(row)) is not None))


@lru_cache(maxsize=16)
def font_seal(path: Path) -> str:
    """Return a short text that changes with the font: its size and the hash of its two ends.

    The sizes of all that lies between stand at the ends, and reading 150 MB would take longer than a track.
    """
    size = path.stat().st_size
    found = hashlib.sha256(str(size).encode())
    with path.open("rb") as file:
        found.update(file.read(_ENDS_BYTES))
        file.seek(max(0, size - _ENDS_BYTES))
        found.update(file.read(_ENDS_BYTES))
    return found.hexdigest()[:32]


def _place(row: FontRow) -> Path | None:
    """Return where a font of the table lies, or None."""
    for path in (Path(text).expanduser() for text in row.paths):
        if path.is_file():
            return path
    if row.package:
        spec = find_spec(row.package)
        if spec is not None and spec.origin is not None:
            path = Path(spec.origin).parent / row.file
            return path if path.is_file() else None
    return None


def _check(path: Path) -> None:
    """Refuse a file that is no SoundFont."""
    hint = "Name a .sf2 file, or leave sound_font out: then a font that is there is used."
    try:
        version = _version(path)
    except OSError as error:
        raise SoundError(f"The SoundFont {path} cannot be read: {error.strerror}.", hint=hint) from None
    if not version:
        raise SoundError(f"{path} is no SoundFont.", hint=hint)


@lru_cache(maxsize=16)
def _version(path: Path) -> int:
    """Return 2 or 3 for a SoundFont of that kind, else 0.

    SoundFont 2.04, section 4: RIFF, "sfbk", "ifil".
    """
    with path.open("rb") as file:
        head = file.read(4096)
    if head[:4] != b"RIFF" or head[8:12] != b"sfbk":
        return 0
    at = head.find(b"ifil")
    if at < 0:
        return 0
    return 3 if int.from_bytes(head[at + 8 : at + 10], "little") >= 3 else 2


@lru_cache(maxsize=16)
def _presets(path: Path) -> frozenset[tuple[int, int]]:
    """Return bank and program of every preset (SoundFont 2.04, 7.2: rows of 38 bytes in the chunk "phdr")."""
    with path.open("rb") as file:
        at, end = 12, path.stat().st_size
        while at + 8 <= end:
            file.seek(at)
            name, size = file.read(4), int.from_bytes(file.read(4), "little")
            if name == b"LIST" and file.read(4) == b"pdta":
                return _preset_rows(file.read(size - 4))
            at += 8 + size + size % 2
    return frozenset()


def _preset_rows(pdta: bytes) -> frozenset[tuple[int, int]]:
    if pdta[:4] != b"phdr":
        return frozenset()
    rows = range(8, 8 + int.from_bytes(pdta[4:8], "little") - _PRESET_BYTES, _PRESET_BYTES)
    number = int.from_bytes
    return frozenset(
        (number(pdta[at + 22 : at + 24], "little"), number(pdta[at + 20 : at + 22], "little")) for at in rows
    )
