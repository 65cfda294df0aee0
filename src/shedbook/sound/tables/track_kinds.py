"""The kinds of tracks.

Row format: name as manuscript.toml writes it; its place among the tracks of a phrase; who plays ("line",
"trio", "both"); what titles call it; then, where they hold: whether a click goes with the line; whether every
second round is left to the reader; whether one track goes through all the keys; whether its end joins its
beginning; which players are left out; of which excerpts there is a track each ("bar" or "link"); whether it
grows faster; whether it is a stem, as loud as in the whole.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple


class KindRow(NamedTuple):
    """One kind of track."""

    name: str
    place: int
    parts: str
    title: str
    click: bool = False
    answers: bool = False
    all_keys: bool = False
    loop: bool = False
    without: tuple[str, ...] = ()
    excerpt: str = ""
    ramp: bool = False
    stem: bool = False


BAR, LINK = "bar", "link"
"""Excerpts: each bar; each crossing into another chord or bar, with the bars on either side."""

KINDS: tuple[KindRow, ...] = (
    KindRow("demonstration", 1, "both", "demonstration"),
    KindRow("play-along", 2, "trio", "play-along"),
    KindRow("line", 3, "line", "line alone"),
    KindRow("click", 4, "line", "line with click", click=True),
    KindRow("call-and-answer", 5, "both", "call and answer", answers=True),
    KindRow("twelve-keys", 6, "both", "all keys in a row", all_keys=True),
    KindRow("loop", 7, "trio", "loop", loop=True),
    KindRow("no-bass", 8, "trio", "without bass", without=("bass",)),
    KindRow("no-piano", 9, "trio", "without piano", without=("comping",)),
    KindRow("no-drums", 10, "trio", "without drums", without=("drums",)),
    KindRow("bass-alone", 11, "trio", "bass alone", without=("comping", "drums")),
    KindRow("piano-alone", 12, "trio", "piano alone", without=("bass", "drums")),
    KindRow("drums-alone", 13, "trio", "drums alone", without=("bass", "comping")),
    KindRow("ramp", 14, "trio", "faster from round to round", ramp=True),
    KindRow("bar-loop", 15, "both", "loop of", loop=True, excerpt=BAR),
    KindRow("link-loop", 16, "both", "loop of", loop=True, excerpt=LINK),
    KindRow("stem-line", 17, "both", "stem of the line", without=("bass", "comping", "drums"), stem=True),
    KindRow("stem-bass", 18, "both", "stem of the bass", without=("line", "comping", "drums"), stem=True),
    KindRow("stem-piano", 19, "both", "stem of the piano", without=("line", "bass", "drums"), stem=True),
    KindRow("stem-drums", 20, "both", "stem of the drums", without=("line", "bass", "comping"), stem=True),
)

PLACES = "0123456789abcdefghijk"
"""The place of a kind as one letter of a file's name, so that names sort."""

KIND_GROUPS = MappingProxyType({
    "minus-one": ("no-bass", "no-piano", "no-drums"),
    "alone": ("bass-alone", "piano-alone", "drums-alone"),
    "stems": ("stem-line", "stem-bass", "stem-piano", "stem-drums"),
})  # fmt: skip
"""Names that stand for several kinds: the trio without one player in turn, each player alone, and the
players of the demonstration by themselves, which laid over one another are the demonstration."""

TUNING = "tuning"
"""A track of its own, once in a book: the A that others tune to."""

TUNING_SECONDS, TUNING_MIDI, TUNING_PROGRAM = 8, 69, 75
"""The tuning note: A4 (ISO 16: 440 Hz) on General MIDI's pan flute, counted from 0: of seventeen sounds of
both fonts one of the steadiest, within 0.5 cents over its length (the clarinet wavers by 6), and hardly more
than its fundamental. What a font is off is bent away (`sound.tuning_note`)."""

TUNING_HERTZ = 440.0

RAMP = "60% to 100% by 5%"
"""How a track grows faster where nobody says: a step a round, in per cent of the phrase's tempo."""

LADDER = (60, 80, 100)
"""Slow, medium and goal, in hundredths of the phrase's tempo (common practice)."""

BRUSHED_FEEL = "ballad"
"""The feel whose drums are played where brushes are asked for."""
