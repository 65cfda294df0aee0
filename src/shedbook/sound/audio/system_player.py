"""Playing a track at once, through a program that the operating system has for it."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from shedbook.errors import SoundError
from shedbook.sound.audio.tables.system_players import LISTENERS, ListenerRow

_HINT = "Write a file instead: --out low-tide.wav (or .mp3, .flac, .opus, .mid)."


def listeners() -> tuple[ListenerRow, ...]:
    """Return the programs that are there and could play a track; on Windows none is needed.

    Raises:
        SoundError: if there is none.
    """
    found = tuple(row for row in LISTENERS if shutil.which(row.program))
    if not found and sys.platform != "win32":
        raise SoundError("There is no program here that plays sound.", hint=_HINT)
    return found


def listen(wav: bytes) -> None:
    """Play a WAV file to its end.

    Raises:
        SoundError: if no sound device can be opened.
    """
    if sys.platform == "win32":
        import winsound  # noqa: PLC0415 - there on Windows only

        winsound.PlaySound(wav, winsound.SND_MEMORY)
        return
    said = ""
    with tempfile.TemporaryDirectory(prefix="shedbook-") as folder:
        file = Path(folder, "track.wav")
        file.write_bytes(wav)
        for row in listeners():
            done = subprocess.run(
                [row.program, *row.arguments, str(file)], capture_output=True, text=True, check=False
            )
            if done.returncode == 0:
                return
            said = said or next(iter(done.stderr.strip().splitlines()), "")
    raise SoundError(f"No sound device can be opened here{f' ({said})' if said else ''}.", hint=_HINT)
