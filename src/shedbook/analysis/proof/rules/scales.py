"""Rules on scales: notes that a scale only passes through, and a scale that the notes speak against."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account, felt_beat
from shedbook.analysis.account.note_account import NoteAccount, followed_by_step
from shedbook.analysis.naming.sayings import ChordName, Degree, Note, ScaleName, Several, Typed, saying
from shedbook.analysis.naming.spoken_names import spoken_name
from shedbook.analysis.proof.finding import Found, Remedy, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
from shedbook.theory.pitch import NoteName, spellings


@phrase_rule(
    RuleRow(
        "pass-through-held",
        "advice",
        "A scale tone a half step above a chord tone is held for two beats or more and not resolved by step.",
        fires=Example("Cmaj7", "1/4 e5 d5 1/2 f5", "ionian"),
        silent=Example("Cmaj7", "1/4 g5 f5 1/2 e5", "ionian"),
        source="common practice",
    )
)
def pass_through_held(account: Account) -> Iterator[Found]:
    """Find notes to pass through that are held and not resolved by step."""
    for note in account.notes:
        if not note.passes_through:
            continue
        held = note.quarters >= 2 * felt_beat(account.phrase.metre)
        if not held or followed_by_step(account.notes, note):
            continue
        chord, below = note.span.chord, Note(_tone_below(note))
        message = saying(
            "finding.pass-through-held",
            note=Note(note.pitch.name),
            degree=Degree(note.degree, chord),
            chord=ChordName(chord),
            below=below,
        )
        yield found_at(note, message, saying("finding.pass-through-held.mend.below", below=below))


def _tone_below(note: NoteAccount) -> NoteName:
    """Return the chord tone a half step under a note."""
    wanted = (note.midi - 1) % 12
    return next(
        (tone for tone in note.span.chord.tones if tone.pitch_class == wanted),
        spellings(note.midi - 1)[0].name,
    )


@phrase_rule(
    RuleRow(
        "scale-does-not-fit",
        "warning",
        "The notes speak against the scale that is named, and for another.",
        fires=Example("G7", "1/4 g4 ab4 bb4 c#5", "mixolydian"),
        silent=Example("G7", "1/4 g4 ab4 bb4 c#5", "half-whole diminished"),
        source="the project's design",
    )
)
def scale_does_not_fit(account: Account) -> Iterator[Found]:
    """Find scales of the author's that leave more of the line outside than another scale does."""
    said = None
    for place, (change, fit) in enumerate(zip(account.phrase.changes, account.fits, strict=True)):
        if fit.better is None or fit.scale is None or fit.outside == said:
            continue
        said = fit.outside
        names = dict.fromkeys(spoken_name(account.notes[index].pitch.name) for index in fit.outside)
        message = saying(
            f"finding.scale-does-not-fit.{'one' if len(names) == 1 else 'many'}",
            notes=Several(tuple(Note(name) for name in names)),
            scale=ScaleName(fit.scale),
            chord=ChordName(change.chord),
            better=ScaleName(fit.better),
        )
        mend = saying(
            "finding.scale-does-not-fit.mend.better",
            scale=Typed(fit.better.name),
            typed=Typed(change.chord.text),
        )
        own = fit.better.root == change.chord.root
        remedy = Remedy(change=place, scale=fit.better.name if own else str(fit.better))
        yield Found(change.bar, change.beat, message, mend, remedy=remedy)
