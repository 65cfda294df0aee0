"""What the files of phrases and of recordings are called: a number, and the words of the title."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

from shedbook.errors import OutputError

MEDIA = "media"
"""The folder of the manuscript in which recordings lie."""
OFFSETS_ENDING = ".notes.json"
"""How the file ends that lies beside a recording and says when its notes sound: low-tide.notes.json."""
_LONGEST_NAME = 60
_NUMBERED = re.compile(r"(\d{1,6})")


def file_words(text: str) -> str:
    """Return a text as part of a file's name: small letters, digits and hyphens."""
    named = text.replace("#", " sharp").replace("ß", "ss")
    plain = unicodedata.normalize("NFKD", named).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain.replace("'", ""))
    return "-".join(words)[:_LONGEST_NAME].strip("-") or "phrase"


def recording_name(number: int, title: str, key: str, tempo_bpm: int = 0, ending: str = ".wav") -> str:
    """Return where the recording of a phrase in a key belongs, from the manuscript's folder.

    Args:
        number: that of the phrase.
        title: its title.
        key: the key that sounds, such as "Bb major".
        tempo_bpm: the tempo, 0 for the phrase's own, which the name does not say.
        ending: that of the format.
    """
    tempo = f"-{tempo_bpm}" if tempo_bpm else ""
    return f"{MEDIA}/{number:02}-{file_words(title)}-{file_words(key)}{tempo}{ending}"


def offsets_beside(recording: Path) -> Path:
    """Return the file that says when the notes of a recording sound."""
    return recording.with_suffix(OFFSETS_ENDING)


def next_number(folder: Path) -> tuple[int, int]:
    """Return the next free number for a phrase file, and with how many digits it is written.

    Raises:
        OutputError: if the folder cannot be read.
    """
    try:
        names = [path.name for path in folder.iterdir()] if folder.is_dir() else []
    except OSError as error:
        raise OutputError(f"{folder} cannot be read: {error.strerror}.") from error
    found = [match[1] for name in names if (match := _NUMBERED.match(name))]
    return max(map(int, found), default=0) + 1, max([2, *map(len, found)])
