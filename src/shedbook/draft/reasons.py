"""Why a draft is offered: where it starts, what comes back, where it peaks and lands."""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.analysis.account import Account
from shedbook.analysis.account.coverage import Coverage
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.spoken_names import degree_words
from shedbook.theory.metre import beat_words


def reasons(account: Account, motif: tuple[int, int, int]) -> tuple[str, ...]:
    """Return the sentences; `motif` is (notes, first note, first note where it comes back).

    Names of notes and chords are those of concert pitch; beats are counted in the metre's denominator.
    """
    notes = account.notes
    if not notes:
        return ()
    found = [f"It starts on {_named(notes[0])}."]
    size, first, again = motif
    if size:
        found.append(
            f"{_count(size)} notes from {_place(notes[first])} come back at {_place(notes[again])}"
            f"{_moved(notes[again].midi - notes[first].midi)}."
        )
    whole = [one for one in account.coverage if one.complete]
    if whole:
        found.append(f"Every note of the scale sounds over {' and '.join(_chords(account, whole))}.")
    top = max(notes, key=lambda note: note.midi)
    found.append(f"Its peak is {top.pitch.name} in bar {top.bar}, and it lands on {_named(notes[-1])}.")
    outside = sum(1 for note in notes if not note.inside)
    if outside:
        found.append(f"{_count(outside)} {'note' if outside == 1 else 'notes'} outside the scale, resolved.")
    return tuple(found)


def _chords(account: Account, whole: Sequence[Coverage]) -> list[str]:
    return list(dict.fromkeys(account.spans[at].chord.text for one in whole for at in one.spans))


def _named(note: NoteAccount) -> str:
    if not note.degree:
        return str(note.pitch.name)
    return f"{note.pitch.name}, {degree_words(note.degree, note.span.heard)} of {note.span.chord.text}"


def _place(note: NoteAccount) -> str:
    bar = "the pick-up" if note.bar == 0 else f"bar {note.bar}"
    return f"{bar}, beat {beat_words(note.beat)}"


def _moved(semitones: int) -> str:
    if not semitones:
        return ""
    way = "higher" if semitones > 0 else "lower"
    return f", {abs(semitones)} half {'step' if abs(semitones) == 1 else 'steps'} {way}"


def _count(number: int) -> str:
    words = (
        "no",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
    )
    text = words[number] if number < len(words) else str(number)
    return text[0].upper() + text[1:]
