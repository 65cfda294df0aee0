"""A long line cut into passages to study: at its progressions, or at its rests, the best passage first.

A passage begins and ends where the line breathes (`breaths`), and goes over the whole of its progression: a
phrase may lead into the progression and out of it. Of all runs of phrases the one is taken that covers the
progression with the least besides. Notes of other phrases in its bars are silent. The rank of a passage is
made of shares that the analysis counts, and of how sure its ends are, with the weights in
`tables.cutting_weights`. The report gives each of those shares in words.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.analysis.account import account
from shedbook.exchange.ground.report import Imported, Piece, Remark
from shedbook.exchange.phrases.breaths import Breath, breaths_of
from shedbook.exchange.phrases.passage_rank import rank_of
from shedbook.exchange.phrases.progression_names import ALL, other_rows, wanted_rows
from shedbook.exchange.phrases.silent_bars import with_silence, without_silence
from shedbook.exchange.phrases.slurs import without_half_slurs
from shedbook.exchange.phrases.tables.cutting_weights import FEWEST_NOTES
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase, Sounding, sounding_notes
from shedbook.theory.progression import Progression, recognise
from shedbook.theory.scale import Scale

RESTS = "rests"
_OUTER_BARS = 2
"""How many bars of the first chord, and how many of the last chord, belong to a passage at most."""
_MOST_PHRASES, _MOST_QUARTERS = 4, 64
_BESIDES = Fraction(1, 2)
"""What a quarter of music beside the progression costs, against one of the progression that is left out."""
_LAST_SILENCE = Fraction(4)
"""The last bar of a progression may be silent: a line often ends on its first beat."""


@dataclass(frozen=True, slots=True)
class CutPassage:
    """A passage of a line as a phrase of its own.

    Attributes:
        phrase: the passage.
        progression: what it goes over; None where the line was cut at rests.
        first_bar: the number of its first full bar in the line.
        last_bar: the number of its last bar in the line.
        rank: how good it is to study, 0 to 100.
        reasons: in words, what the rank is made of.
    """

    phrase: Phrase
    progression: Progression | None
    first_bar: int
    last_bar: int
    rank: int
    reasons: tuple[str, ...]


def cut_at_progressions(phrase: Phrase, wanted: str | Collection[str] = ALL) -> tuple[CutPassage, ...]:
    """Return each passage of a line that goes over one of the wanted progressions, the best first.

    Args:
        phrase: a line of any length.
        wanted: the name of a progression, or several names, or "all".

    Raises:
        UnknownNameError: if a name is that of no progression; the hint lists the nearest.
    """
    return _cuts(phrase, wanted_rows([wanted] if isinstance(wanted, str) else wanted))


def _cuts(phrase: Phrase, names: Collection[str] | None) -> tuple[CutPassage, ...]:
    """Return the passages over the progressions with some names, over every progression for None."""
    found = recognise([change.chord for change in phrase.changes], [change.bar for change in phrase.changes])
    notes = sounding_notes(phrase)
    breaths = breaths_of(notes)
    cuts: list[CutPassage] = []
    for progression in found:
        if names is not None and progression.name not in names:
            continue
        first = max(progression.first_bar, _second_chord_bar(phrase, progression) - _OUTER_BARS)
        last = min(progression.last_bar, _last_chord_bar(phrase, progression) + _OUTER_BARS - 1)
        run = _run_over(notes, breaths, phrase.bar_start(first), phrase.bar_start(last + 1))
        cut = None if run is None else _cut(phrase, notes, run, (first, last), progression)
        if cut is not None:
            cuts.append(cut)
    return _each_once(_ranked(cuts))


def _each_once(cuts: Sequence[CutPassage]) -> tuple[CutPassage, ...]:
    """Return passages without those that have the notes of a better one: two progressions may share a run."""
    found: dict[tuple[Fraction, int], CutPassage] = {}
    for cut in cuts:
        notes = sounding_notes(cut.phrase)
        begins = (cut.first_bar - 1) * cut.phrase.metre.bar_quarters + notes[0].start
        found.setdefault((begins, len(notes)), cut)
    return tuple(found.values())


def _run_over(
    notes: Sequence[Sounding], breaths: Sequence[Breath], begin: Fraction, end: Fraction
) -> tuple[Breath, ...] | None:
    """Return the run of phrases that covers a stretch best with the least besides; None where all is silent.

    Args:
        notes: the notes of the line.
        breaths: its phrases.
        begin: where the stretch begins, in quarters from bar 1.
        end: where it ends.
    """
    inside = [
        at for at, one in enumerate(breaths) if notes[one.last].end > begin and notes[one.first].start < end
    ]
    best: tuple[Fraction, int, int] | None = None
    for left in inside:
        for right in inside:
            if left > right or right - left >= _MOST_PHRASES:
                continue
            starts, stops = notes[breaths[left].first].start, notes[breaths[right].last].end
            missed = max(Fraction(0), starts - begin) + max(Fraction(0), end - _LAST_SILENCE - stops)
            besides = max(Fraction(0), begin - starts) + max(Fraction(0), stops - end)
            if stops - starts > _MOST_QUARTERS:
                continue
            cost = missed + besides * _BESIDES
            if best is None or cost < best[0]:
                best = cost, left, right
    return None if best is None else tuple(breaths[best[1] : best[2] + 1])


def cut_at_rests(phrase: Phrase, rest_quarters: Fraction | None = None) -> tuple[CutPassage, ...]:
    """Return the passages of a line between its long rests, the best first.

    Args:
        phrase: a line of any length.
        rest_quarters: the shortest rest that divides the line, in quarter notes; at least a bar. None means
            a bar.
    """
    bar = phrase.metre.bar_quarters
    least = bar if rest_quarters is None else max(bar, rest_quarters)
    spans: list[tuple[int, int]] = []
    end: Fraction | None = None
    for note in sounding_notes(phrase):
        first, last = note.bar, max(note.bar, int(-(-note.end // bar)))
        if end is None or note.start - end >= least:
            spans.append((first, last))
        else:
            spans[-1] = (spans[-1][0], last)
        end = note.end
    # A passage that lies wholly in the pick-up gets the first full bar as well, even if that is silent.
    whole = phrase.full_bars
    cuts = [_cut_bars(phrase, max(1, first), max(1, min(last, whole)), None) for first, last in spans]
    return _ranked([cut for cut in cuts if cut is not None])


def cut_pieces(imported: Imported, wanted: str) -> Imported:
    """Return the passages of everything that was read from a file, the best first.

    Args:
        imported: what was read: lines of any length, and the report.
        wanted: the names of progressions, divided by commas; "all"; or "rests".

    Returns:
        The passages, and the report with a remark on each of them.

    Raises:
        UnknownNameError: if a name is that of no progression.
    """
    names = [name for name in wanted.split(",") if name.strip()]
    at_rests = [name.strip().lower() for name in names] == [RESTS]
    rows = None if at_rests else wanted_rows(names or [ALL])
    pieces = imported.pieces
    found = [
        (cut, piece)
        for piece in pieces
        for cut in (cut_at_rests(piece.phrase) if at_rests else _cuts(piece.phrase, rows))
    ]
    remarks = [] if found else [Remark(f"no passage over {wanted.strip()} was found")]
    meant = () if found or at_rests else other_rows(names)
    if meant:
        found = [(cut, piece) for piece in pieces for cut in _cuts(piece.phrase, meant)]
        listed = " or ".join(f'"{name}"' for name in meant)
        remarks.append(
            Remark(
                f"capital numerals name major and dominant chords: these are the passages over {listed}"
                if found
                else f"capital numerals name major and dominant chords; {listed} was looked for too"
            )
        )
    found.sort(key=lambda pair: -pair[0].rank)
    remarks += [_remark(cut) for cut, _ in found]
    report = replace(imported.report, remarks=(*imported.report.remarks, *remarks))
    return Imported(tuple(_piece(cut, piece) for cut, piece in found), report)


def _remark(cut: CutPassage) -> Remark:
    """Return the remark that gives the rank of a passage and its reasons."""
    over = "" if cut.progression is None else f", {cut.progression.name} in {cut.progression.key}"
    return Remark(f'"{cut.phrase.title}"{over}: {cut.rank} of 100 ({"; ".join(cut.reasons)})')


def _piece(cut: CutPassage, piece: Piece) -> Piece:
    """Return a passage with the bars of the file from which it comes, as far as the file numbers them."""
    first = piece.first_bar
    if not first.isdecimal():
        return Piece(cut.phrase, f"{first} + {cut.first_bar}", f"{first} + {cut.last_bar}")
    base = int(first) - piece.phrase.bars[0].number
    return Piece(cut.phrase, str(base + cut.first_bar), str(base + cut.last_bar))


def _ranked(cuts: Iterable[CutPassage]) -> tuple[CutPassage, ...]:
    """Return passages by their rank, the highest first; of equal ranks the earlier passage comes first."""
    return tuple(sorted(cuts, key=lambda cut: (-cut.rank, cut.first_bar, cut.last_bar)))


def _second_chord_bar(phrase: Phrase, progression: Progression) -> int:
    """Return the bar in which the second chord of a progression begins.

    Where that chord shares its bar with the first one, the answer is the bar after it.
    """
    index = progression.first
    root = phrase.changes[index].chord.root
    while index < progression.last and phrase.changes[index].chord.root == root:
        index += 1
    change = phrase.changes[index]
    return change.bar if change.beat == 1 else change.bar + 1


def _last_chord_bar(phrase: Phrase, progression: Progression) -> int:
    """Return the bar in which the last chord of a progression begins."""
    index = progression.last
    root = phrase.changes[index].chord.root
    while index > progression.first and phrase.changes[index - 1].chord.root == root:
        index -= 1
    return phrase.changes[index].bar


# The passage


def _cut(
    phrase: Phrase,
    notes: Sequence[Sounding],
    run: Sequence[Breath],
    over: tuple[int, int],
    progression: Progression,
) -> CutPassage | None:
    """Return some phrases of a line as a passage over a progression; None where too few notes are in them.

    `over` are the first and the last bar of the progression.
    """
    kept = range(run[0].first, run[-1].last + 1)
    begins = notes[kept[0]].start
    ends = int(-(-notes[kept[-1]].end // phrase.metre.bar_quarters))
    first = _first_with_another_chord(phrase, over[0], notes[kept[0]].bar)
    last = min(phrase.full_bars, max(over[1], ends))
    silence = begins - phrase.bar_start(first)
    leads_in = first < over[0] and 2 * silence >= phrase.metre.bar_quarters
    if first < 1:
        leads_in, silence = True, Fraction(0)
    rows = with_silence(phrase, notes, kept, first, last)
    if leads_in:
        rows[0] = without_silence(rows[0], silence)
    return _passage(phrase, rows, (first + leads_in, last), progression, (run[0].begins, run[-1].ends))


def _first_with_another_chord(phrase: Phrase, first: int, begins: int) -> int:
    """Return the first bar of a passage whose notes begin in a bar: silent bars of one chord are not kept."""
    while first < begins and _one_chord(phrase, first):
        first += 1
    return min(first, begins)


def _one_chord(phrase: Phrase, bar: int) -> bool:
    """Tell whether the chord at the beginning of a bar still sounds all through the bar after it."""
    stop = phrase.bar_start(bar + 2) if bar + 1 <= phrase.full_bars else phrase.bar_start(bar + 1)
    begun = phrase.change_index_at(phrase.bar_start(bar))
    inside = [one.chord for one in phrase.changes[begun:] if phrase.change_start(one) < stop]
    return len({(chord.root, chord.family) for chord in inside}) == 1


def _cut_bars(phrase: Phrase, first: int, last: int, progression: Progression | None) -> CutPassage | None:
    """Return the bars of a line from `first` to `last` as a passage; None where too few notes are in them."""
    bars = {bar.number: bar for bar in phrase.bars}
    inside = [bars[number] for number in range(first, last + 1)]
    before = bars.get(first - 1)
    pickup = () if before is None else _lead_in(before.events, inside[0], phrase.metre.bar_quarters)
    rows = [pickup, *(bar.events for bar in inside)] if pickup else [bar.events for bar in inside]
    return _passage(phrase, rows, (first, last), progression, (1.0, 1.0))


def _passage(
    phrase: Phrase,
    rows: list[tuple[Event, ...]],
    bars: tuple[int, int],
    progression: Progression | None,
    ends: tuple[float, float],
) -> CutPassage | None:
    """Return rows of events as a passage; there is a row more than `bars` says where the first is a pick-up.

    `ends` are how likely a phrase begins and ends where the passage does.
    """
    first, last = bars
    pickup = len(rows) > last - first + 1
    if rows[0][0].tie_in:
        rows[0] = (replace(rows[0][0], tie_in=False), *rows[0][1:])
    whole, _ = without_half_slurs(rows)
    numbered = tuple(Bar(number, events) for number, events in enumerate(whole, 0 if pickup else 1))
    changes, scales = _changes(phrase, first, last)
    title = f"{phrase.title}, bars {first} to {last}" if first < last else f"{phrase.title}, bar {first}"
    found = replace(
        phrase,
        title=title,
        key=phrase.key if progression is None else progression.key,
        key_inferred=phrase.key_inferred and progression is None,
        bars=numbered,
        changes=changes,
        scales=scales,
        id="",
        commentary="",
        silence=(),
    )
    if len(sounding_notes(found)) < FEWEST_NOTES:
        return None
    rank, reasons = rank_of(account(found), ends, _played_over(found))
    return CutPassage(found, progression, first, last, rank, reasons)


def _played_over(phrase: Phrase) -> tuple[int, int]:
    """Return over how many chords of a passage a note begins, and how many chords there are.

    A chord that is named again in the next bar is one chord.
    """
    starts = [
        phrase.change_start(change)
        for at, change in enumerate(phrase.changes)
        if not at or change.chord != phrase.changes[at - 1].chord
    ]
    met = {max(0, bisect_right(starts, note.start) - 1) for note in sounding_notes(phrase)}
    return len(met), len(starts)


def _lead_in(events: Sequence[Event], first: Bar, full: Fraction) -> tuple[Event, ...]:
    """Return the events of the bar before that become the pick-up, none where nothing leads in.

    These are the notes after the last rest, where that stands in the second half of the bar; or one note that
    is tied into the first bar; or all notes, where the bar before is itself a pick-up.

    Args:
        events: the events of the bar before.
        first: the first full bar of the passage.
        full: the length of a full bar in quarter notes.
    """
    found: list[Event] = []
    length = Fraction(0)
    is_pickup = sum(event.quarters for event in events) < full
    for event in reversed(events):
        if event.pitch is None:
            return tuple(found)
        length += event.quarters
        if 2 * length > full and not is_pickup:
            break
        found.insert(0, event)
        if event.tie_in:
            break
    else:
        return tuple(found)
    tied = first.events[0].tie_in and events[-1]
    if tied and not tied.tie_in and 2 * tied.quarters <= full:
        return (tied,)
    return ()


def _changes(phrase: Phrase, first: int, last: int) -> tuple[tuple[ChangeAt, ...], tuple[Scale | None, ...]]:
    """Return the changes of some bars and their scales; a chord that sounds on begins the first bar."""
    pairs = list(zip(phrase.changes, phrase.scales, strict=True))
    inside = [(change, scale) for change, scale in pairs if first <= change.bar <= last]
    if not inside or inside[0][0].bar != first or inside[0][0].beat != 1:
        index = phrase.change_index_at(phrase.bar_start(first))
        change, scale = pairs[index]
        inside.insert(0, (ChangeAt(first, Fraction(1), change.chord), scale))
    return (
        tuple(replace(change, bar=change.bar - first + 1) for change, _ in inside),
        tuple(scale for _, scale in inside),
    )
