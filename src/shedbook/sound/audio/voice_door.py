"""The one module that asks the system's program for speech to say the numbers of a count-in.

The program is run once a word; the same version says the same word in the same samples.
"""

from __future__ import annotations

import shutil
import subprocess
from functools import lru_cache

from shedbook.errors import SoundError
from shedbook.sound.audio.tables import voices as table

_SECONDS = 10


def voice_there() -> str:
    """Return where the program lies that speaks, "" where there is none."""
    return shutil.which(table.PROGRAM) or ""


@lru_cache(maxsize=4)
def voice_version(place: str) -> str:
    """Return the version of the program at a place, as it says it; "" where it says none."""
    try:
        done = subprocess.run(
            [place, *table.VERSION_ARGUMENTS], capture_output=True, text=True, check=False, timeout=_SECONDS
        )
    except (OSError, subprocess.SubprocessError):
        return ""
    return " ".join(done.stdout.partition("Data at")[0].split())


def voice_of(language: str) -> str:
    """Return the voice that counts in a language, given by its tag: that of "pt-BR" is "pt"."""
    return table.VOICES.get(language.partition("-")[0].lower(), table.VOICES[table.ENGLISH])


def speech(place: str, voice: str, number: int, speed: int) -> bytes:
    """Return what the program at a place says for a number: a WAV file of one channel in 16 bit.

    Args:
        place: where the program lies.
        voice: one of `tables.voices.VOICES`.
        number: what it says.
        speed: words a minute.

    Raises:
        SoundError: if it does not speak.
    """
    return _run(place, [*table.ARGUMENTS, voice, "-s", str(speed), str(number)])


def speech_of(place: str, text: str, language: str) -> bytes:
    """Return what the program at a place says for a text in a language ("en", "de"): a WAV file, as `speech`.

    Raises:
        SoundError: if it does not speak.
    """
    return _run(place, ["--stdout", "-v", language, "-s", str(table.SPEEDS[0]), "--", text])


def _run(place: str, arguments: list[str]) -> bytes:
    try:
        done = subprocess.run([place, *arguments], capture_output=True, check=False, timeout=_SECONDS)
    except (OSError, subprocess.SubprocessError) as error:
        raise SoundError(f"{place} cannot be run: {error}", hint=table.INSTALL) from error
    if done.returncode or done.stdout[:4] != b"RIFF":
        raise SoundError(f"{place} does not speak.", hint=table.INSTALL)
    return done.stdout
