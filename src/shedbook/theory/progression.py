"""Progressions: recognised in changes, and written out in any key.

The changes are covered by the rows of `tables.progressions` at the least cost, which is the least path of a
lattice over the functions (neighbouring chords with one function count once). A progression may be in any
key, whatever the key of the whole. Two things overlap on purpose: a tonic, or the ii–V of a turnaround that
goes on to its I, may belong to two neighbours; and a twelve-bar blues holds smaller progressions.

Bars count from 1 and chords from 0; `first_bar`, `last_bar`, `first` and `last` are inclusive.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from types import MappingProxyType
from typing import NamedTuple

from shedbook.errors import UnknownNameError, nearest
from shedbook.lattice.graph import Lattice, least_path
from shedbook.table_index import by_names, need
from shedbook.theory.chord import Chord
from shedbook.theory.chord_function import Group, Heard, groups, heard, infer_key, numerals, tonic_name
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key
from shedbook.theory.lines_in_chords import lines_in_chords
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.chord_functions import KIND_CLASSES
from shedbook.theory.tables.progressions import (
    BLUES,
    LEADS_AWAY,
    LINES,
    PROGRESSIONS,
    ROLES,
    SHARED,
    STEPS,
    UNEXPLAINED,
    BluesRow,
    LineRow,
    ProgressionRow,
    RoleRow,
    StepRow,
)

__all__ = ["Progression", "infer_key", "numerals", "progression_names", "recognise", "write_out"]

_BLUES_BARS = 12
_WHEEL = 2
"""A row that may share its last two functions, a ii–V, with the next progression is a turnaround."""
_THIRD = 4
_NEVER = 1000
_WORTH_SAYING = 3
"""A progression inside a blues is reported if it has at least this many functions; V–I alone is not."""
_PLAIN_FIFTHS = range(-7, 11)
"""Names from Cb to A#; a written root beyond them is named by its enharmonic neighbour."""


@dataclass(frozen=True, slots=True)
class Progression:
    """A progression that was found in changes.

    Attributes:
        name: its name in `tables.progressions`.
        key: the key in which it stands, whatever the key of the whole.
        first_bar: the bar of its first chord.
        last_bar: the bar of its last chord.
        first: the index of its first chord.
        last: the index of its last chord.
    """

    name: str
    key: Key
    first_bar: int
    last_bar: int
    first: int
    last: int


class _Match(NamedTuple):
    """A row that fits some groups; `shares` is how many of its last groups a neighbour may use."""

    row: ProgressionRow
    tonic: int
    first: int
    last: int
    cost: int
    shares: int


def recognise(chords: Sequence[Chord], bars: Sequence[int]) -> tuple[Progression, ...]:
    """Return the progressions that explain the changes at the least cost, in order of their first chords.

    Of two that begin with the same chord, the longer one comes first. A chord may belong to none.

    Args:
        chords: the chords.
        bars: the bar in which each chord starts, from 1.

    Raises:
        ValueError: if there are not as many bars as chords, or the bars go back.
    """
    if len(chords) != len(bars) or any(later < earlier for earlier, later in pairwise(bars)):
        raise ValueError("each chord needs its bar, and bars go forward")
    sounding = groups(chords)
    blues = tuple(_blues(chords, bars))
    found = [*blues]
    for line in lines_in_chords(chords):
        root = chords[line.first].root or NoteName(0)
        key = Key(root, line.row.mode)
        found.append(
            Progression(line.row.name, key, bars[line.first], bars[line.last], line.first, line.last)
        )

    for match in _cover(sounding):
        first, last = sounding[match.first].first, sounding[match.last].last
        inside = [whole for whole in blues if whole.first <= first and last <= whole.last]
        if inside and (len(match.row.steps) < _WORTH_SAYING or match.row.name in _OF_A_BLUES):
            continue
        names = [one for group in sounding[match.first : match.last + 1] for one in group.heard]
        key = Key(tonic_name(match.tonic, names, match.row.mode), match.row.mode)
        found.append(Progression(match.row.name, key, bars[first], bars[last], first, last))
    return tuple(sorted(found, key=lambda one: (one.first, -one.last)))


