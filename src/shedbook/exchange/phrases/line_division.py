"""From a long line to phrases: divided where its file divides it, every bar full, every bar with a chord."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.analysis.account import quarters_a_minute
from shedbook.editions.transpose import moved_bar, transpose
from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import REHEARSAL, RESTS, LineBar, LongLine
from shedbook.exchange.ground.report import OPEN_TIE, Piece, Reporter
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
from shedbook.exchange.phrases.even_bars import even_bars
from shedbook.exchange.phrases.given_changes import held_throughout, with_changes
from shedbook.exchange.phrases.own_fields import rests_joined
from shedbook.exchange.phrases.own_links import links_of
from shedbook.phrase.changes_text import parse_changes, parse_scales, print_beat
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM, fields_from_phrase, phrase_from_fields
from shedbook.phrase.model import MARKS, Bar, ChangeAt, Event, Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName
from shedbook.theory.progression import infer_key

_FINEST_BEAT = 12
_ZERO = Fraction(0)


def felt_beat(phrase: Phrase) -> Fraction:
    """Return the beat that players tap, in quarter notes."""
    return quarters_a_minute(phrase) / phrase.tempo_bpm


def pieces_of(
    line: LongLine,
    split: frozenset[str],
    reporter: Reporter,
    *,
    fallback: str,
    key: Key | NoteName | None = None,
    changes: str = "",
) -> tuple[Piece, ...]:
    """Return the phrases of a line; what cannot be written as one is named in the report and left out.

    Args:
        line: all bars, in the order in which they sound.
        split: where to divide, any of `long_line.SPLITS`; a change of metre always divides.
        reporter: told what could not be kept.
        fallback: the title where the file has none.
        key: the home key of every phrase, or its tonic alone; None to find it.
        changes: changes that take the place of those of the line, begun anew at each phrase; "" for none.
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
    """Divide a line; whole bars of rest, where they divide, belong to no phrase."""
    found: list[list[LineBar]] = [[]]
    for bar in bars:
        now = found[-1]
        if RESTS in split and bar.silent and bar.quarters >= bar.setting.metre.bar_quarters:
            if now:
                found.append([])
            continue
        if now and (bar.breaks & split or bar.setting.metre != now[-1].setting.metre):
            found.append([])
        found[-1].append(bar)
    return [part for part in found if part]


def _phrase(
    parts: Sequence[LineBar], title: str, before: Chord | None, kept: dict[str, str], reporter: Reporter,
    key: Key | NoteName | None,
) -> Phrase | None:  # fmt: skip
    """Return the phrase that some bars make, None where it cannot be written."""
    setting = parts[0].setting
    held_throughout(parts, reporter)
    even = even_bars(parts, setting.metre, reporter)
    if even is None:
        return None
    labels = [bar.label for bar in even]
    tied = _tied([bar.events for bar in even], [bar.tie_out for bar in even], reporter, labels)
    bars = _slurs_closed(tied, reporter, labels)
    first = 0 if len(even) > 1 and even[0].quarters < setting.metre.bar_quarters else 1
    numbered = tuple([Bar(number, events) for number, events in enumerate(bars, first)])
    changes = _changes([bar.chords for bar in even], first, setting.metre, before, reporter)
    if setting.letters:
        up = Interval(setting.letters, 0)
        numbered = tuple([moved_bar(bar, up) for bar in numbered])
        changes = tuple([replace(change, chord=change.chord.transposed(up)) for change in changes])
    home, inferred = _key(changes, setting.fifths, setting.mode)
    phrase = Phrase(
        title=title,
        key=_asked(key, home),
        metre=setting.metre,
        bars=numbered,
        changes=changes,
        scales=(None,) * len(changes),
        feel=setting.feel or "swing",
        key_inferred=inferred and key is None,
    )
    phrase = _timed(phrase, setting.tempo_qpm, reporter)
    return _checked(_with_own(phrase, kept, reporter, keyed=key is not None), reporter, parts[0].label)


def _checked(phrase: Phrase, reporter: Reporter, bar: str) -> Phrase | None:
    """Return a phrase that the manuscript can hold, as it reads it; None, and a remark, otherwise."""
    try:
        # The key is written out here only so that it need not be found a second time.
        read = phrase_from_fields({**fields_from_phrase(phrase), "key": str(phrase.key)})
        return replace(read, key_inferred=phrase.key_inferred)
    except ReadError as error:
        reporter.note(f"a phrase cannot be written and is left out: {error.message}", bar)
        return None


# Notes


def _tied(
    bars: Sequence[tuple[Event, ...]], tie_outs: Sequence[bool], reporter: Reporter, labels: Sequence[str]
) -> list[tuple[Event, ...]]:
    """Tie the first note of a bar to the last of the one before, where that is tied on to its pitch."""
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
    """Return the last bar; marks on a tied note belong to the note that is struck, if it stands there."""
    bar = found[-1]
    last = bar[-1]
    if not marks or last.tie_in:
        return bar
    both = {*last.marks, *marks}
    return (*bar[:-1], replace(last, marks=tuple(mark for mark in MARKS if mark in both)))


