"""What is looked at in the changes; the project's design."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from analysis.proof.slips import plain_features
from shedbook.analysis.account import Account
from shedbook.analysis.proof.slips.chord_features import (
    OTHER_KINDS,
    OtherChord,
    chords_meant,
    notes_over,
    place_features,
    quality_features,
    shifted,
)
from shedbook.analysis.proof.slips.tables.chord_figures import PLACE_FIGURES, QUALITY_FIGURES
from shedbook.analysis.proof.slips.tables.chord_kinds import DOMINANT, MINOR_SEVENTH
from shedbook.analysis.proof.slips.typed_line import typed_line


@pytest.fixture(scope="module")
def seen() -> Account:
    """A plain line."""
    line = "1/8 d4 f a c5 b4 a g e | f4 g b d5 f e d b4 | c5 b4 g e c e g b | 1/1 c5"
    return read("Dm7 | G7 | Cmaj7 | %", line)


def test_other_kinds_are_told_apart_by_their_guide_tones(seen: Account) -> None:
    line = typed_line(seen)
    assert OtherChord(1, MINOR_SEVENTH) in set(chords_meant(line))
    features = quality_features(line, OtherChord(1, MINOR_SEVENTH))
    # Over G7 the line has B twice or more, the third, and no B flat.
    assert ("guide", (4, 3, 2, 0)) in features
    assert {name for name, _ in features} <= set(QUALITY_FIGURES)


def test_features_of_chords_are_those_of_a_plain_reading(seen: Account) -> None:
    crowded = read(
        "Dm7 G7 | Cmaj7 C6 | Dm6 | Bm7b5 E7 | Am7 | Dm7 | N.C. | G7",
        "1/8 d4 f a c5 b4 d5 g f | e g c5 b4 a g e c | 1/4 d4 f a b | 1/8 d5 b4 f d e g# b d5"
        " | c e g a c b a g | f e d c b4 c a f | 1/2 e4 g | 1/8 g4 b d5 f e d b4 g",
    )
    for line in (typed_line(seen), typed_line(crowded)):
        for other in chords_meant(line):
            found = quality_features(line, other)
            assert sorted(found) == sorted(plain_features.quality_features(line, *other)), other


def test_a_kind_is_never_its_own_alternative() -> None:
    assert all(kind not in others for kind, others in OTHER_KINDS.items())
    assert DOMINANT in OTHER_KINDS[MINOR_SEVENTH]


def test_notes_over_a_chord(seen: Account) -> None:
    line = typed_line(seen)
    for span in set(line.span):
        assert list(notes_over(line, span)) == [at for at, own in enumerate(line.span) if own == span]


def test_changes_moved_there_and_back_say_the_opposite(seen: Account) -> None:
    notes = shifted(seen, 1)
    assert notes is not None
    assert all(note.meant != note.written for note in notes)
    back = [note._replace(meant=note.written, written=note.meant) for note in notes]
    there = place_features(notes)
    assert place_features(back) == {key: -many for key, many in there.items()}
    assert {name for name, _ in there} <= set(PLACE_FIGURES)


def test_changes_that_do_not_move_cannot_be_shifted() -> None:
    assert shifted(read("C7 | % | %", "1/4 c4 e g bb | c5 bb4 g e | 1/1 c4"), 1) is None