def _cover(sounding: Sequence[Group]) -> tuple[_Match, ...]:
    """Return the cheapest set of matches, in order.

    The nodes of the lattice are the seams between groups, where everything before is explained, and the
    matches. A match is reached from the seam before it or from a match with which it shares groups; the
    seam after a group from the seam before it, which leaves the group unexplained, or from the matches that
    end with it.
    """
    sources: list[list[int]] = [[]]
    weights: list[list[int]] = [[]]
    matches: list[_Match | None] = [None]
    ending: list[list[int]] = [[] for _ in sounding]
    seam = 0
    for place, group in enumerate(sounding):
        for match in _matches_at(sounding, place):
            sharing = [
                node
                for last in range(match.first, match.last)
                for node in ending[last]
                if _may_share(matches[node], match, last - match.first + 1)
            ]
            ending[match.last].append(len(matches))
            sources.append([seam, *sharing])
            weights.append([match.cost] + [match.cost + SHARED] * len(sharing))
            matches.append(match)
        sources.append([seam, *ending[place]])
        weights.append([UNEXPLAINED if group.heard else 0] + [0] * len(ending[place]))
        seam = len(matches)
        matches.append(None)
    path = least_path(Lattice(sources, weights))
    nodes = () if path is None else path.nodes
    return tuple([one for node in nodes if (one := matches[node]) is not None])


def _may_share(earlier: _Match | None, later: _Match, shared: int) -> bool:
    """Tell whether two matches may have functions in common.

    A tonic that is reached may open another key; a shared ii–V stays in its own.
    """
    if earlier is None or shared > earlier.shares:
        return False
    return earlier.shares == 1 or earlier.tonic == later.tonic


def _matches_at(sounding: Sequence[Group], first: int) -> Iterator[_Match]:
    """Yield every row that fits the groups from `first` on, with its goal and without."""
    root = sounding[first].pitch_class
    if root is None:
        return
    for row in _rows_opened_by(*sounding[first : first + 2]):
        tonic = (root - _SEMITONES[row.steps[0]]) % 12
        last, cost = first + len(row.steps) - 1, row.cost
        for place, step in enumerate(row.steps, first):
            variant = _variant(sounding[place], step, tonic) if place < len(sounding) else None
            if variant is None:
                break
            cost += variant
        else:
            yield _Match(row, tonic, first, last, cost + _away(sounding, row, tonic, last + 1), row.shares)
            for goal in row.goals:
                if last + 1 < len(sounding) and _variant(sounding[last + 1], goal, tonic) is not None:
                    yield _Match(row, tonic, first, last + 1, cost, 1)


def _rows_opened_by(one: Group, two: Group | None = None) -> tuple[ProgressionRow, ...]:
    """Return the rows that may begin with two functions; every row has as many."""
    root, following = one.pitch_class, None if two is None else two.pitch_class
    if two is None or root is None or following is None:
        return ()
    move = (following - root) % 12
    return _OPENINGS.get((one.heard[0].kind, move, two.heard[0].kind), ())


def _away(sounding: Sequence[Group], row: ProgressionRow, tonic: int, place: int) -> int:
    """Return what a turnaround costs that goes on to neither its tonic nor the iii in the tonic's place."""
    if row.shares != _WHEEL or place >= len(sounding) or not sounding[place].heard:
        return 0
    following = sounding[place]
    kind = KIND_CLASSES[following.heard[0].kind]
    if following.pitch_class == tonic:
        return 0 if kind in (row.mode, "dominant", "suspended triad") else LEADS_AWAY
    return 0 if following.pitch_class == (tonic + _THIRD) % 12 and kind == "minor" else LEADS_AWAY


def _variant(group: Group, step: str, tonic: int) -> int | None:
    """Return the cost of hearing a group as a step in a key, or None where it cannot be."""
    if not group.heard or group.heard[0].root.pitch_class != (tonic + _SEMITONES[step]) % 12:
        return None
    cost = max([_KINDS[step].get(one.kind, _NEVER) for one in group.heard])
    return cost if cost < _NEVER else None


