"""When the notes of a track sound, so that the page can follow it.

The page plays a track as the file that it is. Where its rounds begin, and when each note of the line is
struck and let go, is told by the arrangement that it was made of, played by the same dice.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from shedbook.book.practice.inputs import TimedInput
from shedbook.book.practice.played import rounds_of, struck_notes
from shedbook.book.tracks.orders import SoundInput
from shedbook.book.tracks.worker import told_order
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import arrange
from shedbook.sound.players.band_chart import ENDING
from shedbook.sound.score.performance import perform, to_ticks
from shedbook.sound.score.written_score import LINE, Score
from shedbook.theory.key import Key

Json = dict[str, Any]


def time_tracks(given: TimedInput) -> list[Json]:
    """Return of each track when it is counted in, when its rounds begin and its notes sound.

    Everything is in milliseconds from the beginning of the track. `notes` are, for each round, a flat row:
    when a note is struck, counted from the round's beginning, when it is let go, and which struck note of the
    phrase it is.

    Raises:
        ReadError: if the phrase cannot be read; its place is not known.
    """
    phrase = given.text.phrase()
    return [_timed(in_key(phrase, Key.parse(one.keys[0])), one) for one in given.tracks]


def _timed(phrase: Phrase, given: SoundInput) -> Json:
    told = told_order(given, (phrase,))
    # With the line, whoever is left out of the track: what it would play is what the reader plays.
    score = arrange(phrase, told if told.parts == "line" else replace(told, parts="both"))
    performance = perform(score, seed=told.seed)
    line = next(part for part in performance.parts if part.player == LINE)

    def ms(tick: int) -> int:
        return round(1000 * performance.seconds_at(tick))

    starts = rounds_of(score)
    return {
        "bar": ms(to_ticks(phrase.metre.bar_quarters)),
        "rounds": [ms(to_ticks(one)) for one in (*starts, _end(score))],
        "notes": [
            [
                number
                for note, index in zip(line.notes, struck_notes(line.notes, phrase, (start,)), strict=True)
                if index >= 0
                for number in (ms(note.start) - ms(to_ticks(start)), ms(note.end - note.start), index)
            ]
            for start in starts
        ],
    }


def _end(score: Score) -> Fraction:
    """Return where the last round is over: where the ending begins, or the track ends."""
    return next((sign.start for sign in score.signs if sign.text == ENDING), score.quarters)
