"""Rules on notes outside chord and scale: on strong beats, held, unresolved, or a slip of the pen.

A note that contradicts its chord is reported as that alone: the other rules leave it out.
"""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account, felt_beat
from shedbook.analysis.account.landings import excuse
from shedbook.analysis.account.note_account import NoteAccount, followed_by_step
from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE, Span
from shedbook.analysis.naming.spoken_names import chord_words, degree_words, pitch_words
from shedbook.analysis.proof.finding import Found, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
from shedbook.analysis.roles.role_names import (
    BLUE,
    PEDAL,
    SUSPENSION,
    UNACCOUNTED,
)
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import Pitch, spellings


@phrase_rule(
    RuleRow(
        "chord-contradicted",
        "error",
        "A note that speaks against the chord's own third, fifth or seventh is held or stands on a strong "
        "beat, and nothing excuses it.",
        "Change the note or the chord symbol.",
        fires=Example("Cm7 | Fm7", "1/2 e4 g4 | 1/2 ab4 c4", "dorian | dorian"),
        silent=Example("Cm7 | Fm7", "1/2 eb4 g4 | 1/2 ab4 c4", "dorian | dorian"),
        source="common practice",
    )
)
def chord_contradicted(account: Account) -> Iterator[Found]:
    """Find notes against the chord they stand over, and notes held into a chord that they speak against."""
    for note in account.notes:
        how = _contradicts(account, note)
        if how:
            name, chord = pitch_words(note.pitch), note.span.chord
            heard = "a minor third" if note.degree == "#9" else degree_words(note.degree, chord)
            message = f"{name} is {heard} over {chord_words(chord)}, and it {how}."
            yield found_at(note, message, f"Change {name}, or the symbol {chord.text}.")
        for span in _spans_held_into(account, note):
            if _speaks_against(_degree_over(note, span), span.heard):
                yield _held_into(account, note, span)


@phrase_rule(
    RuleRow(
        "strong-beat-outside",
        "error",
        "An outside note stands on a strong beat and nothing accounts for it.",
        "Move it off the beat, resolve it by step, or write the note of the scale beside it.",
        fires=Example("Cmaj7", "1/8 c5 b4 g e 1/4 ab4 e4", "ionian"),
        silent=Example("Cmaj7", "1/8 c5 b4 g e 1/8 ab4 g4 1/4 e4", "ionian"),
        source="common practice",
    )
)
def strong_beat_outside(account: Account) -> Iterator[Found]:
    """Find outside notes on strong beats that have no role."""
    for note in _outside_notes(account):
        if note.strong and note.role == UNACCOUNTED:
            name = pitch_words(note.pitch)
            message = f"{name} is outside {_home(note)}, stands on a strong beat and is not resolved."
            yield found_at(note, message)


@phrase_rule(
    RuleRow(
        "strong-beat-unexcused",
        "warning",
        "An outside note on a strong beat is accounted for, but by nothing that excuses an accent: it is no "
        "suspension, leaning note, start of an enclosure, blue note or part of a run of half steps.",
        "Move it to a weak place, or let it resolve by step within a beat.",
        fires=Example("Cmaj7 | %", "1/4 c5 e5 1/2 ab4 | 1/1 g4", "ionian | %"),
        silent=Example("Cmaj7 | %", "1/4 c5 e5 ab4 g4 | 1/1 g4", "ionian | %"),
        source="common practice",
    )
)
def strong_beat_unexcused(account: Account) -> Iterator[Found]:
    """Find outside notes on strong beats whose role does not excuse the accent."""
    for note in _outside_notes(account):
        if note.strong and note.role != UNACCOUNTED and excuse(account.notes, note) == UNACCOUNTED:
            article = "an" if note.role[0] in "aeiou" else "a"
            name = pitch_words(note.pitch)
            message = f"{name}, {article} {note.role}, stands on a strong beat outside {_home(note)}."
            yield found_at(note, message)


@phrase_rule(
    RuleRow(
        "outside-unresolved",
        "warning",
        "An outside note never resolves.",
        "Lead it by step into a chord tone or a scale tone.",
        fires=Example("Cmaj7", "1/8 c5 f#5 c#5 g5 1/2 e5", "ionian"),
        silent=Example("Cmaj7", "1/8 c5 f5 c#5 d5 1/2 e5", "ionian"),
        source="common practice",
    )
)
def outside_unresolved(account: Account) -> Iterator[Found]:
    """Find outside notes without a role, and notes held into a chord that they lie outside of."""
    for note in account.notes:
        lost = note.role == UNACCOUNTED and not _contradicts(account, note)
        if lost and not note.strong and _slip(account, note) is None:
            message = f"{pitch_words(note.pitch)} is outside {_home(note)} and no note near it takes it up."
            yield found_at(note, message)
        for span in _spans_held_into(account, note):
            if not _speaks_against(_degree_over(note, span), span.heard):
                yield _held_into(account, note, span)