def _blues(chords: Sequence[Chord], bars: Sequence[int]) -> Iterator[Progression]:
    """Yield the twelve-bar forms from left to right; none overlaps another."""
    start = bars[0] if bars else 1
    while bars and start + _BLUES_BARS - 1 <= bars[-1]:
        opening = _opening(chords, bars, start) if start in bars else None
        row = None
        if opening is not None:
            row = next((row for row in BLUES if _fits_blues(row, opening, chords, bars, start)), None)
        if row is None or opening is None:
            start += 1
            continue
        last_bar = start + _BLUES_BARS - 1
        first, last = bisect_left(bars, start), bisect_right(bars, last_bar) - 1
        key = Key(tonic_name(opening.pitch_class, (opening,), row.mode), row.mode)
        yield Progression(row.name, key, start, last_bar, first, last)
        start = last_bar + 1


def _fits_blues(
    row: BluesRow, tonic: Heard, chords: Sequence[Chord], bars: Sequence[int], start: int
) -> bool:
    """Tell whether the bars from `start` on open with the form's functions at its anchors."""
    cost = 0
    for bar, steps in row.anchors:
        one = _opening(chords, bars, start + bar - 1)
        group = Group(0, 0, () if one is None else (one,))
        variants = [_variant(group, step, tonic.pitch_class) for step in steps]
        known = [variant for variant in variants if variant is not None]
        if not known:
            return False
        cost += min(known)
    return cost <= row.most_variants


def _opening(chords: Sequence[Chord], bars: Sequence[int], bar: int) -> Heard | None:
    """Return the chord that opens a bar; a bar without a change of its own goes on with the chord before."""
    place = bisect_left(bars, bar)
    return heard(chords[place if bars[place] == bar else place - 1])


def progression_names() -> tuple[str, ...]:
    """Return the names of all progressions of the table, lines inside a chord and the blues last."""
    every: list[ProgressionRow | LineRow | BluesRow] = [*PROGRESSIONS, *LINES, *BLUES]
    return tuple([row.name for row in every])


def write_out(name: str, key: Key, chords_a_bar: int = 1) -> tuple[tuple[str, ...], ...]:
    """Return a progression written out, as the chord symbols of each bar.

    Args:
        name: a name or alias of `tables.progressions`.
        key: gives the tonic. The mode is that of the progression.
        chords_a_bar: 1 or 2. A blues has twelve bars in either case; with 2 it is written in the jazz form,
            which has two chords in some bars.

    Raises:
        UnknownNameError: if no progression has the name or alias; the hint lists the nearest.
        ValueError: if `chords_a_bar` is neither 1 nor 2.
    """
    if chords_a_bar not in (1, 2):
        raise ValueError("a progression is written with one or two chords a bar")
    row = _ROWS.get(_plain(name))
    if row is None:
        raise UnknownNameError(f'"{name}" is not a progression in the table.', hint=nearest(name, _ROWS))
    if isinstance(row, BluesRow):
        written = row.one if chords_a_bar == 1 else row.two
        return tuple(tuple(_symbol(step, key.tonic) for step in bar.split()) for bar in written)
    if isinstance(row, LineRow):
        symbols = [f"{key.tonic}{quality}" for quality in row.qualities]
    else:
        symbols = [_symbol(step, key.tonic) for step in row.steps]
    return tuple(
        tuple(symbols[place : place + chords_a_bar]) for place in range(0, len(symbols), chords_a_bar)
    )


def _symbol(step: str, tonic: NoteName) -> str:
    """Return the usual chord symbol of a step in a key, its root called by a plain name."""
    row = STEPS[step]
    root = tonic + degree_interval(row.degree)
    while root.fifths not in _PLAIN_FIFTHS:
        root = NoteName(root.fifths + (12 if root.fifths < _PLAIN_FIFTHS.start else -12))
    return f"{root}{ROLES[row.role].written}"


