"""The analysis against what the project did not make: music21's chords, its corpus, its voice leading.

Sources stand beside each check. music21 10.5 reads only some chord symbols rightly; those are used here.
"""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from music21 import harmony, pitch, voiceLeading

from analysis.corpus import chorales, melodies
from analysis.helpers import read
from shedbook.analysis.account import Account, account
from shedbook.analysis.account.contour import morris_reduction
from shedbook.analysis.proof import proof
from shedbook.analysis.roles.role_names import ROLES
from shedbook.analysis.telling import explain
from shedbook.theory.pitch import spellings

# Symbols that music21's ChordSymbol reads as the trade does; B flat and so on are "B-" there.
ROOTS = (("C", "C"), ("Bb", "B-"), ("F#", "F#"), ("Eb", "E-"), ("A", "A"))
KINDS = ("", "m", "7", "maj7", "m7", "m7b5", "dim7", "6", "m6", "9", "7b9", "7#11", "m9", "dim", "sus4")
MUSIC21_KINDS = {"m7b5": "m7b5", "dim7": "dim7", "7b9": "7 addb9", "7#11": "7 add#11"}

# Semitones above the root for music21's generic interval names of a chord's degrees.
_CHROMATIC = [str(spellings(midi)[0]).lower() for midi in range(60, 72)]


@pytest.mark.parametrize("kind", KINDS)
def test_chord_tones_against_music21(kind: str) -> None:
    """music21 10.5, harmony.ChordSymbol: its pitches are the notes whose membership is "chord"."""
    for ours, theirs in ROOTS:
        expected = {
            one.pitchClass for one in harmony.ChordSymbol(theirs + MUSIC21_KINDS.get(kind, kind)).pitches
        }
        line = "1/4 " + " | ".join(" ".join(_CHROMATIC[bar * 4 : bar * 4 + 4]) for bar in range(3))
        found = read(f"{ours}{kind} | % | %", line)
        assert {note.midi % 12 for note in found.notes if note.in_chord} == expected


@pytest.mark.parametrize("kind", KINDS)
def test_degrees_against_music21(kind: str) -> None:
    """music21 10.5, interval from the root: its size agrees with the degree of every chord tone."""
    sizes = {"1": 0, "b9": 1, "9": 2, "b3": 3, "3": 4, "4": 5, "#11": 6, "b5": 6, "5": 7, "6": 9, "bb7": 9,
             "b7": 10, "7": 11}  # fmt: skip
    for ours, theirs in ROOTS:
        symbol = harmony.ChordSymbol(theirs + MUSIC21_KINDS.get(kind, kind))
        root = symbol.root()
        for one in symbol.pitches:
            name = spellings(60 + pitch.Pitch(one.name).pitchClass)[0]
            (note,) = read(f"{ours}{kind}", f"1/1 {str(name).lower()}").notes
            assert sizes[note.degree] == (one.pitchClass - root.pitchClass) % 12


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
        assert 5 <= len(explain(found)) <= 12
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


# Figuration as harmony books teach it: passing, neighbour, suspension, anticipation, appoggiatura,
# escape tone. After Aldwell, Schachter & Cadwallader, Harmony and Voice Leading, the chapters on
# figuration; patterns from memory, keys and rhythms ours.
FIGURATION = [
    ("C", "1/4 c5 d5 1/2 e5", 1, "scale tone", "passing"),
    ("C", "1/4 e5 f5 1/2 e5", 1, "neighbour", "upper"),
    ("C", "1/4 e5 d#5 1/2 e5", 1, "neighbour", "lower"),
    ("G7 | C", "1/2 d5 f5 | 1/4 f5 e5 1/2 e5", 2, "suspension", "struck again"),
    ("G | C", "1/2 b4 1/4. d5 1/8 c5 | 1/1 c5", 2, "anticipation", "repeated"),
    ("C | G", "1/2 c5 e5 | 1/4 f#5 g5 1/2 d5", 2, "scale tone", "passing"),
    ("Am | E7", "1/4 a4 c5 1/4 d#5 e5 | 1/1 e5", 2, "leaning note", "from below"),
    ("C", "1/4 g4 g#4 1/2 a4", 1, "passing note", "up"),
]


@pytest.mark.parametrize(("changes", "line", "index", "role", "detail"), FIGURATION)
def test_figuration(changes: str, line: str, index: int, role: str, detail: str) -> None:
    note = read(changes, line).notes[index]
    assert note.role == role
    assert note.detail == detail


# Morris 1993, New Directions in the Theory and Analysis of Musical Contour, Music Theory Spectrum 15/2:
# contours, primes and depths, all from memory.
MORRIS = [
    ((0, 4, 3, 2, 5, 5, 1), (0, 2, 1), 2),
    ((0, 1), (0, 1), 0),
    ((0, 2, 1), (0, 2, 1), 0),
    ((0, 1, 2, 3), (0, 1), 1),
    ((1, 0, 2, 1), (1, 0, 2, 1), 0),
]


@pytest.mark.parametrize(("pitches", "prime", "depth"), MORRIS)
def test_contour_reduction(pitches: tuple[int, ...], prime: tuple[int, ...], depth: int) -> None:
    assert morris_reduction(list(pitches)) == (prime, depth)


@pytest.mark.parametrize("seed", range(40))
def test_a_prime_reduces_to_itself(seed: int) -> None:
    pitches = [(seed * 7919 + place * place * 31) % 17 for place in range(3 + seed % 20)]
    prime, _ = morris_reduction(pitches)
    assert morris_reduction(list(prime)) == (prime, 0)
    assert (prime[0] < prime[-1]) == (pitches[0] < pitches[-1])
    assert max(prime) == len(set(prime)) - 1
