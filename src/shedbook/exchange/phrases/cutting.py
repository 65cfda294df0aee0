"""A long line cut into phrases to study: at its progressions, or at its rests, the best first.

A cut is made at bar lines. Notes that lead into its first bar after a rest, or are tied into it, come along
as a pick-up. What the analysis says of each passage ranks it, by the weights in
`tables.cutting_weights`; every measure is kept in words.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from shedbook.analysis.account import Account, account
from shedbook.analysis.landings import STRENGTHS
from shedbook.analysis.links import CHANGE
from shedbook.exchange.ground.report import Imported, Piece, Remark
from shedbook.exchange.phrases.progression_names import ALL, other_rows, wanted_rows
from shedbook.exchange.phrases.tables.cutting_weights import FEWEST_NOTES, WEIGHTS
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase, sounding_notes
from shedbook.theory.progression import Progression, recognise
from shedbook.theory.scale import Scale

RESTS = "rests"
_OUTER_BARS = 2
"""So many bars of the first chord and of the last belong to a passage."""
_WEIGHT = MappingProxyType({row.measure: row.weight for row in WEIGHTS})


@dataclass(frozen=True, slots=True)
class Cut:
    """A passage as a phrase of its own.

    `first_bar` and `last_bar` count the bars of the line it is cut from; `progression` is None where it was
    cut at rests. `rank` is 0 to 100, and `reasons` says in words what it is made of.
    """

    phrase: Phrase
    progression: Progression | None
    first_bar: int
    last_bar: int
    rank: int
    reasons: tuple[str, ...]


def cut_at_progressions(phrase: Phrase, wanted: str | Collection[str] = ALL) -> tuple[Cut, ...]:
    """Return every passage of a line over one of the progressions that are wanted, the best first.

    Args:
        phrase: a line of any length.
        wanted: a name of a progression, or several; or "all".

    Raises:
        UnknownNameError: if a name is that of no progression; the hint lists the nearest.
    """
    return _cuts(phrase, wanted_rows([wanted] if isinstance(wanted, str) else wanted))


def _cuts(phrase: Phrase, names: Collection[str] | None) -> tuple[Cut, ...]:
    """Return the passages over the rows of some names; None for all of them."""
    found = recognise([change.chord for change in phrase.changes], [change.bar for change in phrase.changes])
    cuts: list[Cut] = []
    for progression in found:
        if names is not None and progression.name not in names:
            continue
        first = max(progression.first_bar, _second_chord_bar(phrase, progression) - _OUTER_BARS)
        last = min(progression.last_bar, _last_chord_bar(phrase, progression) + _OUTER_BARS - 1)
        cut = _cut(phrase, first, last, progression)
        if cut is not None:
            cuts.append(cut)
    return _ranked(cuts)


def cut_at_rests(phrase: Phrase, rest_quarters: Fraction | None = None) -> tuple[Cut, ...]:
    """Return the passages of a line between rests of at least a length, the best first.

    Args:
        phrase: a line of any length.
        rest_quarters: how long a rest divides, at least a bar; None for a bar.
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
    cuts = [_cut(phrase, max(1, first), min(last, phrase.full_bars), None) for first, last in spans]
    return _ranked([cut for cut in cuts if cut is not None])