def _plain(name: str) -> str:
    """Return a name as names are compared: with one kind of dash and accidental. Case makes a difference."""
    return " ".join(name.replace("-", "–").replace("♭", "b").replace("♯", "#").split())


_FILE = "src/shedbook/theory/tables/progressions.py"


def index(
    progressions: Sequence[ProgressionRow], blues: Sequence[BluesRow], lines: Sequence[LineRow] = ()
) -> Mapping[str, ProgressionRow | BluesRow | LineRow]:
    """Map every name and alias to its row.

    Raises:
        TableError: if a row has no name, no source, fewer than two steps or a step that is not known, or a
            name is used twice.
    """
    for row in progressions:
        _check_steps(row.name, (*row.steps, *row.goals))
        need(
            len(row.steps) > 1,
            f'The progression "{row.name}" has fewer than two steps.',
            f"Write its steps in {_FILE}; a single chord is no progression.",
        )
    for form in blues:
        anchors = [step for _, steps in form.anchors for step in steps]
        _check_steps(form.name, [*anchors, *(step for bar in (*form.one, *form.two) for step in bar.split())])
        need(
            len(form.one) == len(form.two) == _BLUES_BARS,
            f'The form "{form.name}" is not written out in {_BLUES_BARS} bars.',
            f"Write as many in both of its ways in {_FILE}.",
        )
    every: list[ProgressionRow | BluesRow | LineRow] = [*progressions, *blues, *lines]
    return by_names(every, what="a progression", file=_FILE, fold=_plain)


def _check_steps(name: str, steps: Sequence[str]) -> None:
    for step in steps:
        need(
            step in STEPS,
            f'The progression "{name}" has a step "{step}" that is not known.',
            f'Write "{step}": StepRow(…) into STEPS in {_FILE}.',
        )


def check_roles(
    steps: Mapping[str, StepRow], roles: Mapping[str, RoleRow], kinds: Collection[str] = KIND_CLASSES
) -> None:
    """See that every step has a role, and every role kinds of chords that may play it.

    Raises:
        TableError: if one is not known, or is written out as something that is no chord symbol.
    """
    for step, row in steps.items():
        need(
            row.role in roles,
            f'The step "{step}" has a role "{row.role}" that nobody can play.',
            f'Write "{row.role}": RoleRow(…) into ROLES in {_FILE}.',
        )
    for role, played in roles.items():
        unknown = [kind for kind, _ in played.kinds if kind not in kinds]
        need(
            bool(played.kinds) and not unknown,
            f'The role "{role}" may be played by "{"".join(unknown[:1])}", which is no kind of chord.',
            "Kinds stand in KIND_CLASSES in src/shedbook/theory/tables/chord_functions.py: "
            f"{', '.join(kinds)}.",
        )


check_roles(STEPS, ROLES)
_ROWS = index(PROGRESSIONS, BLUES, LINES)
_SEMITONES = MappingProxyType(
    {name: degree_interval(row.degree).semitones % 12 for name, row in STEPS.items()}
)
_KINDS = MappingProxyType({name: dict(ROLES[row.role].kinds) for name, row in STEPS.items()})


_OF_A_BLUES = frozenset(
    row.name for row in PROGRESSIONS if all(STEPS[step].role == "blues home" for step in row.steps)
)
"""Progressions that a whole blues says already."""


def _openings() -> MappingProxyType[tuple[str, int, str], tuple[ProgressionRow, ...]]:
    """Return the rows by how they may begin: kind of chord, half steps up to the next root, its kind."""
    found: dict[tuple[str, int, str], list[ProgressionRow]] = {}
    for row in PROGRESSIONS:
        one, two = row.steps[:2]
        move = (_SEMITONES[two] - _SEMITONES[one]) % 12
        for first, second in product(_KINDS[one], _KINDS[two]):
            found.setdefault((first, move, second), []).append(row)
    return MappingProxyType({opening: tuple(rows) for opening, rows in found.items()})


_OPENINGS = _openings()
