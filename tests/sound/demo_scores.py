"""What the tests of the players share: the demo phrases, phrases from text, one player's part."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.players.band_chart import ROUND, Chart, Passage, Stretch
from shedbook.sound.score.written_score import Part, PartNote, Score
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre
from shedbook.theory.scale import parse_scale

_BOOK = Path(__file__).parents[2] / "examples" / "tidewater"


@lru_cache(maxsize=1)
def demo() -> tuple[Phrase, ...]:
    return tuple(read_phrase(source) for source in open_manuscript(_BOOK).phrases)


@lru_cache(maxsize=1)
def demo_in_keys() -> tuple[Phrase, ...]:
    """Every phrase in one key, and all twelve keys, each for seven of the 84 phrases."""
    return tuple(in_key(phrase, key_cycle(phrase.key)[index % 12]) for index, phrase in enumerate(demo()))


@lru_cache(maxsize=4096)
def score(phrase: Phrase, order: Order) -> Score:
    return arrange(phrase, order)


def phrase(changes: str, line: str, **more: object) -> Phrase:
    return phrase_from_fields({"title": "A test", "changes": changes, "line": line, **more})


def part(found: Score, player: str) -> Part:
    return next(one for one in found.parts if one.player == player)


def notes(found: Score, player: str) -> tuple[PartNote, ...]:
    return part(found, player).notes


def chart(
    bars: str,
    *,
    scales: tuple[str, ...] = (),
    feel: str = "swing",
    metre: str = "4/4",
    rounds: int = 1,
    loop: bool = False,
) -> Chart:
    """Return a chart of whole bars: "Dm7 | G7 | Cmaj7"."""
    time = Metre.parse(metre)
    chords = [parse_chord(text.strip()) for text in bars.split("|")]
    passages = []
    for number in range(rounds):
        start = number * len(chords) * time.bar_quarters
        stretches = tuple(
            Stretch(
                start + at * time.bar_quarters,
                start + (at + 1) * time.bar_quarters,
                chord,
                parse_scale(scales[at], root=chord.root) if scales else None,
            )
            for at, chord in enumerate(chords)
        )
        passages.append(Passage(ROUND, number, start, len(chords), stretches))
    return Chart(time, feel_named(feel), Fraction(140), tuple(passages), loop)


def from_bar_one(found: Score, player: str) -> tuple[PartNote, ...]:
    """Return what a player plays, counted from bar 1 of the first round."""
    start = next(sign.start for sign in found.signs if sign.text.endswith(ROUND))
    return tuple(replace(note, start=note.start - start) for note in notes(found, player))
