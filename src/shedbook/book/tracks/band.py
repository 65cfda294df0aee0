"""What a manuscript tells its players, whoever asks for music: tracks, pages, videos, the author."""

from __future__ import annotations

from shedbook.book.manuscript.settings.tracks import BASS_FEELS, BRUSHES, STICKS, SoundSettings
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.tables.track_kinds import BRUSHED_FEEL


def band_order(sound: SoundSettings) -> Order:
    """Return who plays what, and how: instruments, bass, drums, count-in, stage, seed.

    Which parts play, how often and how fast is for the caller to add.
    """
    return Order(
        count_in=sound.count_in,
        seed=sound.seed,
        line_instrument=sound.line_instrument,
        comping_instrument=sound.comping_instrument,
        wide=sound.sides,
        bass_instrument=sound.bass_instrument,
        bass_feel=BASS_FEELS.get(sound.bass, ""),
        drum_feel=BRUSHED_FEEL if sound.drums == BRUSHES else "",
        brushes=sound.drums != STICKS,
    )