def _slurs_closed(
    bars: list[tuple[Event, ...]], reporter: Reporter, labels: Sequence[str]
) -> list[tuple[Event, ...]]:
    """Leave out slurs that have one end only, as cutting a line makes them."""
    rows = [list(bar) for bar in bars]
    open_at: list[tuple[int, int]] = []
    for at, row in enumerate(rows):
        for place, event in enumerate(row):
            if not (event.slurs_close or event.slurs_open):
                continue
            closing = min(event.slurs_close, len(open_at))
            if closing < event.slurs_close:
                reporter.note("slurs with one end only are left out", labels[at])
                row[place] = replace(event, slurs_close=closing)
            del open_at[len(open_at) - closing :]
            open_at += [(at, place)] * event.slurs_open
    for at, place in open_at:
        reporter.note("slurs with one end only are left out", labels[at])
        event = rows[at][place]
        rows[at][place] = replace(event, slurs_open=event.slurs_open - 1)
    return [tuple(row) for row in rows]


# Changes


def _changes(
    bars: Sequence[Sequence[tuple[Fraction, Chord]]],
    first: int,
    metre: Metre,
    before: Chord | None,
    reporter: Reporter,
) -> tuple[ChangeAt, ...]:
    """Return the changes, at least one in every bar; what sounds before the first is no chord."""
    sounding = before
    found: list[ChangeAt] = []
    if before is None and not any(bars):
        reporter.note("there are no chord symbols: every bar is N.C. until you write them")
    for number, chords in enumerate(bars, first):
        if number == 0:
            sounding = chords[-1][1] if chords else sounding
            if chords:
                reporter.note("the chord over the pick-up is heard from bar 1 on")
            continue
        here = _in_bar(chords, number, metre, reporter)
        if not here or (number == 1 and here[0].beat != 1):
            filler = sounding or parse_chord("N.C.")
            same = bool(here) and here[0].chord == filler
            here = [ChangeAt(number, Fraction(1), filler), *(here[1:] if same else here)]
        found += here
        sounding = here[-1].chord
    return tuple(found)


def _in_bar(
    chords: Sequence[tuple[Fraction, Chord]], number: int, metre: Metre, reporter: Reporter
) -> list[ChangeAt]:
    """Return the changes of a bar, each on a beat that the manuscript can write, one a place."""
    found: dict[Fraction, ChangeAt] = {}
    for place, chord in chords:
        beat = metre.beat_at(place)
        if beat.denominator > 99 and len(print_beat(beat)) > 7:
            beat = Fraction(round(beat * _FINEST_BEAT), _FINEST_BEAT)
            reporter.note("chords between the beats are moved to the nearest twelfth of one", str(number))
        if beat >= metre.beats + 1:
            reporter.note("chords behind the end of their bar are left out", str(number))
            continue
        if beat in found:
            reporter.note("of chords in one place the last is kept", str(number))
        found[beat] = ChangeAt(number, beat, chord)
    return [found[beat] for beat in sorted(found)]


def _key(changes: Sequence[ChangeAt], fifths: int | None, mode: str) -> tuple[Key, bool]:
    """Return the home key, and whether the changes alone say it.

    The changes decide where there is no key signature, or where it agrees with them; then the signature.
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
    """Return the key that is asked for; a tonic alone takes the mode that was found."""
    if key is None:
        return home
    return key if isinstance(key, Key) else Key(key, home.mode)


def _timed(phrase: Phrase, tempo_qpm: Fraction | None, reporter: Reporter) -> Phrase:
    """Return the phrase with its tempo in felt beats a minute, a whole number in the manuscript's limits."""
    if tempo_qpm is None:
        return phrase
    tempo = tempo_qpm / felt_beat(phrase)
    whole = max(SLOWEST_BPM, min(FASTEST_BPM, round(tempo)))
    if whole != tempo:
        reporter.note(f"the tempo {float(tempo):g} is taken as {whole}")
    return replace(phrase, tempo_bpm=whole)


# What the file carries for shedbook alone


def _with_own(phrase: Phrase, kept: dict[str, str], reporter: Reporter, *, keyed: bool) -> Phrase:
    """Return the phrase with what notation cannot hold, as far as it still fits the notes."""
    silence = tuple(
        (name.removeprefix(SILENCE), text.strip()) for name, text in kept.items() if name.startswith(SILENCE)
    )
    phrase = replace(
        phrase, commentary=kept.get(COMMENTARY, "").strip(), id=kept.get(ID, "").strip(), silence=silence
    )
    if kept.get(FOLD) in ("yes", "no"):
        phrase = replace(phrase, fold=kept[FOLD] == "yes")
    if JOINED_RESTS in kept:
        phrase = replace(phrase, bars=rests_joined(phrase.bars, kept[JOINED_RESTS]))
    if CHANGES not in kept:
        return phrase
    try:
        return _with_harmony(phrase, kept, keyed=keyed)
    except (ReadError, ValueError):
        reporter.note("scales and home key are left out, for the chords are no longer those they went with")
        return phrase


def _with_harmony(phrase: Phrase, kept: dict[str, str], *, keyed: bool) -> Phrase:
    """Return the phrase with the author's changes, scales and key.

    Raises:
        ValueError: if the changes are not those of the notes.
        ReadError: if any of it cannot be read.
    """
    own = parse_changes(kept[CHANGES], phrase.metre)
    wanted = [_meaning(change) for change in own.changes]
    # A part for a transposing instrument may call by other letters what its author called B: Cb.
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
    return change.bar, change.beat, replace(change.chord, text="", altered=False)
