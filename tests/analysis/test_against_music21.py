"""The analysis of lines that the project did not make: music21's corpus and its voice leading.

Sources stand beside each check.
"""

from __future__ import annotations

from collections import Counter
from functools import cache

from music21 import pitch, voiceLeading

from analysis.corpus import chorales, melodies
from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import proof
from shedbook.analysis.roles.role_names import ROLES
from shedbook.analysis.telling import explain


@cache
def corpus_accounts() -> tuple[Account, ...]:
    return tuple(account(phrase) for phrase in melodies())


@cache
def chorale_accounts() -> tuple[Account, ...]:
    return tuple(account(phrase) for phrase in chorales(range(1, 9)))


def test_every_melody_with_chord_symbols() -> None:
    """music21's corpus: lead sheets and reels that carry chord symbols. No crash, a role for every note."""
    accounts = corpus_accounts()
    assert len(accounts) >= 4
    for found in accounts:
        assert found.notes
        assert all(note.role in ROLES for note in found.notes)
        assert 1 <= len(explain(found)) <= 7
        proof(found)
    notes = sum(len(found.notes) for found in accounts)
    assert sum(found.accounted for found in accounts) / notes > 0.98  # the docs give the share


def test_every_chorale_tune_with_an_analysis() -> None:
    """Bach's tunes over the Roman-numeral analyses in music21's corpus (Riemenschneider 1 to 8)."""
    accounts = chorale_accounts()
    notes = sum(len(found.notes) for found in accounts)
    assert sum(found.accounted for found in accounts) / notes > 0.98
    roles = Counter(note.role for found in accounts for note in found.notes)
    assert roles["chord tone"] > 0.75 * notes


def test_passing_and_neighbour_notes_against_music21() -> None:
    """music21 10.5, voiceLeading.ThreeNoteLinearSegment, on the chorale tunes.

    What we call passing or neighbour could be so there; what could be so there, between two chord tones,
    is called so here or has a reason that outranks it.
    """
    outranking = {"enclosure", "anticipation", "suspension", "leaning note", "approach note"}
    agreed = 0
    for found in chorale_accounts():
        for index in range(1, len(found.notes) - 1):
            before, note, after = found.notes[index - 1 : index + 2]
            if note.in_chord or not (before.joined and note.joined):
                continue
            segment = voiceLeading.ThreeNoteLinearSegment(
                *(pitch.Pitch(str(one.pitch).replace("b", "-")) for one in (before, note, after))
            )
            passing = note.role == "passing note" or note.detail == "passing"
            neighbour = note.role == "neighbour" or note.detail == "neighbour"
            if passing:
                assert segment.couldBePassingTone()
            if neighbour:
                assert segment.couldBeNeighborTone()
            agreed += passing or neighbour
            if before.in_chord and after.in_chord and segment.couldBePassingTone():
                assert passing or note.role in outranking
            if before.in_chord and after.in_chord and segment.couldBeNeighborTone():
                assert neighbour or note.role in outranking
    assert agreed >= 15
