"""A long line divided into phrases: at the places where its file divides it, and where its metre changes.

Every phrase that comes out has full bars, but for a pick-up, and a chord in every bar.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from shedbook.editions.transpose import moved_bar
from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import REHEARSAL, RESTS, BarContext, LineBar, LongLine
from shedbook.exchange.ground.report import OPEN_TIE, Piece, Reporter
from shedbook.exchange.ground.tables.own_fields import LINKS
from shedbook.exchange.phrases.bar_changes import changes_over, with_changes
from shedbook.exchange.phrases.even_bars import even_bars, with_full_pickup
from shedbook.exchange.phrases.own_fields import links_of, with_own_fields
from shedbook.exchange.phrases.slurs import without_half_slurs
from shedbook.exchange.phrases.tempo import with_tempo
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.model import MARKS, Bar, ChangeAt, Event, Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.progression import infer_key


def pieces_of(
    line: LongLine,
    split: frozenset[str],
    reporter: Reporter,
    *,
    fallback: str,
    key: Key | NoteName | None = None,
    changes: str = "",
) -> tuple[Piece, ...]:
    """Return the phrases of a line. What cannot be written as a phrase is left out, and the report names it.

    Args:
        line: all bars, in the order in which they sound.
        split: the kinds of places at which to divide, any of `long_line.SPLITS`. A change of metre always
            divides the line.
        reporter: told what could not be kept.
        fallback: the title of a file that has none.
        key: the home key of every phrase, or its tonic alone; None to find the key.
        changes: the changes that replace those of the line, as a phrase of the manuscript has them; they
            begin anew at each phrase. "" keeps the changes of the line.

    Raises:
        ReadError: if `changes` cannot be read.
    """
    parts = _divided(line.bars, split)
    several = len(parts) > 1
    if changes.strip():
        parts = [
            bars if several and all(bar.silent for bar in bars) else with_changes(bars, changes, reporter)
            for bars in parts
        ]
    if REHEARSAL not in split:
        for bar in line.bars:
            if bar.heading:
                reporter.note(f'the rehearsal mark "{bar.heading}" is left out', bar.label)
    title = line.title or fallback
    found: list[Piece] = []
    before: Chord | None = None
    for number, bars in enumerate(parts, 1):
        last = next((chord for bar in reversed(bars) for _, chord in reversed(bar.chords)), before)
        if several and all(bar.silent for bar in bars):
            reporter.note("passages of rests alone are left out", bars[0].label)
        else:
            named = f"{title} {bars[0].heading or number}" if several else title
            kept = {} if several else line.kept
            phrase = _phrase(bars, named, before, dict(kept), reporter, key)
            if phrase is not None:
                links = links_of(kept.get(LINKS, ""), reporter)
                found.append(Piece(phrase, bars[0].label, bars[-1].label, links))
        before = last
    return tuple(found)


def _divided(bars: Sequence[LineBar], split: frozenset[str]) -> list[list[LineBar]]:
    """Divide a line into parts. Where whole bars of rest divide, they belong to no part."""
    found: list[list[LineBar]] = [[]]
    for bar in bars:
        now = found[-1]
        if RESTS in split and bar.silent and bar.quarters >= bar.context.metre.bar_quarters:
            if now:
                found.append([])
            continue
        divides = bar.breaks & split and not _is_pickup(now)
        if now and (divides or bar.context.metre != now[-1].context.metre):
            found.append([])
        found[-1].append(bar)
    return [part for part in found if part]


def _is_pickup(bars: Sequence[LineBar]) -> bool:
    """Tell whether some bars are a pick-up alone, after which no bar line divides."""
    return len(bars) == 1 and 0 < bars[0].quarters < bars[0].context.metre.bar_quarters


def _phrase(
    parts: Sequence[LineBar], title: str, before: Chord | None, kept: dict[str, str], reporter: Reporter,
    key: Key | NoteName | None,
) -> Phrase | None:  # fmt: skip
    """Return the phrase that some bars make; None where it cannot be written."""
    context = parts[0].context
    _report_context_changes(parts, reporter)
    even = even_bars(parts, context.metre, reporter)
    if even is None:
        return None
    even = with_full_pickup(even, context.metre, reporter)
    labels = [bar.label for bar in even]
    tied = _tied([bar.events for bar in even], [bar.tie_out for bar in even], reporter, labels)
    bars, lost = without_half_slurs(tied)
    for at in lost:
        reporter.note("slurs with one end only are left out", labels[at])
    first = 0 if len(even) > 1 and even[0].quarters < context.metre.bar_quarters else 1
    numbered = tuple([Bar(number, events) for number, events in enumerate(bars, first)])
    changes = changes_over([bar.chords for bar in even], first, context.metre, before, reporter)
    if context.letters:
        up = Interval(context.letters, 0)
        numbered = tuple([moved_bar(bar, up) for bar in numbered])
        changes = tuple([replace(change, chord=change.chord.transposed(up)) for change in changes])
    home, inferred = _key(changes, context.fifths, context.mode)
    phrase = Phrase(
        title=title,
        key=_asked(key, home),
        metre=context.metre,
        bars=numbered,
        changes=changes,
        scales=(None,) * len(changes),
        feel=context.feel or "swing",
        key_inferred=inferred and key is None,
    )
    _name_assumed(phrase, context, kept, reporter)
    phrase = with_tempo(phrase, context.tempo_qpm, reporter)
    return _checked(with_own_fields(phrase, kept, reporter, keyed=key is not None), reporter, parts[0].label)


def _name_assumed(phrase: Phrase, context: BarContext, kept: Mapping[str, str], reporter: Reporter) -> None:
    """Report tempo and feel that the file does not give, for the reader would take them for the author's."""
    if kept:
        return  # a file of ours, which says what it means
    if context.tempo_qpm is None:
        reporter.note(f"the file gives no tempo: {phrase.tempo_bpm} is assumed")
    if not context.feel:
        reporter.note(f'the file gives no feel: "{phrase.feel}" is assumed')


