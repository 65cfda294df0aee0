"""Recordings that the page sent, kept outside the manuscript while the workbench runs."""

from __future__ import annotations

import contextlib
import shutil
import tempfile
from collections.abc import AsyncIterator
from pathlib import Path

from shedbook.errors import ShedbookError
from shedbook.workbench.wording import words

_KEPT = 4
"""How many recordings lie there at most; an older one goes when another comes."""
_LONGEST_NAME = 80


class Recordings:
    """The recordings by their numbers, and the folder that holds them."""

    def __init__(self) -> None:
        self._folder: Path | None = None
        self._paths: dict[str, Path] = {}
        self._count = 0

    async def take(self, name: str, parts: AsyncIterator[bytes]) -> str:
        """Write a recording as it comes in, and return its number; of one that breaks off nothing is left.

        Args:
            name: what its file is called; only its last part is used.
            parts: its bytes.
        """
        if self._folder is None:
            self._folder = Path(tempfile.mkdtemp(prefix="shedbook-recordings-"))
        self._count += 1
        number = str(self._count)
        place = self._folder / number
        place.mkdir()
        path = place / (Path(name.replace("\\", "/")).name or "recording")[-_LONGEST_NAME:]
        try:
            with path.open("wb") as file:
                async for part in parts:
                    file.write(part)
        except BaseException:
            shutil.rmtree(place, ignore_errors=True)
            raise
        self._paths[number] = path
        for old in list(self._paths)[:-_KEPT]:
            self.forget(old)
        return number

    def path(self, number: str) -> Path:
        """Return where a recording lies.

        Raises:
            ShedbookError: if it is no longer there.
        """
        with contextlib.suppress(KeyError):
            return self._paths[number]
        raise ShedbookError(words("took.gone"), hint=words("took.gone-hint"))

    def forget(self, number: str) -> None:
        """Delete a recording."""
        path = self._paths.pop(number, None)
        if path is not None:
            shutil.rmtree(path.parent, ignore_errors=True)

    def close(self) -> None:
        """Delete all of them."""
        self._paths.clear()
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None
