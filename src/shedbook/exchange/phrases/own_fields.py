"""What a MusicXML file of shedbook holds besides the notes: written as named texts, and read again.

Notation has no place for the author's own changes, chord scales, commentary and the like. They stand in the
fields that `ground.tables.own_fields` lists. A reader takes a field only as far as it still fits the notes,
because another program may have changed them.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.editions.transpose import transpose
from shedbook.errors import ReadError, ShedbookError
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.tables.own_fields import (
    CHANGES,
    COMMENTARY,
    FOLD,
    ID,
    JOINED_RESTS,
    KEY,
    KEY_INFERRED,
    LINKS,
    SCALES,
    SILENCE,
)
from shedbook.phrase.changes_text import parse_changes, parse_scales, print_changes, print_scales
from shedbook.phrase.fields import read_links
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key

_JOINED_REST = re.compile(r"([0-9]{1,5})@([0-9]{1,5}(?:/[1-9][0-9]{0,5})?):([0-9]{1,3})")
"""One rest of several values: its bar, its place in quarters from the start of the bar, how many values."""


def own_fields(phrase: Phrase, links: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Yield the name and the text of each field that a phrase needs.

    Args:
        phrase: the phrase, its key called as its author calls it.
        links: names and web addresses that belong to the phrase.
    """
    yield CHANGES, print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    scales = print_scales(phrase.scales, phrase.changes, phrase.full_bars)
    if scales:
        yield SCALES, scales
    yield KEY, str(phrase.key)
    if phrase.key_inferred:
        yield KEY_INFERRED, "yes"
    if phrase.id:
        yield ID, phrase.id
    if phrase.commentary:
        yield COMMENTARY, phrase.commentary
    if phrase.fold is not None:
        yield FOLD, "yes" if phrase.fold else "no"
    rests = _print_joined_rests(phrase.bars)
    if rests:
        yield JOINED_RESTS, rests
    if links:
        yield LINKS, json.dumps(dict(links), ensure_ascii=False)
    for rule, reason in phrase.silence:
        yield SILENCE + rule, reason


def with_own_fields(phrase: Phrase, kept: Mapping[str, str], reporter: Reporter, *, keyed: bool) -> Phrase:
    """Return a phrase with what the fields of its file say, as far as that still fits the notes.

    Args:
        phrase: the phrase as the notation says it.
        kept: the texts of the fields by their names.
        reporter: told when scales and home key no longer fit the chords.
        keyed: whether the caller has chosen the key, so that the key of the file is not taken.
    """
    silence = tuple(
        (name.removeprefix(SILENCE), text.strip()) for name, text in kept.items() if name.startswith(SILENCE)
    )
    phrase = replace(
        phrase, commentary=kept.get(COMMENTARY, "").strip(), id=kept.get(ID, "").strip(), silence=silence
    )
    if kept.get(FOLD) in ("yes", "no"):
        phrase = replace(phrase, fold=kept[FOLD] == "yes")
    if JOINED_RESTS in kept:
        phrase = replace(phrase, bars=_with_rests_joined(phrase.bars, kept[JOINED_RESTS]))
    if CHANGES not in kept:
        return phrase
    try:
        return _with_harmony(phrase, kept, keyed=keyed)
    except (ReadError, ValueError):
        reporter.note("scales and home key are left out, for the chords are no longer those they went with")
        return phrase


def links_of(text: str, reporter: Reporter) -> tuple[tuple[str, str], ...]:
    """Return the names and web addresses in the field of links.

    Args:
        text: the text of the field, a JSON object; "" for none.
        reporter: told when the text cannot be read. Then there are no links.
    """
    if not text.strip():
        return ()
    try:
        return read_links(json.loads(text))
    except (ShedbookError, ValueError, RecursionError):
        reporter.note("the links cannot be read and are left out")
        return ()


def _with_harmony(phrase: Phrase, kept: Mapping[str, str], *, keyed: bool) -> Phrase:
    """Return the phrase with the author's changes, scales and key.

    Raises:
        ValueError: if the changes are not those of the notes.
        ReadError: if one of the fields cannot be read.
    """
    own = parse_changes(kept[CHANGES], phrase.metre)
    wanted = [_meaning(change) for change in own.changes]
    # A part for a transposing instrument may spell as Cb what its author spelled as B.
    named = (transpose(phrase, Interval(letters, 0)) if letters else phrase for letters in (0, -1, 1))
    called = next((one for one in named if [_meaning(change) for change in one.changes] == wanted), None)
    if own.bars != phrase.full_bars or called is None:
        raise ValueError("other changes")
    phrase, changes = called, own.changes
    scales = phrase.scales
    if kept.get(SCALES, "").strip():
        scales = parse_scales(kept[SCALES], changes, own.bars)
    found = replace(phrase, changes=changes, scales=scales)
    if keyed or KEY not in kept:
        return found
    return replace(found, key=Key.parse(kept[KEY].strip()), key_inferred=kept.get(KEY_INFERRED) == "yes")


def _meaning(change: ChangeAt) -> tuple[int, Fraction, Chord]:
    """Return the bar, the beat and the tones of a change, without the way in which its symbol is typed."""
    return change.bar, change.beat, replace(change.chord, text="", altered=False)


def _print_joined_rests(bars: Sequence[Bar]) -> str:
    """Return the list of all rests of several values, such as "3@5/2:2"; "" where there are none.

    Such a rest is one event for the author, but several rests in notation, which ties notes only.
    """
    found = []
    for bar in bars:
        place = Fraction(0)
        for event in bar.events:
            if event.pitch is None and len(event.values) > 1:
                found.append(f"{bar.number}@{place}:{len(event.values)}")
            place += event.quarters
    return " ".join(found)


def _with_rests_joined(bars: Sequence[Bar], text: str) -> tuple[Bar, ...]:
    """Return bars in which the rests of a list are joined, wherever so many still follow one another."""
    named = {
        (int(match[1]), Fraction(match[2])): int(match[3])
        for word in text.split()
        if (match := _JOINED_REST.fullmatch(word)) is not None
    }
    return tuple(_joined(bar, named) if any(at[0] == bar.number for at in named) else bar for bar in bars)


def _joined(bar: Bar, named: Mapping[tuple[int, Fraction], int]) -> Bar:
    """Return a bar in which each named rest is one event; `named` maps bar and place to how many rests."""
    events: list[Event] = []
    place, index = Fraction(0), 0
    while index < len(bar.events):
        event = bar.events[index]
        row = bar.events[index : index + max(1, named.get((bar.number, place), 1))]
        if len(row) > 1 and all(one.pitch is None for one in row):
            event = replace(event, values=tuple(value for one in row for value in one.values))
        else:
            row = row[:1]
        events.append(event)
        place += event.quarters
        index += len(row)
    return replace(bar, events=tuple(events))