def cut_pieces(imported: Imported, wanted: str) -> Imported:
    """Return what was read from a file, cut, the best passage of the file first.

    Args:
        imported: lines of any length.
        wanted: names of progressions, divided by commas, "all", or "rests".

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
    remarks += [_said(cut) for cut, _ in found]
    report = replace(imported.report, remarks=(*imported.report.remarks, *remarks))
    return Imported(tuple(_piece(cut, piece) for cut, piece in found), report)


def _said(cut: Cut) -> Remark:
    over = "" if cut.progression is None else f", {cut.progression.name} in {cut.progression.key}"
    return Remark(f'"{cut.phrase.title}"{over}: {cut.rank} of 100 ({"; ".join(cut.reasons)})')


def _piece(cut: Cut, piece: Piece) -> Piece:
    """Return a passage with the bars of the file from which it comes, where the file numbers them."""
    first = piece.first_bar
    if not first.isdecimal():
        return Piece(cut.phrase, f"{first} + {cut.first_bar}", f"{first} + {cut.last_bar}")
    base = int(first) - piece.phrase.bars[0].number
    return Piece(cut.phrase, str(base + cut.first_bar), str(base + cut.last_bar))


def _ranked(cuts: Iterable[Cut]) -> tuple[Cut, ...]:
    return tuple(sorted(cuts, key=lambda cut: (-cut.rank, cut.first_bar, cut.last_bar)))


def _second_chord_bar(phrase: Phrase, progression: Progression) -> int:
    """Return the bar in which the second function of a progression begins; a bar it shares counts as next."""
    index = progression.first
    root = phrase.changes[index].chord.root
    while index < progression.last and phrase.changes[index].chord.root == root:
        index += 1
    change = phrase.changes[index]
    return change.bar if change.beat == 1 else change.bar + 1


def _last_chord_bar(phrase: Phrase, progression: Progression) -> int:
    """Return the bar in which the last function of a progression begins."""
    index = progression.last
    root = phrase.changes[index].chord.root
    while index > progression.first and phrase.changes[index - 1].chord.root == root:
        index -= 1
    return phrase.changes[index].bar


# The passage


def _cut(phrase: Phrase, first: int, last: int, progression: Progression | None) -> Cut | None:
    """Return the bars of a line from `first` to `last` as a phrase, None where hardly a note is in them."""
    bars = {bar.number: bar for bar in phrase.bars}
    inside = [bars[number] for number in range(first, last + 1)]
    before = bars.get(first - 1)
    pickup = () if before is None else _lead_in(before.events, inside[0], phrase.metre.bar_quarters)
    rows = [pickup, *(bar.events for bar in inside)] if pickup else [bar.events for bar in inside]
    if rows[0][0].tie_in:
        rows[0] = (replace(rows[0][0], tie_in=False), *rows[0][1:])
    numbered = tuple(
        Bar(number, events) for number, events in enumerate(_slurs_closed(rows), 0 if pickup else 1)
    )
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
    rank, reasons = _rank(account(found))
    return Cut(found, progression, first, last, rank, reasons)


def _lead_in(events: Sequence[Event], first: Bar, full: Fraction) -> tuple[Event, ...]:
    """Return the end of the bar before as a pick-up: notes after a rest in its second half, or a tied one."""
    found: list[Event] = []
    length = Fraction(0)
    for event in reversed(events):
        if event.pitch is None:
            return tuple(found)
        length += event.quarters
        if 2 * length > full:
            break
        found.insert(0, event)
        if event.tie_in:
            break
    tied = first.events[0].tie_in and events[-1]
    if tied and not tied.tie_in and 2 * tied.quarters <= full:
        return (tied,)
    return ()


def _slurs_closed(rows: Sequence[Sequence[Event]]) -> list[tuple[Event, ...]]:
    """Return events without the slurs that have one end only."""
    found = [list(row) for row in rows]
    open_at: list[tuple[int, int]] = []
    for at, row in enumerate(found):
        for place, event in enumerate(row):
            closing = min(event.slurs_close, len(open_at))
            if closing < event.slurs_close:
                row[place] = replace(event, slurs_close=closing)
            del open_at[len(open_at) - closing :]
            open_at += [(at, place)] * event.slurs_open
    for at, place in open_at:
        event = found[at][place]
        found[at][place] = replace(event, slurs_open=event.slurs_open - 1)
    return [tuple(row) for row in found]


def _changes(phrase: Phrase, first: int, last: int) -> tuple[tuple[ChangeAt, ...], tuple[Scale | None, ...]]:
    """Return the changes of some bars with their scales; a chord that goes on opens the first bar."""
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


# What the analysis says


def _rank(seen: Account) -> tuple[int, tuple[str, ...]]:
    """Return how good a passage is to study, 0 to 100, and why, in words."""
    notes, landings = len(seen.notes), seen.landings
    crossings = [link for link in seen.links if link.kind == CHANGE and link.after is not None]
    smooth = sum(1 for link in crossings if link.by_step or link.guide or link.held is not None)
    used = sum(len(one.used) for one in seen.whole_coverage)
    degrees = used + sum(len(one.missing) for one in seen.whole_coverage)
    firm = [landing for landing in landings if landing.strength not in ("outside", "to pass through")]
    excused = [landing for landing in landings if landing.excuse and landing.excuse != "unaccounted"]
    strength = sum(landing.rank for landing in landings)
    shares = {
        "accounted": Fraction(seen.accounted, max(1, notes)),
        "landings": Fraction(strength, max(1, len(landings) * (len(STRENGTHS) - 1))),
        "links": Fraction(smooth, len(crossings)) if crossings else Fraction(1, 2),
        "coverage": Fraction(used, degrees) if degrees else Fraction(0),
    }
    reasons = [
        f"{seen.accounted} of {notes} notes accounted for",
        f"{len(firm)} of {len(landings)} landings inside the chord scale"
        + (f", {len(excused)} more explained" if excused else ""),
    ]
    if crossings:
        reasons.append(f"{smooth} of {len(crossings)} changes entered by step, guide tone or held note")
    if degrees:
        reasons.append(f"{used} of {degrees} degrees of its scales touched")
    return int(sum(_WEIGHT[name] * share for name, share in shares.items())), tuple(reasons)
