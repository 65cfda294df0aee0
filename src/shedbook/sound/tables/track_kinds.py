"""The kinds of tracks.

Row format: name as manuscript.toml writes it; its place among the tracks of a phrase; who plays ("line",
"trio", "both"); whether a click goes with the line; whether every second round is left to the reader;
whether one track goes through all the keys; whether its end joins its beginning; what titles call it; which
players are left out.
"""

from __future__ import annotations

from types import MappingProxyType
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
    without: tuple[str, ...] = ()


KINDS: tuple[KindRow, ...] = (
    KindRow("demonstration", 1, "both", False, False, False, False, "demonstration"),
    KindRow("play-along", 2, "trio", False, False, False, False, "play-along"),
    KindRow("line", 3, "line", False, False, False, False, "line alone"),
    KindRow("click", 4, "line", True, False, False, False, "line with click"),
    KindRow("call-and-answer", 5, "both", False, True, False, False, "call and answer"),
    KindRow("twelve-keys", 6, "both", False, False, True, False, "all keys in a row"),
    KindRow("loop", 7, "trio", False, False, False, True, "loop"),
    KindRow("no-bass", 8, "trio", False, False, False, False, "without bass", ("bass",)),
    KindRow("no-piano", 9, "trio", False, False, False, False, "without piano", ("comping",)),
    KindRow("no-drums", 10, "trio", False, False, False, False, "without drums", ("drums",)),
    KindRow("bass-alone", 11, "trio", False, False, False, False, "bass alone", ("comping", "drums")),
    KindRow("piano-alone", 12, "trio", False, False, False, False, "piano alone", ("bass", "drums")),
    KindRow("drums-alone", 13, "trio", False, False, False, False, "drums alone", ("bass", "comping")),
)

PLACES = "0123456789abcdefghij"
"""The place of a kind as one letter of a file's name, so that names sort."""

KIND_GROUPS = MappingProxyType({
    "minus-one": ("no-bass", "no-piano", "no-drums"),
    "stems": ("bass-alone", "piano-alone", "drums-alone"),
})  # fmt: skip
"""Names that stand for several kinds: the trio without one player in turn, and each player alone."""

TUNING = "tuning"
"""A track of its own, once in a book: the A that others tune to."""

TUNING_SECONDS, TUNING_MIDI, TUNING_PROGRAM = 8, 69, 75
"""The tuning note: A4 (ISO 16: 440 Hz) on General MIDI's pan flute, counted from 0: of seventeen sounds of
both fonts one of the steadiest, within 0.5 cents over its length (the clarinet wavers by 6), and hardly more
than its fundamental. What a font is off is bent away (`sound.tuning_note`)."""

TUNING_HERTZ = 440.0

LADDER = (60, 80, 100)
"""Slow, medium and goal, in hundredths of the phrase's tempo (common practice)."""

BRUSHED_FEEL = "ballad"
"""The feel whose drums are played where brushes are asked for."""

PLAY_ALONG = "play-along"
"""The kind of whose stems those without a player are mixed."""
