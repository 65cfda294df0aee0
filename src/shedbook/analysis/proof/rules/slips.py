"""Rules on slips of the pen, each told with its mend and its odds.

What is suspected, and how likely it is, is found in `proof.slips`; here it is put into words, one rule for
each kind, so that a kind can be silenced by its name. Severity follows the odds.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.language import joined
from shedbook.analysis.naming.spoken_names import (
    chord_words,
    degree_words,
    name_words,
    pitch_with_octave,
    pitch_words,
)
from shedbook.analysis.proof.finding import Found, Remedy
from shedbook.analysis.proof.rule import Example, RuleRow, slip_rule
from shedbook.analysis.proof.slips import Suspicion, odds_words, severity_of
from shedbook.analysis.proof.slips.candidates import ACCIDENTAL, DOUBLED, LETTER, OCTAVE, STRAY
from shedbook.analysis.proof.slips.spelling import chord_with_kind, meant_pitch
from shedbook.analysis.proof.slips.suspicions import PLACE, QUALITY
from shedbook.theory.interval import OCTAVE as AN_OCTAVE
from shedbook.theory.pitch import Pitch


@slip_rule(
    RuleRow(
        "octave-slip",
        "error",
        "A note, or all notes from one place to another, were probably meant an octave higher or lower.",
        "Check the octave number: it holds until the next one.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d5 e f d c4 b a c | b d5 f e d c b4 a | 1/2 g4 e"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d5 e f d c b4 a c5 | b4 d5 f e d c b4 a | 1/2 g4 e"),
        source="the figures of real lines",
    )
)
def octave_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes in the wrong octave."""
    for one in suspected:
        if one.kind != OCTAVE:
            continue
        first, last = account.notes[one.first], account.notes[one.last]
        up = one.shift > 0
        meant = first.pitch + (AN_OCTAVE if up else -AN_OCTAVE)
        way = "low" if up else "high"
        if one.first == one.last:
            message = f"{pitch_with_octave(first.pitch)} lies an octave too {way} for the notes around it"
        else:
            many = one.last - one.first + 1
            ends = f"{pitch_with_octave(first.pitch)} to {pitch_with_octave(last.pitch)}"
            message = f"{many} notes from {ends} lie an octave too {way}"
        message += f": {odds_words(one.log_odds)} that the octave number is a slip."
        shift = AN_OCTAVE if up else -AN_OCTAVE
        wrong = account.notes[one.first : one.last + 1]
        remedy = Remedy(tuple((note.index, note.pitch + shift) for note in wrong))
        yield _told(first, message, _octave_mend(account, one, meant), one, remedy)


@slip_rule(
    RuleRow(
        "accidental-slip",
        "error",
        "A note probably lost an accidental, got one too many, or kept that of the note before.",
        "Check the accidental.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f#4 g b d5 f e d b4 | 1/2 c5 g4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f4 g b d5 f e d b4 | 1/2 c5 g4"),
        source="the figures of real lines",
    )
)
def accidental_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes a half step from the one that was meant, under the same letter."""
    for one, note, meant in _wrong_pitches(account, suspected):
        if meant.letter == note.pitch.letter:
            mend = f"Check the accidental: {pitch_words(meant)}?{_carried(account, note, meant)}"
            yield _told(note, _instead(note, one), mend, one, Remedy(((note.index, meant),)))


@slip_rule(
    RuleRow(
        "letter-slip",
        "error",
        "A note was probably typed under the letter beside the one that was meant.",
        "Check the letter.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 e4 g b d5 f e d b4 | 1/2 c5 g4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f4 g b d5 f e d b4 | 1/2 c5 g4"),
        source="the figures of real lines",
    )
)
def letter_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes a half step or a whole step from the one that was meant, under another letter."""
    for one, note, meant in _wrong_pitches(account, suspected):
        if meant.letter != note.pitch.letter:
            mend = f"Check the letter: {pitch_words(meant)}?"
            yield _told(note, _instead(note, one), mend, one, Remedy(((note.index, meant),)))


