"""When everything sounds in a track of the band: round by round, from what the players play."""

from __future__ import annotations

from fractions import Fraction

from shedbook.film.moments import BarAt, ChapterAt, Moments, Sounding
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.audio.rendering import frames_of
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.players.band_chart import ROUND
from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance, to_ticks
from shedbook.sound.score.written_score import COUNT_IN, LINE


def track_moments(phrase: Phrase, performance: Performance) -> Moments:
    """Return the times of a track in which a phrase is played in rounds, up to where its sound has died away.

    `performance` must have the line among its parts, whether or not it is heard. A chapter is called by the
    number of its round, that of the count-in by `COUNT_IN`.
    """
    played = next((part.notes for part in performance.parts if part.player == LINE), ())
    rounds = [sign.start for sign in performance.signs if sign.text == ROUND]
    seconds = frames_of(performance, tail=True) / RATE_HZ
    at = performance.seconds_at
    notes, bars = [], []
    left = list(played)
    for start in rounds:
        for index, note in enumerate(sounding_notes(phrase)):
            due = to_ticks(start + note.start)
            near = [
                one for one in left if one.midi == note.pitch.midi and abs(one.start - due) < TICKS_A_QUARTER
            ]
            if near:
                one = min(near, key=lambda one: abs(one.start - due))
                left.remove(one)
                notes.append(Sounding(index, at(one.start), at(one.end)))
        bars += [
            BarAt(bar.number, at(to_ticks(_bar_start(start, bar.number, phrase)))) for bar in phrase.bars
        ]
        bars.append(BarAt(0, at(to_ticks(start + phrase.full_bars * phrase.metre.bar_quarters))))
    chapters = [ChapterAt(at(to_ticks(start)), str(number)) for number, start in enumerate(rounds, 1)]
    if rounds and rounds[0] > 0:
        chapters.insert(0, ChapterAt(0.0, COUNT_IN))
    return Moments(
        tuple(sorted(notes, key=lambda note: note.start_s)), _in_order(bars), seconds, tuple(chapters)
    )


def _bar_start(start: Fraction, number: int, phrase: Phrase) -> Fraction:
    if number:
        return start + (number - 1) * phrase.metre.bar_quarters
    first = next((note.start for note in sounding_notes(phrase)), Fraction(0))
    return max(Fraction(0), start + min(Fraction(0), first))


def _in_order(bars: list[BarAt]) -> tuple[BarAt, ...]:
    """Return bars in the order of time; the end of a round gives way to a bar that begins with it."""
    starts = {round(bar.start_s, 4) for bar in bars if bar.number}
    kept = [bar for bar in bars if bar.number or round(bar.start_s, 4) not in starts]
    return tuple(sorted(kept, key=lambda bar: bar.start_s))
