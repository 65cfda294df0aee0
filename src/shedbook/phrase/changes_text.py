"""Changes and chord scales as text: read, and printed in the normal form.

    changes   Dm7b5 G7b9@4 | Cm6 | %          bars divided by |, chords by white space
    scales    locrian, half-whole diminished | melodic minor | %

The chords of a bar share it evenly where each then starts on a beat. Otherwise all but the first name their
beat: "G7@4", "G7@4.5" or "G7@4+2/3". In a bar whose first chord starts later, the chord before goes on until
then. "%" repeats the bar before, in changes and in scales.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from shedbook.errors import ChordSymbolError, NotationError, Place, UnknownNameError, shown
from shedbook.phrase.model import ChangeAt
from shedbook.phrase.other_ways import meant_chord
from shedbook.theory import scale as scale_table
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre, beat_words
from shedbook.theory.scale import Scale

REPEAT = "%"

_WORD = re.compile(r"\S+")
_BEAT = re.compile(r"([0-9]{1,2})(?:\.([0-9]{1,4})|\+([1-9][0-9]?)/([1-9][0-9]?))?")
_BEAT_HINT = 'Write the beat as "G7@4", "G7@4.5" or "G7@4+2/3".'


class Changes(NamedTuple):
    """The changes of a phrase, and the number of bars that they have."""

    changes: tuple[ChangeAt, ...]
    bars: int


class _Written(NamedTuple):
    """A chord as it is written: its beat, or None where it names none, and its offsets in the text."""

    chord: Chord
    beat: Fraction | None
    start: int
    end: int


def parse_changes(text: str, metre: Metre) -> Changes:
    """Read the text of changes, in which a bar line may stand at the very start and end.

    Args:
        text: the changes.
        metre: the metre of every bar.

    Raises:
        NotationError: if bars or beats cannot be read, with offsets into `text` and the bar as its place.
        ChordSymbolError: if a chord symbol cannot be read, with the same.
    """
    if not text.strip(" \t\r\n|"):
        raise NotationError("The changes are empty.", hint='Write a chord for each bar: "Dm7 | G7 | C6".')
    found: list[ChangeAt] = []
    before: tuple[ChangeAt, ...] = ()
    number = 0
    for number, (start, bar_text) in enumerate(_bars(text), start=1):
        if bar_text.strip() == REPEAT:
            if number == 1:
                raise _nothing_to_repeat(start + bar_text.index(REPEAT))
            before = tuple(ChangeAt(number, change.beat, change.chord) for change in before)
        else:
            before = _read_bar(bar_text, start, number, metre)
        found.extend(before)
    return Changes(tuple(found), number)


def _bars(text: str) -> Iterator[tuple[int, str]]:
    """Yield the offset and the text of each bar; a bar line at the very start or end is passed over."""
    parts, start = text.split("|"), 0
    last = len(parts) - 1
    for index, part in enumerate(parts):
        if part.strip() or index not in (0, last):
            yield start, part
        start += len(part) + 1


def _nothing_to_repeat(start: int) -> NotationError:
    return NotationError(
        "Bar 1 repeats a bar before it, but there is none.",
        hint='"%" repeats the whole bar before. Write what belongs in bar 1.',
        start=start,
        end=start + 1,
        place=Place(bar=1),
    )


def _read_bar(text: str, start: int, number: int, metre: Metre) -> tuple[ChangeAt, ...]:
    """Read the chords of one bar."""
    written, before = [], ""
    for word in _WORD.finditer(text):
        written.append(_read_chord(word, start, number, before))
        before = word.group()
    end = start + max(1, len(text))
    if not written:
        raise NotationError(
            f"Bar {number} has no chord.",
            hint='Write a chord symbol, "%" to repeat the bar before, or "N.C." for no chord.',
            start=start,
            end=end,
            place=Place(bar=number),
        )
    beats = _even_beats(len(written), metre)
    if any(chord.beat is not None for chord in written):
        beats = _said_beats(written, number, metre)
    if beats is None:
        raise NotationError(
            f"{len(written)} chords do not share the {metre.beats} beats of {metre} evenly.",
            hint=f'Say on which beat each one after the first starts: "{_example(written, metre)}".',
            start=written[0].start,
            end=written[-1].end,
            place=Place(bar=number),
        )
    if number == 1 and beats[0] != 1:
        raise NotationError(
            f"Bar 1 has no chord on beat 1: {written[0].chord.text} starts on beat {beat_words(beats[0])}.",
            hint='Begin with a chord, or with "N.C." where none sounds.',
            start=written[0].start,
            end=written[0].end,
            place=Place(bar=1, beat="1"),
        )
    return tuple(ChangeAt(number, beat, chord.chord) for beat, chord in zip(beats, written, strict=True))


def _read_chord(word: re.Match[str], start: int, number: int, before: str = "") -> _Written:
    """Read "G7" or "G7@4"."""
    symbol, at, beat_text = word.group().partition("@")
    word_start, word_end = start + word.start(), start + word.end()
    place = Place(bar=number)
    if symbol == REPEAT:
        raise NotationError(
            '"%" repeats a whole bar and stands alone in its own.',
            hint="Write out the chords of this bar.",
            start=word_start,
            end=word_end,
            place=place,
        )
    try:
        chord = parse_chord(symbol)
    except ChordSymbolError as error:
        known = meant_chord(symbol, before)
        if known is not None:
            raise ChordSymbolError(
                known.message, hint=known.hint, start=word_start, end=word_end, place=place
            ) from None
        raise error.moved(word_start, place=place) from None
    if not at:
        return _Written(chord, None, word_start, word_end)
    found = _BEAT.fullmatch(beat_text)
    if found is None or found[4] == "0":
        raise NotationError(
            f'"{shown(beat_text)}" is not a beat.' if beat_text else "The beat is missing.",
            hint=_BEAT_HINT,
            start=word_start + len(symbol),
            end=word_end,
            place=place,
        )
    whole, decimals, over, under = found.groups()
    beat = Fraction(f"{whole}.{decimals}") if decimals else Fraction(int(whole))
    return _Written(chord, beat + Fraction(int(over or 0), int(under or 1)), word_start, word_end)


def _even_beats(count: int, metre: Metre) -> tuple[Fraction, ...] | None:
    """Return the beats of chords that share a bar evenly, or None where they do not all start on beats."""
    if metre.beats % count:
        return None
    step = metre.beats // count
    return tuple(Fraction(1 + index * step) for index in range(count))


def _said_beats(written: Sequence[_Written], number: int, metre: Metre) -> tuple[Fraction, ...]:
    """Return the beats that the author wrote. Only the first chord may leave its beat out."""
    beats: list[Fraction] = []
    for chord in written:
        beat = Fraction(1) if chord.beat is None and not beats else chord.beat
        message = ""
        if beat is None:
            message = (
                f"{chord.chord.text} does not say on which beat it starts, though others of bar {number} do."
            )
        elif not 1 <= beat < metre.beats + 1:
            message = f"{metre} has no beat {beat_words(beat)}."
        elif beats and beat <= beats[-1]:
            message = f"{chord.chord.text} starts no later than the chord before it."
        if message or beat is None:
            raise NotationError(
                message,
                hint=f"{_BEAT_HINT} Beats count from 1 to {metre.beats}, in order.",
                start=chord.start,
                end=chord.end,
                place=Place(bar=number),
            )
        beats.append(beat)
    return tuple(beats)


def _example(written: Sequence[_Written], metre: Metre) -> str:
    """Return the chords of a bar with beats, as an example for the author."""
    first, *rest = (chord.chord.text for chord in written)
    step = max(Fraction(1, 2), Fraction(metre.beats // len(written)))
    return " ".join([first, *(f"{text}@{print_beat(1 + step * at)}" for at, text in enumerate(rest, 1))])


def print_beat(beat: Fraction) -> str:
    """Return a beat as the text of changes writes it: "4", "4.5" or "4+2/3"."""
    whole, rest = divmod(beat, 1)
    if not rest:
        return str(whole)
    for places in (1, 2, 3, 4):
        decimals = rest * 10**places
        if decimals.denominator == 1:
            return f"{whole}.{decimals.numerator:0{places}d}"
    return f"{whole}+{rest}"


def print_changes(changes: Sequence[ChangeAt], bars: int, metre: Metre) -> str:
    """Return changes as text in the normal form, in which "%" stands for a bar like the one before.

    The text has no way to say that no chord starts in a bar. Such a bar is written with the chord that goes
    on.

    Args:
        changes: the changes in order.
        bars: the number of bars.
        metre: the metre of every bar.
    """
    parts: list[str] = []
    before, goes_on = "", ""
    for group in _by_bar(changes, bars):
        text = _print_bar(group, metre) if group else goes_on
        parts.append(REPEAT if text == before and parts else text)
        before = text
        if group:
            goes_on = group[-1].chord.text
    return " | ".join(parts)


def _by_bar(changes: Sequence[ChangeAt], bars: int) -> list[list[ChangeAt]]:
    """Return the changes of each bar."""
    groups: list[list[ChangeAt]] = [[] for _ in range(bars)]
    for change in changes:
        groups[change.bar - 1].append(change)
    return groups


def _print_bar(group: Sequence[ChangeAt], metre: Metre) -> str:
    """Return the chords of one bar as text."""
    if tuple(change.beat for change in group) == _even_beats(len(group), metre):
        return " ".join(change.chord.text for change in group)
    return " ".join(
        change.chord.text
        if index == 0 and change.beat == 1
        else f"{change.chord.text}@{print_beat(change.beat)}"
        for index, change in enumerate(group)
    )


# Scales


def parse_scales(text: str, changes: Sequence[ChangeAt], bars: int) -> tuple[Scale | None, ...]:
    """Read the scales that go with changes: one for each change, or None where the program chooses.

    Over the chords of its own bar "%" repeats the scales of the bar before. A bar that is left empty leaves
    all its chords to the program.

    Args:
        text: the scales.
        changes: the changes in order.
        bars: the number of bars.

    Raises:
        NotationError: if a scale cannot be read, or bars or chords do not match, with offsets into `text` and
            the bar as its place.
    """
    found: list[Scale | None] = []
    before: tuple[int, str] | None = None
    for number, ((start, bar_text), group) in enumerate(
        zip(_scale_bars(text, bars), _by_bar(changes, bars), strict=True), start=1
    ):
        source = (start, bar_text)
        if bar_text.strip() == REPEAT:
            if before is None:
                raise _nothing_to_repeat(start + bar_text.index(REPEAT))
            source = before
        found.extend(_read_scales(source[1], source[0], group, number))
        before = source
    return tuple(found)


def _scale_bars(text: str, bars: int) -> list[tuple[int, str]]:
    """Return the offset and the text of each bar; a bar line too many at the start or end is passed over."""
    parts, start = [], 0
    for part in text.split("|"):
        parts.append((start, part))
        start += len(part) + 1
    for end in (-1, 0):
        if len(parts) > bars and len(parts) > 1 and not parts[end][1].strip():
            del parts[end]
    if len(parts) != bars:
        said = f"The scales have {len(parts)} {_bars_word(len(parts))}, the changes {bars}."
        raise NotationError(
            said,
            hint='Write a place for each bar, divided by "|"; leave it empty where the program may choose.',
            start=0,
            end=max(1, len(text)),
            place=Place(bar=min(len(parts), bars) + 1),
        )
    return parts


def _bars_word(count: int) -> str:
    return "bar" if count == 1 else "bars"


def _read_scales(text: str, start: int, group: Sequence[ChangeAt], number: int) -> tuple[Scale | None, ...]:
    """Read the scales of one bar."""
    if not text.strip():
        return (None,) * len(group)
    names = text.split(",")
    if len(names) != len(group):
        chords = "chord" if len(group) == 1 else "chords"
        raise NotationError(
            f"Bar {number} has {len(group)} {chords}, but scales for {len(names)}.",
            hint="Divide the scales of one bar by commas, one place for each chord.",
            start=start,
            end=start + len(text),
            place=Place(bar=number),
        )
    found = []
    for name, change in zip(names, group, strict=True):
        found.append(_read_scale(name, start, change))
        start += len(name) + 1
    return tuple(found)


def _read_scale(text: str, start: int, change: ChangeAt) -> Scale | None:
    """Read the scale for one chord, or None where its place is empty."""
    name = text.strip()
    if not name:
        return None
    try:
        return scale_table.parse_scale(name, root=change.chord.root)
    except UnknownNameError as error:
        start += text.index(name)
        raise NotationError(
            error.message,
            hint=error.hint or 'The scales are listed by "shedbook scale".',
            start=start,
            end=start + len(name),
            place=Place(bar=change.bar, beat=beat_words(change.beat)),
        ) from None


def print_scales(scales: Sequence[Scale | None], changes: Sequence[ChangeAt], bars: int) -> str:
    """Return scales as text in the normal form; "" where the program chooses them all.

    "%" stands for a bar whose chords and scales are those of the bar before.

    Args:
        scales: the scale of each change, or None.
        changes: the changes in order.
        bars: the number of bars.
    """
    if not any(scales):
        return ""
    pairs = iter(zip(changes, scales, strict=True))
    parts: list[str] = []
    before: tuple[str, list[tuple[Fraction, str]]] | None = None
    for group in _by_bar(changes, bars):
        names = ", ".join(_print_scale(scale, change) for change, scale in (next(pairs) for _ in group))
        text = names if names.strip(", ") else ""
        this = (text, [(change.beat, change.chord.text) for change in group])
        parts.append(REPEAT if text and this == before else text)
        before = this
    return " ".join(" | ".join(parts).split())


def _print_scale(scale: Scale | None, change: ChangeAt) -> str:
    """Return a scale as text, with its root where that is not the root of the chord."""
    if scale is None:
        return ""
    return scale.name if scale.root == change.chord.root else str(scale)
