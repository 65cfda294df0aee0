"""The kinds of tracks.

Row format: name as manuscript.toml writes it; its place among the tracks of a phrase; who plays ("line",
"trio", "both"); whether a click goes with the line; whether every second round is left to the reader;
whether one track goes through all the keys; whether its end joins its beginning; what titles call it.
"""

from __future__ import annotations

from typing import NamedTuple


class KindRow(NamedTuple):
    """One kind of track."""

    name: str
    place: int
    parts: str
    click: bool
    answers: bool
    all_keys: bool
    loop: bool
    title: str


KINDS: tuple[KindRow, ...] = (
    KindRow("demonstration", 1, "both", False, False, False, False, "demonstration"),
    KindRow("play-along", 2, "trio", False, False, False, False, "play-along"),
    KindRow("line", 3, "line", False, False, False, False, "line alone"),
    KindRow("click", 4, "line", True, False, False, False, "line with click"),
    KindRow("call-and-answer", 5, "both", False, True, False, False, "call and answer"),
    KindRow("twelve-keys", 6, "both", False, False, True, False, "all keys in a row"),
    KindRow("loop", 7, "trio", False, False, False, True, "loop"),
)

TUNING = "tuning"
"""A track of its own, once in a book: the A that others tune to."""

TUNING_SECONDS, TUNING_MIDI, TUNING_PROGRAM = 8, 69, 75
"""The tuning note: A4 (ISO 16: 440 Hz) on General MIDI's pan flute, counted from 0: of seventeen sounds of
both fonts one of the steadiest, within 0.5 cents over its length (the clarinet wavers by 6), and hardly more
than its fundamental. What a font is off is bent away (`sound.tuning_note`)."""

TUNING_HERTZ = 440.0

LADDER = (60, 80, 100)
"""Slow, medium and goal, in hundredths of the phrase's tempo (common practice)."""
