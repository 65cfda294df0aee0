"""Rules on slips of the pen, each told with its mend and its odds.

What is suspected, and how likely it is, is found in `proof.slips`; here it is put into words, one rule for
each kind, so that a kind can be silenced by its name. Severity follows the odds.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.sayings import (
    ChordName,
    Degree,
    HighNote,
    Note,
    Saying,
    Several,
    Typed,
    Value,
    saying,
)
from shedbook.analysis.proof.finding import Found, Remedy
from shedbook.analysis.proof.rule import Example, RuleRow, slip_rule
from shedbook.analysis.proof.slips import Suspicion, severity_of, told_odds
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
        odds = told_odds(one.log_odds)
        if one.first == one.last:
            message = saying(f"finding.octave-slip.one {way}", note=HighNote(first.pitch), odds=odds)
        else:
            message = saying(
                f"finding.octave-slip.many {way}",
                n=one.last - one.first + 1,
                first=HighNote(first.pitch),
                last=HighNote(last.pitch),
                odds=odds,
            )
        shift = AN_OCTAVE if up else -AN_OCTAVE
        wrong = account.notes[one.first : one.last + 1]
        remedy = Remedy(tuple((note.index, note.pitch + shift) for note in wrong))
        yield _told(first, message, _octave_mend(account, one, meant), one, remedy)


@slip_rule(
    RuleRow(
        "accidental-slip",
        "error",
        "A note probably lost an accidental, got one too many, or kept that of the note before.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f#4 g b d5 f e d b4 | 1/2 c5 g4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f4 g b d5 f e d b4 | 1/2 c5 g4"),
        source="the figures of real lines",
    )
)
def accidental_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes a half step from the one that was meant, under the same letter."""
    for one, note, meant in _wrong_pitches(account, suspected):
        if meant.letter == note.pitch.letter:
            carried = "carried" if _carried(account, note, meant) else "meant"
            mend = saying(f"finding.accidental-slip.mend.{carried}", meant=Note(meant.name))
            message = _instead("accidental-slip", note, one)
            yield _told(note, message, mend, one, Remedy(((note.index, meant),)))


@slip_rule(
    RuleRow(
        "letter-slip",
        "error",
        "A note was probably typed under the letter beside the one that was meant.",
        fires=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 e4 g b d5 f e d b4 | 1/2 c5 g4"),
        silent=Example("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | 1/8 f4 g b d5 f e d b4 | 1/2 c5 g4"),
        source="the figures of real lines",
    )
)
def letter_slip(account: Account, suspected: Sequence[Suspicion]) -> Iterator[Found]:
    """Find notes a half step or a whole step from the one that was meant, under another letter."""
    for one, note, meant in _wrong_pitches(account, suspected):
        if meant.letter != note.pitch.letter:
            mend = saying("finding.letter-slip.mend.meant", meant=Note(meant.name))
            message = _instead("letter-slip", note, one)
            yield _told(note, message, mend, one, Remedy(((note.index, meant),)))


@slip_rule(
    RuleRow(
        "doubled-note",
        "error",
        "A note was probably typed twice, in place of the one that comes next.",
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
            meant = Note(pitch.name)
            message = saying(
                "finding.doubled-note",
                note=Note(note.pitch.name),
                meant=meant,
                odds=told_odds(one.log_odds),
            )
            mend = saying("finding.doubled-note.mend.meant", meant=meant)
            yield _told(note, message, mend, one, Remedy(((note.index, pitch),)))


@slip_rule(
    RuleRow(
        "chord-quality-slip",
        "error",
        "The notes and the chords around a chord speak for another quality of it.",
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
        for_it = tuple(Note(tone) for tone in meant.tones if tone.pitch_class in heard & (new - own))
        against = tuple(Note(tone) for tone in span.chord.tones if tone.pitch_class in (own - new) - heard)
        filled: dict[str, Value] = {
            "chord": ChordName(span.chord), "meant": ChordName(meant), "odds": told_odds(one.log_odds),
        }  # fmt: skip
        if not for_it:
            message = saying("finding.chord-quality-slip.chords", **filled)
        elif against:
            message = saying(
                "finding.chord-quality-slip.notes and none",
                **filled,
                heard=Several(for_it),
                lacking=Several(against),
            )
        else:
            message = saying("finding.chord-quality-slip.notes", **filled, heard=Several(for_it))
        mend = saying("finding.chord-quality-slip.mend.meant", typed=Typed(meant.text))
        remedy = Remedy(change=span.first_change, chord=meant.text)
        severity = severity_of(one.log_odds)
        yield Found(change.bar, change.beat, message, mend, severity=severity, remedy=remedy)


@slip_rule(
    RuleRow(
        "changes-shifted",
        "error",
        "The line goes much better with the changes a bar earlier or later.",
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
            way = "late" if one.shift > 0 else "early"
            message = saying(f"finding.changes-shifted.{way}", odds=told_odds(one.log_odds))
            mend = saying(f"finding.changes-shifted.mend.{way}")
            yield Found(1, None, message, mend, severity=severity_of(one.log_odds))


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


def _octave_mend(account: Account, one: Suspicion, meant: Pitch) -> Saying:
    """Say what to type where the wrong octave begins, and where the line goes back."""
    if one.last + 1 == len(account.notes):
        return saying("finding.octave-slip.mend.here", typed=_typed(meant))
    after = account.notes[one.last + 1].pitch
    return saying("finding.octave-slip.mend.back", typed=_typed(meant), after=_typed(after))


def _instead(rule: str, note: NoteAccount, one: Suspicion) -> Saying:
    """Say what a note is over its chord, and what would go better with the line, with the odds."""
    chord, meant = note.span.chord, meant_pitch(note, one.shift)
    written, better, odds = Note(note.pitch.name), Note(meant.name), told_odds(one.log_odds)
    if not note.degree:
        return saying(f"finding.{rule}.alone", note=written, meant=better, odds=odds)
    return saying(
        f"finding.{rule}.over",
        note=written,
        degree=Degree(note.degree, chord),
        chord=ChordName(chord),
        meant=better,
        would=Degree(chord.degree_of(meant.midi % 12), chord),
        odds=odds,
    )


def _typed(pitch: Pitch) -> Typed:
    """Return a pitch as it is typed in a line: "bb4"."""
    return Typed(str(pitch).lower())


def _carried(account: Account, note: NoteAccount, meant: Pitch) -> bool:
    """Whether a note earlier in the bar has the accidental that is missing: none carries."""
    earlier = (
        other
        for other in reversed(account.notes[: note.index])
        if other.bar == note.bar and other.pitch.letter == note.pitch.letter
    )
    before = next(earlier, None)
    return before is not None and before.pitch.name == meant.name and note.pitch.alteration == 0


def _told(note: NoteAccount, message: Saying, mend: Saying, one: Suspicion, remedy: Remedy) -> Found:
    severity = severity_of(one.log_odds)
    return Found(note.bar, note.beat, message, mend, note.index, severity=severity, remedy=remedy)
