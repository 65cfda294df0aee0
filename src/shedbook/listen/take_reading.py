"""One take held against its phrase: every note of it, and what is wrong, missing and extra."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.listen.evidence import Evidence, evidence_of
from shedbook.listen.free_search import free_notes
from shedbook.listen.intonation import is_tone
from shedbook.listen.lines import Line, PlayedNote, played_notes
from shedbook.listen.note_search import EXTRA, PLAYED, WRONG, Expected, FoundNote, line_notes
from shedbook.listen.octave_slips import with_octaves_mended
from shedbook.listen.sound_pieces import Heard, Piece, pieces_of, samples_between
from shedbook.listen.tables.hearing import HIGHEST_MIDI, LOWEST_MIDI
from shedbook.listen.tables.search_costs import TIME_SPREAD_FRAMES
from shedbook.listen.which_phrase import Likely, likeliest, likely_phrases

MISSING = "missing"
_LEAST_TO_FIT = 5
_APART_S = 0.12
_MOST_PIECES, _MOST_PAUSE_S = 4, 8.0
_A_TAKE_COSTS = 1.5
_WORDS_COST = 0.5
"""How much likelier a take must be without what may be words before it: a wrong first note is no word."""
_SLATE_MARGIN_S = 0.1
"""How much before and after its tones a slate still sounds: their fades and the room."""
_WORDS_BEGIN_S, _WORDS_LAST_S = 3.0, 20.0
"""How soon after the tones of a slate its words begin, and how long they last together at most."""
_TWO_ROUNDS = 1.6
"""From how many times its notes a piece may be a phrase played more than once."""
_BEFORE_S = 0.03
"""How much before its first note a round begins at least."""
_BREATH_S = 0.25
"""How long it is quiet at least between the words of a slate and the first note."""
_KEPT_S = 300.0
"""Of so much sound at most, between two slates, what is heard is kept until it is held against a phrase;
0.3 MB a second."""


class Slated(NamedTuple):
    """A slate in a recording, in seconds, and which of the lines it says comes next, None for none."""

    start_s: float
    end_s: float
    line: int | None = None


class Slip(NamedTuple):
    """A note that is not as written.

    Attributes:
        kind: "wrong", "missing" or "extra".
        which: the note of the line; for an extra one that before it, −1 for none.
        written: the MIDI number that was to sound, None for an extra note.
        sounded: the one that did, None for a missing note.
        at_s: when, in seconds of the recording; None for a missing note.
        doubt: how little speaks for it, 0 to 1.
    """

    kind: str
    which: int
    written: int | None
    sounded: int | None
    at_s: float | None
    doubt: float


@dataclass(frozen=True, slots=True)
class TakeReading:
    """A take as it was heard.

    Attributes:
        line: which of the lines it is.
        moved: by how many half steps it sounds higher than the line is written.
        start_s: where its first note begins, in seconds of the recording.
        end_s: where its last note ends.
        played: for each note of the line what was heard in its place, None where it is missing.
        slips: what is wrong, missing and extra, in order.
        likeness: as `which_phrase.Likely`.
        slate: the slate after which it was played, by its place among those given; None for none.
        since_s: from where on no slate, nor words of one, sounds before it.
        until_s: up to where none sounds after it.
    """

    line: int
    moved: int
    start_s: float
    end_s: float
    played: tuple[PlayedNote | None, ...]
    slips: tuple[Slip, ...]
    likeness: float
    slate: int | None = None
    since_s: float = 0.0
    until_s: float = inf

    @property
    def right(self) -> tuple[tuple[int, PlayedNote], ...]:
        """The notes that were played as written, each with its index in the line."""
        wrong = {slip.which for slip in self.slips if slip.kind == WRONG}
        return tuple(
            (index, note) for index, note in enumerate(self.played) if note is not None and index not in wrong
        )


@dataclass(frozen=True, slots=True)
class UnknownPiece:
    """A piece of a recording that is no take; `nearest` are phrases that it is a little like.

    `notes` are those that are tones: noise has none.
    `slate` is the slate whose words it is taken for, None where it is something else.
    """

    start_s: float
    end_s: float
    notes: int
    nearest: tuple[Likely, ...] = ()
    slate: int | None = None


@dataclass(frozen=True, slots=True)
class Takes:
    """What is in a recording, in order."""

    takes: tuple[TakeReading, ...]
    others: tuple[UnknownPiece, ...]


class _HeardPiece(NamedTuple):
    """A piece, its notes, how many are tones, and what is heard in it, None where that is not kept."""

    piece: Piece
    notes: tuple[PlayedNote, ...]
    tones: int = 0
    evidence: Evidence | None = None


class _Group(NamedTuple):
    """Pieces in a row that are one take, or one that is none; how many notes of the first are words."""

    first: int
    end: int
    likely: Likely | None
    words: int = 0


def takes_in(heard: Heard, lines: Sequence[Line], slates: Sequence[Slated] = ()) -> Takes:
    """Return the takes in a recording, each against the phrase that it is likeliest to be.

    Args:
        heard: the recording.
        lines: the phrases that it may hold, in their own keys.
        slates: those in it, in order. No take goes over one, none of its sound belongs to a take.
    """
    quiet = [Piece(one.start_s - _SLATE_MARGIN_S, one.end_s + _SLATE_MARGIN_S) for one in slates]
    pieces = pieces_of(heard, quiet)
    takes: list[TakeReading] = []
    others: list[UnknownPiece] = []
    for after in range(-1, len(slates)):
        since = quiet[after].end_s if after >= 0 else 0.0
        until = quiet[after + 1].start_s if after + 1 < len(slates) else inf
        own = [one for one in pieces if since <= one.start_s + _SLATE_MARGIN_S < until]
        slate = slates[after] if after >= 0 else None
        inside = _section(heard, _heard_pieces(own, heard), lines, slate)
        place = after if slate is not None else None
        takes += [
            replace(take, slate=place, since_s=max(take.since_s, since), until_s=until)
            for take in inside.takes
        ]
        others += [one if one.slate is None else replace(one, slate=place) for one in inside.others]
    return Takes(tuple(takes), tuple(others))


def _heard_pieces(pieces: Sequence[Piece], heard: Heard) -> list[_HeardPiece]:
    """Return pieces with their notes."""
    found, seconds = [], 0.0
    for piece in pieces:
        evidence = evidence_of(samples_between(heard, *piece), heard.rate)
        notes = with_octaves_mended(free_notes(evidence), evidence)
        seconds += piece.end_s - piece.start_s
        kept = evidence if seconds <= _KEPT_S else None
        tones = sum(is_tone(note, evidence) for note in notes)
        found.append(_HeardPiece(piece, played_notes(notes, evidence, piece.start_s), tones, kept))
    return found


def _section(
    heard: Heard, pieces: Sequence[_HeardPiece], lines: Sequence[Line], slate: Slated | None
) -> Takes:
    """Return what is played after a slate, or before the first one, up to the next; the slate being 0."""
    takes, others = [], []
    words_since = slate.end_s if slate is not None else -inf
    named = slate.line if slate is not None else None
    pieces = [part for one in pieces for part in _rounds(one, lines, named)]
    for group in _grouped(pieces, lines, slate):
        one = pieces[group.first]
        if group.likely is None:
            words = _may_be_words(one.piece, slate, words_since)
            words_since = one.piece.end_s if words else -inf
            if one.notes:
                near = likely_phrases(one.notes, lines)
                own = 0 if words else None
                others.append(UnknownPiece(one.piece.start_s, one.piece.end_s, one.tones, near, own))
            continue
        words_since = -inf
        start = one.piece.start_s
        if group.words:
            start = (one.notes[group.words - 1].end_s + one.notes[group.words].start_s) / 2
        span = Piece(start, pieces[group.end - 1].piece.end_s)
        kept = one.evidence if span == one.piece else None
        take = read_take(heard, span, lines[group.likely.which], group.likely, kept)
        takes.append(replace(take, since_s=start) if group.words else take)
    return Takes(tuple(takes), tuple(others))


def _rounds(one: _HeardPiece, lines: Sequence[Line], named: int | None) -> list[_HeardPiece]:
    """Return a piece that is none of the lines cut where the one that was named begins again."""
    if named is None or likeliest(one.notes, lines) is not None:
        return [one]
    found, rest, start = [], one.notes, one.piece.start_s
    count = len(lines[named].notes)
    while len(rest) >= _TWO_ROUNDS * count:
        score, end = max(
            (sum(way.score for way in likely_phrases(rest[:end], [lines[named]], 1)), end)
            for end in range(round((2 - _TWO_ROUNDS) * count) + 1, round(_TWO_ROUNDS * count) + 1)
        )
        if not score or end == len(rest):
            break
        cut = max(min(rest[end - 1].end_s, rest[end].start_s - _BEFORE_S), rest[end - 1].start_s)
        found.append(_HeardPiece(Piece(start, cut), rest[:end], end))
        rest, start = rest[end:], cut
    if not found:
        return [one]
    return [*found, _HeardPiece(Piece(start, one.piece.end_s), rest, len(rest))]


def _may_be_words(piece: Piece, slate: Slated | None, since_s: float) -> bool:
    """Whether a piece that is no take may be words of a slate: soon after its tones, or after such words."""
    if slate is None:
        return False
    return piece.start_s - since_s < _WORDS_BEGIN_S and piece.end_s - slate.end_s < _WORDS_LAST_S


def _grouped(pieces: Sequence[_HeardPiece], lines: Sequence[Line], slate: Slated | None) -> list[_Group]:
    """Return the pieces as takes, each one piece or a few: a phrase may have a long rest."""
    named = None if slate is None else slate.line
    best = [0.0] * (len(pieces) + 1)
    way = [_Group(0, 0, None)] * (len(pieces) + 1)
    for end in range(1, len(pieces) + 1):
        best[end], way[end] = best[end - 1], _Group(end - 1, end, None)
        for first in range(end - 1, max(-1, end - 1 - _MOST_PIECES), -1):
            if (
                first < end - 1
                and pieces[first + 1].piece.start_s - pieces[first].piece.end_s > _MOST_PAUSE_S
            ):
                break
            notes = tuple(note for one in pieces[first:end] for note in one.notes)
            for words in _ends_of_words(pieces[first], slate):
                likely = likeliest(notes[words:], lines, named)
                if likely is None:
                    continue
                score = best[first] + likely.score - _A_TAKE_COSTS - (_WORDS_COST if words else 0)
                if score > best[end]:
                    best[end], way[end] = score, _Group(first, end, likely, words)
    found, end = [], len(pieces)
    while end:
        found.append(way[end])
        end = way[end].first
    return found[::-1]


def _ends_of_words(one: _HeardPiece, slate: Slated | None) -> list[int]:
    """Return how many notes of a piece may be the words of a slate: none, or those before a breath."""
    if slate is None or one.piece.start_s - slate.end_s > _WORDS_LAST_S:
        return [0]
    return [0] + [
        place
        for place, (before, note) in enumerate(pairwise(one.notes), 1)
        if note.start_s - before.end_s >= _BREATH_S and before.end_s - slate.end_s < _WORDS_LAST_S
    ]


def read_take(
    heard: Heard, span: Piece, line: Line, likely: Likely, evidence: Evidence | None = None
) -> TakeReading:
    """Return a take held against its phrase.

    Args:
        heard: the recording.
        span: the piece of it.
        line: the phrase in its own key.
        likely: which of the lines that is, and by how much it sounds higher.
        evidence: what is heard in the piece, None where that is to be found first.
    """
    if evidence is None:
        evidence = evidence_of(samples_between(heard, *span), heard.rate)
    written = [min(HIGHEST_MIDI, max(LOWEST_MIDI, midi + likely.moved)) for midi in line.midi]
    found = line_notes(evidence, written)
    expected = expected_frames(found, line)
    if expected is not None:
        found = line_notes(evidence, written, expected)
    found = _without_what_is_before(found, evidence)
    notes = played_notes(found, evidence, span.start_s)
    played: list[PlayedNote | None] = [None] * len(written)
    slips = []
    for one, note in zip(found, notes, strict=True):
        if one.kind != EXTRA:
            played[one.which] = note if one.kind == WRONG else note._replace(midi=written[one.which])
        if one.kind != PLAYED:
            own = None if one.kind == EXTRA else written[one.which]
            slips.append(Slip(one.kind, one.which, own, one.midi, note.start_s, note.doubt))
    slips += [
        Slip(MISSING, index, written[index], None, None, 0.0)
        for index, note in enumerate(played)
        if note is None
    ]
    slips.sort(key=lambda slip: (slip.which, slip.kind == EXTRA))
    sounding = [note for note in notes] or [PlayedNote(span.start_s, span.end_s, 0, None, 1.0)]
    return TakeReading(
        likely.which,
        likely.moved,
        sounding[0].start_s,
        sounding[-1].end_s,
        tuple(played),
        tuple(slips),
        likely.likeness,
    )


def _without_what_is_before(found: Sequence[FoundNote], evidence: Evidence) -> tuple[FoundNote, ...]:
    """Return the notes without what sounds apart before the first of the line: a count-in, a cough."""
    first = next((at for at, note in enumerate(found) if note.kind != EXTRA), 0)
    for at in range(first, 0, -1):
        if (found[at].first - found[at - 1].end) * evidence.frame_s > _APART_S:
            return tuple(found[at:])
    return tuple(found)


def expected_frames(found: Sequence[FoundNote], line: Line) -> Expected | None:
    """Return where the notes of a line are expected, from those that were found; None if these are too few.

    A tempo that may change evenly, and for each place in the beat its own lateness, so that swing is no
    surprise; notes that lie far away are left out of it.
    """
    right = [note for note in found if note.kind == PLAYED]
    if len(right) < _LEAST_TO_FIT:
        return None
    rows = _places(line)
    at = np.array([note.which for note in right])
    frames = np.array([note.first for note in right], float)
    kept = np.ones(len(at), bool)
    spread = TIME_SPREAD_FRAMES
    for _ in range(4):
        ways, *_ = np.linalg.lstsq(rows[at[kept]], frames[kept], rcond=None)
        away = np.abs(frames - rows[at] @ ways)
        spread = max(4.0, 1.5 * float(np.median(away[kept])))
        near = away < 4 * spread
        if near.sum() < _LEAST_TO_FIT:
            break
        kept = near
    return Expected(rows @ ways, max(TIME_SPREAD_FRAMES, 1.5 * spread))


def _places(line: Line) -> NDArray[np.float64]:
    """Return for each note 1, its place and that squared, and which place in the beat it has."""
    place = np.array([float(note.start) for note in line.notes])
    length = max(1.0, place.max() - place.min())
    columns = [np.ones(len(place)), place, ((place - place.mean()) / length) ** 2 * length]
    inside = [note.start % 1 for note in line.notes]
    for part in sorted(set(inside) - {0}):
        own = np.array([one == part for one in inside], float)
        if own.sum() >= 2:
            columns.append(own)
    return np.stack(columns, axis=1)
