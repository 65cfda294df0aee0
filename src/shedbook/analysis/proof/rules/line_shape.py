"""Rules on the shape of the line: leaps over a bar line, and how low, high and wide it goes."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.melodic_links import BAR_LINE, CHANGE, Link
from shedbook.analysis.naming.spoken_names import interval_words, pitch_words
from shedbook.analysis.proof.finding import Found, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule

_LOWEST_MIDI, _HIGHEST_MIDI = 36, 96
"""C2 and C7: beyond them a line lies in an extreme register [the project's design]."""

_WIDEST = 31
"""Two octaves and a fifth, in half steps: most instruments play no more with ease [common practice]."""

_AWKWARD, _OCTAVE = (10, 11), 12
_AWKWARD_UNLESS_RECOVERED = (6, 8, 9)
"""Sizes of awkward leaps in half steps; a tritone or a sixth is one only where no step back follows."""


@phrase_rule(
    RuleRow(
        "leap-over-bar-line",
        "advice",
        "An awkward leap crosses a bar line.",
        "Move one of the two notes by an octave, or fill the leap.",
        fires=Example(
            "Dm7 | G7", "1/4 d4 f a d4 | b4 d5 c5 b4", "dorian | mixolydian", edit="raise the second bar"
        ),
        silent=Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4", "dorian | mixolydian"),
        source="common practice",
    )
)
def leap_over_bar_line(account: Account) -> Iterator[Found]:
    """Find awkward leaps into a bar, without a rest between."""
    recovered = {leap.first: leap.recovered for leap in account.contour.leaps}
    seen = set()
    for link in account.links:
        if link.semitones is None or link.before is None or link.before in seen or link.held is not None:
            continue
        if not (link.kind == BAR_LINE or (link.kind == CHANGE and link.beat == 1)):
            continue
        seen.add(link.before)
        size = abs(link.semitones)
        awkward = size in _AWKWARD or size > _OCTAVE
        awkward = awkward or (size in _AWKWARD_UNLESS_RECOVERED and not recovered[link.before])
        if awkward and account.notes[link.before].joined:
            yield _leap(account, link)


def _leap(account: Account, link: Link) -> Found:
    before, after = account.notes[link.before or 0], account.notes[link.after or 0]
    size = interval_words(link.semitones or 0)
    way = "up" if after.midi > before.midi else "down"
    message = f"The line leaps {way} {size} over the bar line, {pitch_words(before.pitch)} to "
    return found_at(after, message + f"{pitch_words(after.pitch)}.")


@phrase_rule(
    RuleRow(
        "range",
        "warning",
        "The line lies in an extreme register, or spans more than most instruments play with ease.",
        "Move the phrase, or part of it, by an octave.",
        fires=Example("Dm7", "1/4 d1 f4 a4 c5", "dorian"),
        silent=Example("Dm7", "1/4 d4 f4 a4 c5", "dorian"),
        source="common practice",
    )
)
def range(account: Account) -> Iterator[Found]:
    """Find the lowest and the highest note where they are extreme, and a line that spans too much."""
    shape = account.contour
    if shape.highest is None or shape.lowest is None:
        return
    low, high = account.notes[shape.lowest], account.notes[shape.highest]
    for note, extreme in ((low, low.midi < _LOWEST_MIDI), (high, high.midi > _HIGHEST_MIDI)):
        if extreme:
            yield found_at(note, f"{note.pitch} lies in an extreme register.")
    if shape.range > _WIDEST:
        message = f"The line spans {shape.range} half steps, from {low.pitch} to {high.pitch}."
        yield found_at(high, message)
