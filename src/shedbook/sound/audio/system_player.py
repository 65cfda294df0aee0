"""Playing a track at once, through a program that the operating system has for it."""

from __future__ import annotations

import contextlib
import shutil
import struct
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from shedbook.errors import SoundError
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.audio.tables.system_players import LISTENERS, ListenerRow

_FRAME_BYTES = 4
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


def listen(pieces: Iterable[bytes], frames: int) -> None:
    """Play samples as they come, to their end.

    Where a program that is there takes sound as it comes, it is given every piece at once; else all of it is
    written to a file first. A program that cannot open a device is passed over.

    Args:
        pieces: 16 bit, stereo, at `RATE_HZ`, piece by piece.
        frames: how many frames come in all.

    Raises:
        SoundError: if no sound device can be opened.
    """
    if sys.platform == "win32":
        import winsound  # noqa: PLC0415 - there on Windows only

        winsound.PlaySound(wav_head(frames) + b"".join(pieces), winsound.SND_MEMORY)
        return
    rows = sorted(listeners(), key=lambda row: not row.streamed)
    coming, kept, said = iter(pieces), list[bytes](), ""
    for row in rows:
        done, words = (_streamed if row.streamed else _from_file)(row, coming, kept, frames)
        if done:
            return
        said = said or words
    raise SoundError(f"No sound device can be opened here{f' ({said})' if said else ''}.", hint=_HINT)


def wav_head(frames: int) -> bytes:
    """Return the head of a WAV file of so many frames: 16 bit, stereo, at `RATE_HZ`."""
    size = frames * _FRAME_BYTES
    return b"".join(
        (
            b"RIFF",
            (size + 36).to_bytes(4, "little"),
            b"WAVEfmt ",
            struct.pack("<IHHIIHH", 16, 1, 2, RATE_HZ, RATE_HZ * _FRAME_BYTES, _FRAME_BYTES, 16),
            b"data",
            size.to_bytes(4, "little"),
        )
    )


def _streamed(row: ListenerRow, coming: Iterator[bytes], kept: list[bytes], frames: int) -> tuple[bool, str]:
    """Give a program what is kept and what still comes; return whether it played, and what it says if not."""
    with tempfile.TemporaryFile() as words:
        player = subprocess.Popen([row.program, *row.streamed], stdin=subprocess.PIPE, stderr=words)
        assert player.stdin is not None
        try:
            if not row.bare:
                player.stdin.write(wav_head(frames))
            for piece in kept:
                player.stdin.write(piece)
            player.stdin.flush()
            for piece in coming:
                kept.append(piece)
                player.stdin.write(piece)
                player.stdin.flush()
            player.stdin.close()
        except BrokenPipeError:
            with contextlib.suppress(OSError):
                player.stdin.close()
        except BaseException:
            player.kill()
            player.wait()
            raise
        if player.wait() == 0:
            return True, ""
        words.seek(0)
        return False, _first_line(words.read().decode(errors="replace"))


def _from_file(row: ListenerRow, coming: Iterator[bytes], kept: list[bytes], frames: int) -> tuple[bool, str]:
    """Let a program play a file of all pieces, as `_streamed`."""
    kept += coming
    with tempfile.TemporaryDirectory(prefix="shedbook-") as folder:
        file = Path(folder, "track.wav")
        file.write_bytes(wav_head(frames) + b"".join(kept))
        done = subprocess.run(
            [row.program, *row.arguments, str(file)], capture_output=True, text=True, check=False
        )
    return done.returncode == 0, _first_line(done.stderr)


def _first_line(text: str) -> str:
    return next(iter(text.strip().splitlines()), "")