def _checked(phrase: Phrase, reporter: Reporter, bar: str) -> Phrase | None:
    """Return a phrase as the manuscript reads it; make a remark and return None where it cannot hold it."""
    try:
        # The key is written out here only so that it need not be found a second time.
        read = phrase_from_fields({**fields_from_phrase(phrase), "key": str(phrase.key)})
        return replace(read, key_inferred=phrase.key_inferred)
    except ReadError as error:
        reporter.note(f"a phrase cannot be written and is left out: {error.message}", bar)
        return None


# What one phrase cannot hold


def _report_context_changes(bars: Sequence[LineBar], reporter: Reporter) -> None:
    """Report each change of tempo, feel or key signature inside a phrase, which has one of each.

    The metre needs no report, because a line is divided where its metre changes.
    """
    kept = bars[0].context
    for before, bar in pairwise(bars):
        if bar.context is not before.context:
            for lost in _differing(kept, before.context, bar.context):
                reporter.note(lost, bar.label)


def _differing(kept: BarContext, before: BarContext, now: BarContext) -> list[str]:
    """Return in words what differs both from the bar before and from the beginning of the phrase."""
    found = []
    if now.tempo_qpm not in (before.tempo_qpm, kept.tempo_qpm) and now.tempo_qpm is not None:
        found.append(f"a change of tempo, to {float(now.tempo_qpm):g} quarter notes a minute, is left out")
    if now.feel not in (before.feel, kept.feel, ""):
        found.append(f'a change of feel, to "{now.feel}", is left out')
    if now.fifths not in (before.fifths, kept.fifths) and now.fifths is not None:
        found.append(f"a change of key signature, to {_signs(now.fifths)}, is left out")
    return found


def _signs(fifths: int) -> str:
    """Return a key signature in words, such as "2 flats"."""
    sign = "sharp" if fifths > 0 else "flat"
    many = "no" if not fifths else str(abs(fifths))
    return f"{many} {'sharps or flats' if not fifths else sign if abs(fifths) == 1 else f'{sign}s'}"


# Notes


def _tied(
    bars: Sequence[tuple[Event, ...]], tie_outs: Sequence[bool], reporter: Reporter, labels: Sequence[str]
) -> list[tuple[Event, ...]]:
    """Tie the first note of each bar to the last note of the bar before where that is tied and has its pitch.

    `tie_outs` says of each bar whether its last note is tied to the next bar.
    """
    found: list[tuple[Event, ...]] = []
    for index, events in enumerate(bars):
        last = found[-1][-1] if found and found[-1] else None
        head = events[0]
        if last is not None and tie_outs[index - 1]:
            if last.pitch is not None and head.pitch is not None and last.pitch.midi == head.pitch.midi:
                if head.grace:
                    reporter.note("grace notes before a tied note are left out", labels[index])
                found[-1] = _marked(found, head.marks)
                head = replace(head, pitch=last.pitch, tie_in=True, marks=(), grace=())
            else:
                reporter.note(OPEN_TIE, labels[index - 1])
        found.append((head, *events[1:]))
    if bars and tie_outs[-1]:
        reporter.note(OPEN_TIE, labels[-1])
    return found


def _marked(found: list[tuple[Event, ...]], marks: tuple[str, ...]) -> tuple[Event, ...]:
    """Return the last bar with marks added to its last note, unless that is tied to a note before it."""
    bar = found[-1]
    last = bar[-1]
    if not marks or last.tie_in:
        return bar
    both = {*last.marks, *marks}
    return (*bar[:-1], replace(last, marks=tuple(mark for mark in MARKS if mark in both)))


# The key


def _key(changes: Sequence[ChangeAt], fifths: int | None, mode: str) -> tuple[Key, bool]:
    """Return the home key, and whether it was found from the changes alone.

    The changes decide where there is no key signature, or where the signature agrees with them. Otherwise
    the signature decides.
    """
    inferred = infer_key([change.chord for change in changes])
    harmony = any(change.chord.root is not None for change in changes)
    if harmony and (not fifths or fifths == inferred.signature):
        return inferred, True
    if fifths is None:
        return inferred, True
    minor = mode == "minor"
    return Key(NoteName(fifths + (3 if minor else 0)), "minor" if minor else "major"), False


def _asked(key: Key | NoteName | None, home: Key) -> Key:
    """Return the key that the caller chose, `home` for none; a tonic alone takes the mode of `home`."""
    if key is None:
        return home
    return key if isinstance(key, Key) else Key(key, home.mode)
