"""What may have been meant, found anew in the plainest way; the project's design."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from analysis.helpers import read
from analysis.proof.slips.drawn_lines import drawn
from analysis.proof.slips.plain_features import member
from shedbook.analysis.proof.slips.candidates import Meant, notes_meant, octaves_meant, stretch_feature
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.analysis.proof.slips.typed_line import TypedLine, typed_line


def plain_notes(line: TypedLine, at: int) -> Iterator[Meant]:
    """Whatever lies a step off and makes more sense; of a note struck twice, whatever lies a third off."""
    written, kind, root = line.midi[at], line.kind[at], line.root[at]
    before = line.midi[at - 1] if at > 0 else None
    after = line.midi[at + 1] if at + 1 < len(line.midi) else None
    if {before, after} - {None} == {written}:
        return
    for shift in (-4, -3, -2, -1, 1, 2, 3, 4):
        if written + shift in (before, after):
            continue
        degree = (written + shift - root) % 12
        from_outside = member(kind, (written - root) % 12) == 2
        landing_on_a_guide = line.stress[at] == 2 and degree in ROWS[kind].guides
        if abs(shift) == 1 and landing_on_a_guide:
            yield Meant("accidental", at, at, shift)
        if abs(shift) == 1 and not landing_on_a_guide and from_outside and member(kind, degree) < 2:
            yield Meant("stray", at, at, shift)
        if abs(shift) == 2 and landing_on_a_guide and from_outside:
            yield Meant("letter", at, at, shift)
        if before == written and not line.parted[at - 1] and member(kind, degree) < 2:
            yield Meant("doubled", at, at, shift)


def plain_octaves(line: TypedLine) -> Iterator[Meant]:
    """Every stretch between two seams that leaps less at its edges in another octave."""
    many = len(line.midi)
    seams = [
        at
        for at in range(many + 1)
        if at in (0, many) or line.parted[at - 1] or abs(line.midi[at] - line.midi[at - 1]) >= 6
    ]
    for first, end in combinations(seams, 2):
        if end - first > 24 or end - first == many:
            continue
        for shift in (-12, 12):
            sizes = [
                (abs(line.midi[at] - line.midi[at - 1]), abs(line.midi[at] - line.midi[at - 1] + moved))
                for at, moved in ((first, shift), (end, -shift))
                if 0 < at < many
            ]
            if sum(new for _, new in sizes) < sum(old for old, _ in sizes):
                yield Meant("octave", first, end - 1, shift)


def test_notes_that_may_be_meant() -> None:
    seen = set()
    for line in drawn():
        for at in range(len(line.midi)):
            found = list(notes_meant(line, at))
            assert sorted(found) == sorted(plain_notes(line, at))
            seen |= {one.kind for one in found}
    assert seen == {"accidental", "stray", "letter", "doubled"}


def test_octaves_that_may_be_meant() -> None:
    """A long line too: more notes than the program takes for a slip are left alone."""
    bar = "1/8 c4 d e f g f e d | "
    long = typed_line(read("C | % | % | % | % | %", bar * 4 + "1/8 c4 d5 e f g f e d | 1/1 c4"))
    for line in (*drawn(), long):
        assert sorted(octaves_meant(line)) == sorted(plain_octaves(line))


def test_how_long_a_stretch_is_and_whether_a_number_was_forgotten() -> None:
    line = typed_line(read("C | %", "1/8 c5 e g c6 e g4 e c | 1/1 b3"))
    told = [
        stretch_feature(line, Meant("octave", first, last, 12)) for first, last in ((1, 2), (3, 8), (5, 5))
    ]
    assert told == [("stretch", (2, True)), ("stretch", (5, False)), ("stretch", (1, False))]
    assert stretch_feature(line, Meant("octave", 0, 0, 12)) == ("stretch", (1, False))
