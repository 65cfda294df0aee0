"""Half a minute to listen to: the beginnings of a few tracks, one fading into the next."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.file_tags import Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.rendering import audio_file
from shedbook.sound.audio.soundfile_door import read_recording
from shedbook.sound.audio.tables.formats import RATE_HZ

PREVIEW_SECONDS = 30
"""How long a preview is (common practice: shops play half a minute)."""
_TRACKS = 3
_FADE = RATE_HZ // 2
_NAME = ".mp3"


def sound_preview(tracks: Sequence[Path], title: str, author: str) -> bytes | None:
    """Return half a minute of sound as an MP3; None where there is no track that sounds.

    Args:
        tracks: tracks in the order in which they are heard, as many as there are.
        title: what the file is called.
        author: whose music it is.

    Raises:
        SoundError: if a track cannot be read, or the sound not be brought to its loudness.
    """
    wanted = PREVIEW_SECONDS * RATE_HZ
    heard: list[NDArray[np.float32]] = []
    there = 0
    share = wanted // max(1, min(_TRACKS, len(tracks)))
    for path in tracks:
        if there >= wanted:
            break
        piece = read_recording(path)[: min(share, wanted - there)]
        heard.append(_faded(piece))
        there += len(piece)
    if not heard:
        return None
    row = format_of(_NAME)
    made = audio_file(np.concatenate(heard), row)
    return tagged(made.content, row, Tags(title=title, artist=author))


def _faded(samples: NDArray[np.float32]) -> NDArray[np.float32]:
    length = min(_FADE, len(samples))
    found = samples.copy()
    found[len(found) - length :] *= np.linspace(1, 0, length, dtype=np.float32)[:, None]
    return found
