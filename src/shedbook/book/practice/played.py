"""A phrase as the band plays it in each of its keys, as numbers for the page.

The performance is the one of the demonstration track. It is played at several tempos, note for note the same:
where a note falls in its beat depends on the tempo (swing, lying back), and between two tempos the page goes
evenly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from shedbook.book.practice.inputs import PlayedInput
from shedbook.book.scores.placing import keys_of
from shedbook.book.tracks.band import band_order
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.players.band_chart import ENDING, ROUND, SPACE
from shedbook.sound.players.drums import click
from shedbook.sound.score.performance import TICKS_A_QUARTER, PlayedNote, PlayedPart, perform, to_ticks
from shedbook.sound.score.swing import swing
from shedbook.sound.score.tables.mix import VOLUMES
from shedbook.sound.score.written_score import COUNT_IN, LINE, Score
from shedbook.sound.tables.clicks import CLICKS

Json = dict[str, Any]

TEMPOS = (100, 40, 70, 120)
"""At which tempos a phrase is played, in hundredths of its own; its own comes first."""
_CONCERT = edition_named("concert")
_BACKBEAT = CLICKS[1]
_DRUM_CHANNEL = 9
"""The tenth channel, counted from 0 [General MIDI 1]."""


def play_phrase(given: PlayedInput) -> Json:
    """Return a phrase as it is played in each of its keys.

    Raises:
        ReadError: if the phrase cannot be read; its place is not known.
    """
    phrase = given.text.phrase()
    keys = keys_of(phrase, given.keys, _CONCERT).wanted
    bar = phrase.metre.bar_quarters
    clicked = [to_ticks(one.start) for one in click(phrase.metre, Fraction(0), bar, _BACKBEAT)]
    return {
        "quarter": TICKS_A_QUARTER,
        "bar": to_ticks(bar),
        "beat": to_ticks(phrase.metre.beat_quarters),
        "bars": phrase.full_bars,
        "tempos": list(TEMPOS),
        "clicked": clicked,
        "off": [round(float(one), 4) for one in _off_beats(phrase, given)],
        "struck": [[to_ticks(one.start), to_ticks(one.quarters)] for one in sounding_notes(phrase)],
        "keys": [_in_key(in_key(phrase, key.concert), given) for key in keys],
    }


def _off_beats(phrase: Phrase, given: PlayedInput) -> list[Fraction]:
    """Return where the second eighth of a beat falls at each tempo, as a share of the beat."""
    score = arrange(phrase, replace(_order(given), parts="line", rounds=1))
    return [swing(score.feel, _at(score, share).tempo_qpm).off_beat for share in TEMPOS]


def _order(given: PlayedInput) -> Order:
    """Return what the players of the demonstration track are told."""
    return replace(band_order(given.sound), rounds=given.sound.rounds)


def _in_key(phrase: Phrase, given: PlayedInput) -> Json:
    order = _order(given)
    score = arrange(phrase, order)
    ways = [perform(_at(score, share), seed=order.seed) for share in TEMPOS]
    first = ways[0]
    starts = rounds_of(score)
    return {
        "key": str(phrase.key),
        "us": first.tempo_us,
        "counted": first.band_tick,
        "ticks": first.ticks,
        "signs": [[to_ticks(sign.start), sign.text] for sign in first.signs if sign.text in _PASSAGES],
        "parts": [
            _part([way.parts[place] for way in ways], phrase, starts) for place in range(len(first.parts))
        ],
    }


def _part(ways: Sequence[PlayedPart], phrase: Phrase, rounds: Sequence[Fraction]) -> Json:
    """Return what a player plays, in columns; `ways` are the same notes at each tempo."""
    part, *others = ways
    found: Json = {
        "player": part.player,
        "instrument": part.name,
        "program": part.program,
        "drums": part.channel == _DRUM_CHANNEL,
        "volume": VOLUMES[part.player],
        "pan": part.pan,
        "midi": [note.midi for note in part.notes],
        "velocity": [note.velocity for note in part.notes],
        "length": [note.end - note.start for note in part.notes],
        "start": _steps([note.start for note in part.notes]),
        "later": [
            [one.start - note.start for one, note in zip(other.notes, part.notes, strict=True)]
            for other in others
        ],
    }
    if part.player == LINE:
        found["struck"] = struck_notes(part.notes, phrase, rounds)
    return found


def _at(score: Score, share: int) -> Score:
    return replace(score, tempo_qpm=score.tempo_qpm * share / 100)


def _steps(ticks: Sequence[int]) -> list[int]:
    """Return each number as what it adds to the one before: small numbers, which are packed better."""
    return [tick - before for tick, before in zip(ticks, (0, *ticks), strict=False)]


_PASSAGES = frozenset((COUNT_IN, ROUND, SPACE, ENDING))


def rounds_of(score: Score) -> list[Fraction]:
    """Return where each round begins, in quarters from the first beat of the track."""
    return [sign.start for sign in score.signs if sign.text == ROUND]


def struck_notes(notes: Sequence[PlayedNote], phrase: Phrase, rounds: Sequence[Fraction]) -> list[int]:
    """Return for each note of the line which struck note of the phrase it is, -1 for a grace note."""
    due = [
        (to_ticks(start + one.start), one.pitch.midi, index)
        for start in rounds
        for index, one in enumerate(sounding_notes(phrase))
    ]
    found = [-1] * len(notes)
    for tick, midi, index in due:
        near = [
            (abs(note.start - tick), place)
            for place, note in enumerate(notes)
            if note.midi == midi and abs(note.start - tick) < TICKS_A_QUARTER and found[place] < 0
        ]
        if near:
            found[min(near)[1]] = index
    return found
