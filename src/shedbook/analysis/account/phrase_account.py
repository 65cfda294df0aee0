"""The account of a phrase: every note accounted for, and what makes the line work.

`account` is the one door: it reads the phrase once and returns a frozen value that the explanation, the
proof-reader and the pages read.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.analysis.account.contour import Contour, contour
from shedbook.analysis.account.coverage import Coverage, coverage, coverage_over_phrase
from shedbook.analysis.account.difficulty import Difficulty, difficulty
from shedbook.analysis.account.figures import Figure, figures
from shedbook.analysis.account.landings import Landing, landings
from shedbook.analysis.account.melodic_links import Link, melodic_links
from shedbook.analysis.account.note_account import NoteAccount, Rival
from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, Span, spans_of
from shedbook.analysis.hearing.harmony import Harmony, harmony
from shedbook.analysis.hearing.heard_notes import HeardNote, HeardNotes, hear_notes
from shedbook.analysis.hearing.note_places import STRONG_BEAT, accent_at, note_places
from shedbook.analysis.hearing.scale_fit import ScaleFit, fit_scales
from shedbook.analysis.roles.blue_notes import BLUE_NAMES
from shedbook.analysis.roles.cheapest_cover import Reading, read
from shedbook.analysis.roles.nodes import Line, line_of
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.role_names import (
    BLUE,
    CHORD_TONE,
    HELD_OVER,
    SCALE_TONE,
    SUPERIMPOSED,
    SUSPENSION,
)
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.metre import Metre, quarters


@dataclass(frozen=True, slots=True)
class Account:
    """Everything that is known of a phrase.

    `spans` are the stretches over one chord and scale; `fits` goes with the changes and says how each
    scale was come by; `reader` is the interval from concert pitch to the reader's part.
    """

    phrase: Phrase
    reader: Interval
    harmony: Harmony
    fits: tuple[ScaleFit, ...]
    spans: tuple[Span, ...]
    notes: tuple[NoteAccount, ...]
    figures: tuple[Figure, ...]
    landings: tuple[Landing, ...]
    links: tuple[Link, ...]
    coverage: tuple[Coverage, ...]
    whole_coverage: tuple[Coverage, ...]
    contour: Contour
    difficulty: Difficulty

    @property
    def accounted(self) -> int:
        """How many notes have a role other than unaccounted."""
        return sum(1 for note in self.notes if note.role != "unaccounted")


def account(phrase: Phrase, *, reader: Interval = UNISON) -> Account:
    """Return the account of a phrase.

    `reader` is the interval from concert pitch to the reader's part: it is added to the `written` pitch of
    every note and changes nothing else. A phrase without notes has an account too.
    """
    seen = harmony(phrase)
    places = note_places(phrase)
    fits = fit_scales(phrase, seen, places)
    spans = spans_of(phrase, tuple(fit.scale for fit in fits))
    heard = hear_notes(spans, places)
    blues = any("blues" in progression.name for progression in seen.progressions)
    metre = phrase.metre
    line = line_of(heard, spans, metre.bar_quarters, felt_beat(metre), blues=blues)
    notes = _notes(heard, line, read(line), reader, metre)
    groups = figures(notes)
    shape = contour(notes, groups)
    end = phrase.full_bars * metre.bar_quarters
    return Account(
        phrase=phrase,
        reader=reader,
        harmony=seen,
        fits=fits,
        spans=spans,
        notes=notes,
        figures=groups,
        landings=landings(notes, metre),
        links=melodic_links(notes, metre.bar_quarters, metre.beat_quarters, end),
        coverage=coverage(notes, spans),
        whole_coverage=coverage_over_phrase(notes, spans),
        contour=shape,
        difficulty=difficulty(notes, shape, quarters_a_minute(phrase)),
    )


def felt_beat(metre: Metre) -> Fraction:
    """Return the length of the beat that is felt, in quarters: the metre's beat, but at least a quarter."""
    return max(Fraction(1), metre.beat_quarters)


def quarters_a_minute(phrase: Phrase) -> Fraction:
    """Return the tempo of a phrase in quarters a minute, from the beats a minute that a player taps."""
    return phrase.tempo_bpm * phrase.metre.tapped_quarters


def _notes(
    heard: HeardNotes, line: Line, reading: Reading, reader: Interval, metre: Metre
) -> tuple[NoteAccount, ...]:
    """Join what each note is with what it does."""
    found: list[NoteAccount] = []
    for group, reason in enumerate(reading.chosen):
        for place in range(reason.first, reason.last + 1):
            node = line.nodes[place]
            rival = _rival(line, reading, place)
            hangs = _hangs_over(line, reason, metre)
            for note in heard.notes[node.first : node.last + 1]:
                found.append(_note(note, line, reason, group, rival, found, reader, hangs=hangs))
    return tuple(found)


def _hangs_over(line: Line, reason: Explanation, metre: Metre) -> bool:
    """Whether a suspension is held into a chord that begins on a strong beat."""
    if reason.role != SUSPENSION or reason.detail != HELD_OVER or reason.target is None:
        return False
    start = line.spans[line.nodes[reason.target].span].start
    return accent_at(metre, start % metre.bar_quarters) >= STRONG_BEAT


def _rival(line: Line, reading: Reading, place: int) -> Rival | None:
    other = reading.rivals[place]
    if other is None:
        return None
    return Rival(other.role, other.detail, _target_note(line, other), reading.margins[place])


def _target_note(line: Line, reason: Explanation) -> int | None:
    return None if reason.target is None else line.nodes[reason.target].first


def _role(reason: Explanation, membership: str) -> str:
    """Return the role of a note; in a triad laid over the chord an inside note keeps its own."""
    if reason.detail != SUPERIMPOSED or membership == OUTSIDE:
        return reason.role
    return CHORD_TONE if membership == CHORD else SCALE_TONE


def _degree(span: Span, pitch_class: int, reason: Explanation) -> str:
    """Return the degree of a note over its chord; a blue note is called by the blues: b3, b5 or b7."""
    root = span.heard.root
    if reason.role != BLUE or root is None:
        return span.degrees[pitch_class]
    return BLUE_NAMES.get((pitch_class - root.pitch_class) % 12, span.degrees[pitch_class])


def _note(
    heard: HeardNote,
    line: Line,
    reason: Explanation,
    group: int,
    rival: Rival | None,
    before: list[NoteAccount],
    reader: Interval,
    *,
    hangs: bool,
) -> NoteAccount:
    over = heard.next_span if reason.heard_next and heard.next_span is not None else heard.span
    ahead = over != heard.span
    span = line.spans[over]
    note = heard.note
    pitch_class = heard.midi % 12
    first_over = not before or before[-1].span.index != span.index
    return NoteAccount(
        index=len(before),
        pitch=note.pitch,
        written=note.pitch + reader,
        bar=note.bar,
        beat=note.beat,
        start=note.start,
        quarters=note.quarters,
        arrival=span.start if ahead else quarters(heard.arrival, line.grain),
        span=span,
        degree=_degree(span, pitch_class, reason),
        membership=span.membership(pitch_class),
        role=_role(reason, span.membership(pitch_class)),
        detail=reason.detail,
        target=_target_note(line, reason),
        landing=heard.strong or first_over or hangs,
        strong=heard.strong,
        early=heard.early or ahead,
        accent=heard.accent,
        group=group,
        joined=heard.joined,
        rival=rival,
    )
