"""Why a note is there, in words: what it is over its chord, what it does, and where it leads. Pure."""

from __future__ import annotations

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.naming.spoken_names import chord_words, degree_words, pitch_words
from shedbook.analysis.roles.role_names import ROLES
from shedbook.theory.metre import beat_words
from shedbook.workbench.wording import ROWS, words

ROWS.must_have([f"role.{role}" for role in ROLES], "a note can have this role")
ROWS.must_have([f"why.{role}" for role in ROLES], "a note can have this role")
ROWS.must_have([f"tension.{number}" for number in range(4)], "a note can want to move on so much")


def note_words(account: Account, index: int, tension: int) -> tuple[str, ...]:
    """Return what is said of a note: what it is, what it does, where it leads, and what else it may be.

    Args:
        account: the account of the phrase.
        index: which of its struck notes is meant.
        tension: how much it wants to move on, as `book.verbs.look` counts.
    """
    note = account.notes[index]
    said = [_is(note), words(f"why.{note.role}")]
    if note.target is not None:
        target = account.notes[note.target]
        over = degree_words(target.degree, target.span.chord)
        said.append(
            words(
                "note.leads",
                note=pitch_words(target.pitch),
                degree=over,
                chord=chord_words(target.span.chord),
            )
            if over
            else words("note.leads-to", note=pitch_words(target.pitch))
        )
    if note.landing:
        said.append(words("note.lands"))
    said.append(words(f"tension.{tension}"))
    if note.rival is not None:
        said.append(words("note.rival", role=words(f"role.{note.rival.role}")))
    return tuple(said)


def _is(note: NoteAccount) -> str:
    degree = degree_words(note.degree, note.span.chord)
    name, chord = pitch_words(note.pitch), chord_words(note.span.chord)
    place = words("place.beat", bar=note.bar, beat=beat_words(note.beat))
    row = "note.is" if degree else "note.is-without-degree"
    said = words(row, name=name, degree=degree, chord=chord, place=place)
    return said[:1].upper() + said[1:]