@phrase_rule(
    RuleRow(
        "likely-slip",
        "warning",
        "A lone note is not accounted for, and one a half step away would be.",
        "Check the accidental.",
        fires=Example("Dm7", "1/8 d5 c a4 f a c#5 e a", "dorian"),
        silent=Example("Dm7", "1/8 d5 c a4 f a c5 e a", "dorian"),
        source="the project's design",
    )
)
def likely_slip(account: Account) -> Iterator[Found]:
    """Find lone outside notes that are probably an accidental forgotten or too many."""
    for note in _outside_notes(account):
        meant = _slip(account, note) if note.role == UNACCOUNTED else None
        if meant is not None:
            name, chord = pitch_words(note.pitch), chord_words(note.span.chord)
            message = (
                f"{name} over {chord} is not accounted for; {pitch_words(meant)}, a half step away, would be."
            )
            yield found_at(note, message, f"Check the accidental: {pitch_words(meant)}?")


def _outside_notes(account: Account) -> list[NoteAccount]:
    """Return the notes outside chord and scale that do not contradict their chord."""
    return [note for note in account.notes if note.membership == OUTSIDE and not _contradicts(account, note)]


def _contradicts(account: Account, note: NoteAccount) -> str:
    """Return how a note speaks against its own chord: it is held, or accented; "" if it does not."""
    chord = note.span.heard
    if note.membership != OUTSIDE or chord.root is None or not _speaks_against(note.degree, chord):
        return ""
    beat = felt_beat(account.phrase.metre)
    sustained = note.quarters > beat or (note.quarters >= beat and note.role == UNACCOUNTED)
    accented = note.strong and note.role == UNACCOUNTED
    excused = note.role in (SUSPENSION, BLUE, PEDAL)
    if excused or not (sustained or accented):
        return ""
    return "is held" if sustained else "stands on a strong beat"


_AGAINST = {"3": "b3", "7": "b7", "b7": "7"}
"""A degree that is heard, and the degree of the chord that it speaks against [common practice]."""


def _speaks_against(degree: str, chord: Chord) -> bool:
    """Whether a degree contradicts a chord's third, fifth or seventh."""
    if degree == "5":
        return chord.altered or chord.fifth in ("b5", "#5")
    if degree == "#9":  # a colour over a dominant, the wrong third over a major chord
        return chord.family == "major" and chord.third == "3"
    return degree in _AGAINST and _AGAINST[degree] in chord.degrees


def _spans_held_into(account: Account, note: NoteAccount) -> list[Span]:
    """Return the spans outside of which a note lies and into which it is held, a beat or more, unresolved."""
    found: list[Span] = []
    length = note.quarters
    if length.numerator < length.denominator:  # shorter than any beat that is felt
        return found
    if note.role in (SUSPENSION, PEDAL) or followed_by_step(account.notes, note):
        return found
    for span in account.spans[note.span.index + 1 :]:
        held = min(note.end, span.end) - span.start
        if held < felt_beat(account.phrase.metre):
            break
        if span.chord.root is not None and span.membership(note.midi % 12) == OUTSIDE:
            found.append(span)
    return found


def _degree_over(note: NoteAccount, span: Span) -> str:
    return span.degrees[note.midi % 12]


def _held_into(account: Account, note: NoteAccount, span: Span) -> Found:
    """Say that a note is held into a span; it is found where the span begins."""
    metre = account.phrase.metre
    bar, rest = divmod(span.start, metre.bar_quarters)
    name, heard = pitch_words(note.pitch), degree_words(_degree_over(note, span), span.chord)
    message = f"{name} is held into {chord_words(span.chord)}, where it is {heard}, outside the scale."
    return Found(int(bar) + 1, rest / metre.beat_quarters + 1, message, note=note.index)


def _home(note: NoteAccount) -> str:
    """Name what a note is outside of: the chord with its scale."""
    chord = chord_words(note.span.chord)
    return f"the {note.span.scale_name} scale of {chord}" if note.span.scale is not None else chord


def _slip(account: Account, note: NoteAccount) -> Pitch | None:
    """Return the pitch a half step away that would be at home, for a lone note among accounted ones."""
    around = [
        account.notes[index] for index in (note.index - 1, note.index + 1) if 0 <= index < len(account.notes)
    ]
    if not around or any(other.role == UNACCOUNTED for other in around):
        return None
    taken = {other.midi for other in around}
    offers = []
    for midi in (note.midi - 1, note.midi + 1):
        membership = note.span.membership(midi % 12)
        if membership == OUTSIDE or midi in taken:
            continue
        pitch = next((one for one in spellings(midi) if one.letter == note.pitch.letter), spellings(midi)[0])
        nearness = sum(abs(other.midi - midi) for other in around)
        offers.append((pitch.letter != note.pitch.letter, membership != CHORD, nearness, midi, pitch))
    return min(offers)[-1] if offers else None
