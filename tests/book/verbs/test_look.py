"""A phrase while it is written. What notes do is tested in tests/analysis; here, that it is all there."""

import pytest

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.verbs.look import (
    COLOUR,
    OUTSIDE,
    STILL,
    in_all_keys,
    look,
    read_fields,
    small_score,
    with_scale,
)
from shedbook.editions.instruments.edition import edition_named
from shedbook.errors import NotationError

FIELDS = {
    "title": "x",
    "changes": "Dm7 | G7 | Cmaj7",
    "line": "1/8 d4 f a c5 b4 a g e |\n f#4 g b d5 f e d b4 | 1/2 c5 g4\n",
}


def test_everything_is_there_and_stands_at_its_place() -> None:
    seen = look(FIELDS, Settings())
    line = FIELDS["line"]
    assert [line[start:end] for start, end in seen.spans][:9] == [
        "d4",
        "f",
        "a",
        "c5",
        "b4",
        "a",
        "g",
        "e",
        "f#4",
    ]
    assert len(seen.tensions) == len(seen.spans) == len(seen.account.notes) == 18
    assert (seen.tensions[0], seen.tensions[4], seen.tensions[8]) == (STILL, COLOUR, OUTSIDE)
    assert seen.names[1][5] == "f"
    assert set(seen.inside[1]) == set(["g", "a", "b", "c", "d", "e", "f"])
    (line_of_score,) = seen.drawing.lines
    assert len(line_of_score.edges) == 4
    assert sorted(line_of_score.notes) == list(range(18))
    for bar, note in ((0, 0), (0, 7), (1, 8), (2, 17)):
        assert line_of_score.edges[bar] < line_of_score.notes[note] < line_of_score.edges[bar + 1]


@pytest.mark.parametrize(
    ("changes", "key", "names"),
    [
        # By the chord, by its scale, else plainly: flats in keys of flats and in C, sharps in keys of sharps.
        ("Dm7", "C", "c db d eb e f gb g ab a bb b"),
        ("G7alt", "C", "c c# d eb e f gb g ab a bb b"),  # c sharp is the sharp eleventh
        ("Cm7", "Eb", "c db d eb e f gb g ab a bb b"),
        ("A7", "D", "c c# d d# e f f# g g# a a# b"),
        ("Fm7b5", "Gb", "c db d eb e f gb g ab a bb cb"),  # c flat is its flat fifth
    ],
)
def test_all_twelve_notes_have_names_over_a_chord(changes: str, key: str, names: str) -> None:
    (found,) = look({"changes": changes, "key": key, "line": "1/1 -"}, Settings()).names
    assert " ".join(found) == names


def test_a_finding_brings_the_text_that_mends_it() -> None:
    (found,) = [one for one in look(FIELDS, Settings()).findings if one.finding.rule == "accidental-slip"]
    assert found.mends == {"line": FIELDS["line"].replace("f#4", "f4")}
    mended = look({**FIELDS, **found.mends}, Settings())
    assert not mended.findings


MENDED = [
    pytest.param(
        "octave-slip",
        "Dm7 | G7 | Cmaj7",
        "1/8 d5 e f d c4 b a c | b d5 f e d b4 g a | 1/2 c5 g4",
        id="octave",
    ),
    pytest.param(
        "letter-slip",
        "Dm7 | G7 | Cmaj7",
        "1/8 d4 f a c5 b4 a g e | 1/8 e4 g b d5 f e d b4 | 1/2 c5 g4",
        id="letter",
    ),
    pytest.param(
        "doubled-note",
        "Dm7 | G7 | Cmaj7",
        "1/8 d4 e e g a b c5 d5 | 1/8 b4 a g f e d c b3 | 1/1 c4",
        id="doubled",
    ),
    pytest.param(
        "chord-quality-slip",
        "Dm7 | Gm7 | Cmaj7",
        "1/8 d4 f a c5 b4 a g f | 1/8 b4 d5 f e d b4 g b | 1/2 c5 g4",
        id="chord",
    ),
    pytest.param("misread-accidental", "G7", "1/4 a#4 b4 bb4 g4", id="name"),
]


@pytest.mark.parametrize(("rule", "changes", "line"), MENDED)
def test_a_mend_does_away_with_its_finding(rule: str, changes: str, line: str) -> None:
    fields = {
        "changes": changes,
        "line": line,
        **({"scales": "half-whole diminished"} if rule.startswith("mis") else {}),
    }
    found = next(one for one in look(fields, Settings()).findings if one.finding.rule == rule)
    assert found.mends
    after = look({**fields, **found.mends}, Settings()).findings
    assert (rule, found.finding.bar, found.finding.beat) not in [
        (one.finding.rule, one.finding.bar, one.finding.beat) for one in after
    ]


def test_a_scale_that_does_not_fit_is_mended_by_the_one_that_does() -> None:
    fields = {"changes": "G7", "scales": "mixolydian", "line": "1/4 g4 ab4 bb4 c#5"}
    found = next(one for one in look(fields, Settings()).findings if one.finding.rule == "scale-does-not-fit")
    assert found.mends["scales"] != "mixolydian"
    assert "scale-does-not-fit" not in [
        one.finding.rule for one in look({**fields, **found.mends}, Settings()).findings
    ]
    assert with_scale(fields, read_fields(fields, Settings()), 0, "altered") == "altered"


def test_what_cannot_be_read_says_where() -> None:
    with pytest.raises(NotationError) as caught:
        look({**FIELDS, "line": "1/4 d5 f h c6"}, Settings())
    assert (caught.value.field, FIELDS["line"][:0], caught.value.start) == ("line", "", 9)


def test_small_scores_and_all_keys() -> None:
    assert small_score(FIELDS, Settings()).height_mm < look(FIELDS, Settings()).drawing.height_mm
    keys = in_all_keys(FIELDS, Settings(), edition_named("bflat"))
    assert len(keys) == len({one.name for one in keys}) == 12
    assert keys[0].name == "D major"
    (alone,) = in_all_keys(FIELDS, Settings(), edition_named("concert"), tonic="Eb")
    assert alone.name == "Eb major"