@slip_rule(
    RuleRow(
        "doubled-note",
        "error",
        "A note was probably typed twice, in place of the one that comes next.",
        "Write the note that was meant the second time.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d4 e e g a b c5 d5 | 1/8 b4 a g f e d c b3 | 1/1 c4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 e f g a b c5 d5 | 1/8 b4 a g f e d c b3 | 1/1 c4"),
        source="the figures of real lines",
    )
)
def doubled_note(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes that repeat the note before where real lines go on."""
    for one in suspected:
        if one.kind == DOUBLED:
            note = account.notes[one.first]
            pitch = meant_pitch(note, one.shift)
            meant = pitch_words(pitch)
            message = (
                f"{pitch_words(note.pitch)} stands twice where the line would go on to {meant}: "
                f"{odds_words(one.log_odds)} that it was typed twice."
            )
            remedy = Remedy(((note.index, pitch),))
            yield _told(note, message, f"Write {meant} the second time?", one, remedy)


@slip_rule(
    RuleRow(
        "chord-quality-slip",
        "error",
        "The notes and the chords around a chord speak for another quality of it.",
        "Check the chord symbol.",
        fires=Example("Dm7 | Gm7 | Cmaj7", "1/8 d4 f a c5 b4 a g f | 1/8 b4 d5 f e d b4 g b | 1/2 c5 g4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g f | 1/8 b4 d5 f e d b4 g b | 1/2 c5 g4"),
        source="the figures of real lines",
    )
)
def chord_quality_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find chords whose quality the line and the other chords speak against."""
    for one in suspected:
        if one.kind != QUALITY:
            continue
        span = account.spans[one.span]
        meant = chord_with_kind(span.chord, one.shift)
        change = account.phrase.changes[span.first_change]
        own, new = span.chord.pitch_classes, meant.pitch_classes
        heard = {note.midi % 12 for note in account.notes[one.first : one.last + 1]}
        for_it = [name_words(tone) for tone in meant.tones if tone.pitch_class in heard & (new - own)]
        against = [name_words(tone) for tone in span.chord.tones if tone.pitch_class in (own - new) - heard]
        symbol, other = chord_words(span.chord), chord_words(meant)
        said = f"Over {symbol} the line has {joined(for_it)}"
        said += f" and no {joined(against)}" if against else ""
        if for_it:
            message = f"{said}: {odds_words(one.log_odds)} that {other} was meant."
        else:
            message = (
                f"The chords around {symbol} ask for {other}: {odds_words(one.log_odds)} that it was meant."
            )
        mend = f"Check the symbol: {meant.text}?"
        remedy = Remedy(change=span.first_change, chord=meant.text)
        severity = severity_of(one.log_odds)
        yield Found(change.bar, change.beat, message, mend, severity=severity, remedy=remedy)


@slip_rule(
    RuleRow(
        "changes-shifted",
        "error",
        "The line goes much better with the changes a bar earlier or later.",
        "Check in which bar the changes begin.",
        fires=Example(
            "Bb7 | Am7 | D7 | Gmaj7 | %",
            "1/8 c5 b4 a g e f# g b | 1/8 a4 c5 d f# e d c a4 | 1/8 b4 d5 g f# d b4 g a | "
            "1/8 b4 g d f# g a b d5 | 1/2 b4 g",
        ),
        silent=Example(
            "Am7 | D7 | Gmaj7 | % | %",
            "1/8 c5 b4 a g e f# g b | 1/8 a4 c5 d f# e d c a4 | 1/8 b4 d5 g f# d b4 g a | "
            "1/8 b4 g d f# g a b d5 | 1/2 b4 g",
        ),
        source="the figures of real lines",
    )
)
def changes_shifted(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find changes that stand a bar early or late under the line."""
    for one in suspected:
        if one.kind == PLACE:
            way, mend = ("late", "earlier") if one.shift > 0 else ("early", "later")
            message = f"The changes seem to stand a bar too {way} for the line: {odds_words(one.log_odds)}."
            yield Found(
                1, None, message, f"Write the changes a bar {mend}?", severity=severity_of(one.log_odds)
            )


def _wrong_pitches(
    account: Account, suspected: Sequence[Suspicion]
) -> Iterator[tuple[Suspicion, NoteAccount, Pitch]]:
    """Yield suspicions of single notes a half or a whole step off, each with its note and what was meant.

    Accidental or letter is told apart by how the meant pitch is spelled, not by how the slip was looked for.
    """
    for one in suspected:
        if one.kind in (ACCIDENTAL, STRAY, LETTER):
            note = account.notes[one.first]
            yield one, note, meant_pitch(note, one.shift)


def _octave_mend(account: Account, one: Suspicion, meant: Pitch) -> str:
    """Say what to type where the wrong octave begins, and where the line goes back."""
    after = account.notes[one.last + 1].pitch if one.last + 1 < len(account.notes) else None
    back = "" if after is None else f", and {_typed(after)} where the line goes back"
    return f"Write {_typed(meant)}{back}."


def _instead(note: NoteAccount, one: Suspicion) -> str:
    """Say what a note is over its chord, and what would go better with the line, with the odds."""
    chord, meant = note.span.chord, meant_pitch(note, one.shift)
    over = chord_words(chord)
    is_now = degree_words(note.degree, chord)
    would = degree_words(chord.degree_of(meant.midi % 12), chord)
    written, better = pitch_words(note.pitch), pitch_words(meant)
    said = f"{written} is {is_now} over {over}; {better}, {would}, " if is_now else f"{written}; {better} "
    return f"{said}would go better with the line: {odds_words(one.log_odds)} that it was meant."


def _typed(pitch: Pitch) -> str:
    """Return a pitch as it is typed in a line: "bb4"."""
    return str(pitch).lower()


def _carried(account: Account, note: NoteAccount, meant: Pitch) -> str:
    """Say that accidentals do not carry, where a note earlier in the bar has the one that is missing."""
    earlier = (
        other
        for other in reversed(account.notes[: note.index])
        if other.bar == note.bar and other.pitch.letter == note.pitch.letter
    )
    before = next(earlier, None)
    lost = before is not None and before.pitch.name == meant.name and note.pitch.alteration == 0
    return " An accidental belongs to its note alone." if lost else ""


def _told(note: NoteAccount, message: str, mend: str, one: Suspicion, remedy: Remedy) -> Found:
    severity = severity_of(one.log_odds)
    return Found(note.bar, note.beat, message, mend, note.index, severity=severity, remedy=remedy)
