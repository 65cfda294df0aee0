"""A long line cut into passages to study: at its progressions, or at its rests, the best passage first.

A line is cut at bar lines. Notes that lead into the first bar of a passage after a rest, or that are tied
into it, become the pick-up of the passage. The rank of a passage is made of shares that the analysis counts,
with the weights in `tables.cutting_weights`. The report gives each of those shares in words.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.analysis.account import Account, account
from shedbook.analysis.account.landings import STRENGTHS
from shedbook.analysis.account.melodic_links import CHANGE
from shedbook.exchange.ground.report import Imported, Piece, Remark
from shedbook.exchange.phrases.progression_names import ALL, other_rows, wanted_rows
from shedbook.exchange.phrases.slurs import without_half_slurs
from shedbook.exchange.phrases.tables.cutting_weights import FEWEST_NOTES, WEIGHTS
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase, sounding_notes
from shedbook.table_index import Rows
from shedbook.theory.progression import Progression, recognise
from shedbook.theory.scale import Scale

RESTS = "rests"
_OUTER_BARS = 2
"""How many bars of the first chord, and how many of the last chord, belong to a passage at most."""
_WEIGHT = Rows(
    "weights of a passage",
    "src/shedbook/exchange/phrases/tables/cutting_weights.py",
    [(row.measure, row.weight) for row in WEIGHTS],
)
_WEIGHT.must_be(("accounted", "landings", "links", "coverage"), "the rank of a passage is made of it")


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
    cuts: list[CutPassage] = []
    for progression in found:
        if names is not None and progression.name not in names:
            continue
        first = max(progression.first_bar, _second_chord_bar(phrase, progression) - _OUTER_BARS)
        last = min(progression.last_bar, _last_chord_bar(phrase, progression) + _OUTER_BARS - 1)
        cut = _cut(phrase, first, last, progression)
        if cut is not None:
            cuts.append(cut)
    return _ranked(cuts)


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
    cuts = [_cut(phrase, max(1, first), max(1, min(last, phrase.full_bars)), None) for first, last in spans]
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


def _cut(phrase: Phrase, first: int, last: int, progression: Progression | None) -> CutPassage | None:
    """Return the bars of a line from `first` to `last` as a passage; None where too few notes are in them."""
    bars = {bar.number: bar for bar in phrase.bars}
    inside = [bars[number] for number in range(first, last + 1)]
    before = bars.get(first - 1)
    pickup = () if before is None else _lead_in(before.events, inside[0], phrase.metre.bar_quarters)
    rows = [pickup, *(bar.events for bar in inside)] if pickup else [bar.events for bar in inside]
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
    rank, reasons = _rank(account(found))
    return CutPassage(found, progression, first, last, rank, reasons)


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


# What the analysis says


def _rank(seen: Account) -> tuple[int, tuple[str, ...]]:
    """Return how good a passage is to study, 0 to 100, and in words what that is made of."""
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
