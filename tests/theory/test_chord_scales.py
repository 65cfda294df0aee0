"""Which scales go with a chord: the choices of the trade, by kind of chord and context."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.errors import TableError
from shedbook.theory.chord import Chord
from shedbook.theory.chord_context import CONTEXTS, Context
from shedbook.theory.chord_scales import (
    ScaleChoice,
    by_notes,
    check_scales,
    index,
    kind_of,
    lacks,
    must_sound,
    nearest_fits,
    ranked,
    serves,
    spoken_name,
)
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import parse_scale, scale_row
from shedbook.theory.tables.chord_scales import (
    FALLBACKS,
    KINDS,
    ONLY_WHEN_NAMED,
    ROWS,
    ChordScaleRow,
    KindRow,
)
from shedbook.theory.tables.scales import SCALES


def choices(
    symbol: str, following: str = "", function: str = "", key: str = "", previous: str = ""
) -> tuple[ScaleChoice, ...]:
    return ranked(
        parse_chord(symbol),
        Context(
            parse_chord(previous) if previous else None,
            parse_chord(following) if following else None,
            function,
            Key.parse(key) if key else None,
        ),
    )


def names(*context: str) -> list[str]:
    return [choice.scale.name for choice in choices(*context)]


HALF_WHOLE, FIFTH_MODE = "half-whole diminished", "phrygian dominant"

# Source: Levine 1995, The Jazz Theory Book (read in notes on it), where marked L; else common practice.
CHOICES = [
    (("G7", "Cmaj7"), ["mixolydian", "bebop dominant", HALF_WHOLE], "plain V7 to major"),
    (("G7",), ["mixolydian", "bebop dominant", HALF_WHOLE], "a dominant alone"),
    (("G7b9", "Cmaj7"), [HALF_WHOLE, FIFTH_MODE, "altered"], "V7b9 to major, L"),
    (("G7b9",), [HALF_WHOLE, FIFTH_MODE, "altered"], "V7b9 alone, L"),
    (("G7b9", "Cm6"), [HALF_WHOLE, "altered", FIFTH_MODE], "V7b9 to minor, L"),
    (("G7b9", "Cm7b5"), [HALF_WHOLE, "altered", FIFTH_MODE], "V7b9 to half-diminished"),
    (("G7b9", "", "V", "C minor"), [HALF_WHOLE, "altered", FIFTH_MODE], "V7b9 in a minor key"),
    (("A7b9", "", "VI", "C"), [HALF_WHOLE, "altered", FIFTH_MODE], "VI7b9, the ii is minor"),
    (("G13b9", "Cmaj7"), [HALF_WHOLE], "13b9, L"),
    (("G13b9", "Cm"), [HALF_WHOLE], "13b9 to minor, L"),
    (("G7alt", "Cm"), ["altered"], "alt, L"),
    (("G7alt",), ["altered"], "alt alone, L"),
    (("G7#9b13",), ["altered"], "7#9b13, L"),
    (("G7b9b13",), [FIFTH_MODE, "altered"], "7b9b13"),
    (("G7#5",), ["whole tone", "altered"], "7#5, L"),
    (("G9#5",), ["whole tone"], "9#5 names a 9 that altered has not"),
    (("G7#11",), ["lydian dominant"], "7#11, L"),
    (("G13#11", "Cmaj7"), ["lydian dominant"], "13#11, L"),
    (("Bb7", "Cmaj7", "bVII", "C"), ["lydian dominant"], "bVII7"),
    (("Bb7", "Cmaj7"), ["lydian dominant"], "bVII7, no key said"),
    (("Bb7", "", "", "C"), ["lydian dominant"], "bVII7, by the key"),
    (("D7", "Dm7", "II", "C"), ["lydian dominant"], "II7"),
    (("D7", "G7", "II", "C"), ["lydian dominant"], "II7"),
    (("D7", "Gmaj7", "II", "C"), ["mixolydian", "bebop dominant", HALF_WHOLE], "the V of G"),
    (("Db7", "Cmaj7"), ["lydian dominant"], "tritone substitute, L"),
    (("Db7", "Cm7"), ["lydian dominant"], "tritone substitute to minor, L"),
    (("Db7", "", "bII", "C"), ["lydian dominant"], "tritone substitute at the end"),
    (("Ab7", "G7", "bVI", "C"), ["lydian dominant"], "bVI7, a half step above V"),
    (("G7sus",), ["mixolydian"], "7sus, L"),
    (("G9sus4", "G7"), ["mixolydian"], "9sus, L"),
    (("G13sus",), ["mixolydian"], "13sus, L"),
    (("G11",), ["mixolydian"], "11, a suspended sound"),
    (("G7susb9",), ["dorian b2", "phrygian"], "7sus b9, L"),
    (("G13susb9",), ["dorian b2"], "phrygian has no 13"),
    (("Dm7", "G7", "ii", "C"), ["dorian"], "ii, L"),
    (("Dm7", "", "", "C"), ["dorian"], "ii by the key, L"),
    (("Em7", "A7", "iii", "C"), ["phrygian", "dorian"], "iii before VI, L"),
    (("Em7", "Fmaj7", "iii", "C"), ["phrygian", "dorian"], "iii"),
    (("Em", "", "iii", "C"), ["phrygian", "dorian"], "iii as a triad"),
    (("Bdim", "", "vii", "C"), ["locrian", "whole-half diminished"], "the triad on the leading note"),
    (("Bbdim", "", "bVII", "C"), ["whole-half diminished", "locrian"], "a triad on another degree"),
    (("Am7", "Dm7", "vi", "C"), ["aeolian", "dorian"], "vi"),
    (("Dm7b5", "G7"), ["locrian", "locrian natural 2"], "half-diminished, L"),
    (("Dø7",), ["locrian", "locrian natural 2"], "half-diminished, L"),
    (("Dm9b5",), ["locrian natural 2"], "half-diminished with a natural 9, L"),
    (("Bdim7", "Cm7"), ["whole-half diminished", "harmonic minor"], "diminished climbing to minor, L"),
    (("C#°7", "Dm7", "#i°", "C"), ["whole-half diminished", "harmonic minor"], "#i° to ii, L"),
    (("Bdim7",), ["whole-half diminished", "harmonic minor"], "diminished alone"),
    (("Ebdim7", "Dm7"), ["whole-half diminished"], "diminished falling"),
    (("C#°7", "D6"), ["whole-half diminished", "harmonic major"], "#i° to major"),
    (("C#°7", "Dsus4"), ["whole-half diminished", "harmonic minor"], "#i° to an open third"),
    (("C#°", "Dsus4"), ["whole-half diminished", "locrian"], "a triad, likewise"),
    (("C#°", "D6"), ["whole-half diminished", "harmonic major"], "a triad that climbs to major"),
    (("C#°", "Dm7"), ["whole-half diminished", "harmonic minor"], "a triad that climbs"),
    (("Cm",), ["melodic minor", "dorian"], "minor tonic, L"),
    (("Cm6", "", "i", "C minor"), ["melodic minor", "dorian"], "minor tonic, L"),
    (("Cm6/9",), ["melodic minor", "dorian"], "minor tonic, L"),
    (("Cm(maj7)",), ["melodic minor", "dorian"], "minor tonic, L"),
    (("Cm7", "", "i", "C minor"), ["dorian", "aeolian"], "minor tonic with a minor seventh"),
    (("Cmaj7",), ["ionian", "lydian"], "major, L"),
    (("Cmaj7", "", "I", "C"), ["ionian", "lydian"], "major tonic, L"),
    (("C",), ["ionian", "lydian"], "major triad"),
    (("Cadd9",), ["ionian", "lydian"], "add9"),
    (("Fmaj7", "", "IV", "C"), ["lydian", "ionian"], "IV, L"),
    (("Cmaj7#11",), ["lydian"], "maj7#11, L"),
    (("Cmaj7#5",), ["lydian augmented"], "maj7#5, L"),
    (("C6",), ["ionian", "lydian", "bebop major"], "sixth"),
    (("C6/9",), ["ionian", "lydian", "major pentatonic"], "six nine"),
    (("C7", "F7", "I", "C"), ["mixolydian", "blues", "bebop dominant"], "the I7 of a blues"),
    (("C+",), ["whole tone", "augmented", "lydian augmented"], "augmented triad"),
    (("Csus2",), ["ionian", "lydian", "mixolydian"], "sus2"),
    (("C5",), ["mixolydian", "dorian", "minor pentatonic"], "power chord"),
    (("G7b9#11",), [HALF_WHOLE, "altered"], "b9 and #11, L"),
    (("G7#9", "Cm"), ["altered", HALF_WHOLE], "#9 to minor"),
    (("Cm7b9",), ["phrygian"], "what no row holds takes the plainest scale that does"),
    (("N.C.",), [], "no chord"),
    # Slash chords and upper structures.
    (("F/G", "Cmaj7"), ["mixolydian"], "a suspended dominant on the bass, L"),
    (("Bbmaj7/C",), ["mixolydian"], "the same with its 13, L"),
    (("Dm7/G", "Cmaj7"), ["mixolydian"], "the ii over V, L"),
    (("Bbm/C",), ["dorian b2", "phrygian"], "a suspended dominant with b9, L"),
    (("Db/C",), ["phrygian"], "the phrygian sound, L"),
    (("D/C",), ["lydian"], "lydian, L"),
    (("E/C",), ["lydian augmented"], "lydian augmented, L"),
    (("Gb/C",), [HALF_WHOLE, "altered"], "the triad a tritone away, L"),
    (("A/C",), [HALF_WHOLE], "the triad on the 13, L"),
    (("B/C",), ["whole-half diminished"], "the diminished sound with the major seventh, L"),
    (("Eb/C",), ["dorian", "aeolian"], "a minor seventh chord without its fifth's name"),
    (("C/E",), ["ionian", "lydian"], "an inversion keeps its root"),
]


@pytest.mark.parametrize(
    ("context", "expected", "why"), CHOICES, ids=[f"{row[0][0]}: {row[2]}" for row in CHOICES]
)
def test_scales_best_first(context: tuple[str, ...], expected: list[str], why: str) -> None:
    assert names(*context) == expected, why


@pytest.mark.parametrize(
    ("following", "words"), [("A7", "lead down into the VI chord"), ("Fmaj7", "are passed through")]
)
def test_a_minor_iii_says_whether_it_goes_to_vi(following: str, words: str) -> None:  # common practice
    assert words in choices("Em7", following, "iii", "C")[0].reason


def test_the_reasons_name_the_coming_third() -> None:  # common practice
    half_whole, altered, fifth_mode = choices("F7b9", "Bbm7")

    assert "D, is the major third of the coming B♭" in half_whole.reason
    assert "D♭ is the minor third of the coming B♭" in altered.reason
    assert "D♭, is the coming minor third" in fifth_mode.reason


@pytest.mark.parametrize(
    ("symbol", "following", "coming"),
    [
        ("G7b9", "", "C"), ("G7b9", "Em7", "C"), ("G7b9", "N.C.", "C"), ("G7b9", "C6", "C"),
        ("G7b9", "Gb6", "G♭"), ("D#7b9", "Cmaj7", "G♯"), ("Bb7b9", "Dm7", "E♭"),
        ("B7b9", "Cmaj7", "E"), ("F#7b9", "D", "B"),
    ],
)  # fmt: skip
def test_what_a_dominant_leads_to_is_expected_where_it_does_not_come(
    symbol: str, following: str, coming: str
) -> None:
    """Common practice: the chord a fourth above, or the one a half step below where that comes."""
    reasons = " ".join(choice.reason for choice in choices(symbol, following))
    assert f"of {coming} harmonic minor" in reasons


def test_a_diminished_chord_that_climbs_is_the_dominant_without_its_root() -> None:  # common practice
    whole_half, harmonic_minor = choices("B°7", "Cm")

    assert "B°7 climbs to Cm and is that chord's G7b9 without its root" in whole_half.reason
    assert "whole-half from B is half-whole from G" in whole_half.reason
    assert str(harmonic_minor.scale) == "C harmonic minor"


@pytest.mark.parametrize(
    ("symbol", "root"), [("C#dim7", "D"), ("Bdim7", "C"), ("F#dim7", "G"), ("Ebdim7", "E")]
)
def test_the_harmonic_minor_of_a_diminished_chord_starts_a_half_step_above(symbol: str, root: str) -> None:
    assert str(choices(symbol)[1].scale.root) == root


def test_the_coming_chord_gives_its_own_name_to_the_scale() -> None:
    assert str(choices("F##dim7", "G#m7")[1].scale) == "G# harmonic minor"
    assert all("coming C sharp" not in one.reason for one in choices("G#7b9", "Dbm"))
    assert "coming D♭" in choices("G#7b9", "Dbm")[1].reason


@pytest.mark.parametrize(("symbol", "words"), [("Abdim7", "D♭, E and G"), ("Ebdim7", "A♭, B and D")])
def test_a_reason_calls_a_note_as_its_scale_does(symbol: str, words: str) -> None:
    best = choices(symbol)[0]
    assert words in best.reason
    assert words.split()[-3] in [str(note) for note in best.scale.notes]


def test_locrian_natural_two_says_what_its_ninth_is() -> None:  # common practice
    assert "E, is the major third of a coming C minor tonic" in choices("Dm7b5", "G7b9")[1].reason


def test_no_reason_has_a_blank_left() -> None:
    for kind in KINDS:
        for following in ("", "F#m7", "Bmaj7", "Fm6", "E7", "Dbm7", "Dbmaj7"):
            for choice in choices(kind.example, following):
                assert "{" not in choice.reason
                assert choice.reason.endswith(".")
                assert choice.reason[0].isupper()


@pytest.mark.parametrize("kind", KINDS, ids=[f"{row.name}: {row.example}" for row in KINDS])
def test_every_kind_has_its_example_and_its_rows(kind: KindRow) -> None:
    chord = parse_chord(kind.example)

    assert kind_of(chord) is kind
    assert [row.context for row in ROWS if kind.name in row.kinds][-1] == "any"
    assert ranked(chord)
    assert kind.source


def test_every_scale_and_context_of_the_table_is_known() -> None:
    for row in ROWS:
        assert row.context in CONTEXTS
        assert row.source
        for fit in row.fits:
            assert scale_row(fit.scale).name == fit.scale
    assert [scale_row(name).name for name in FALLBACKS] == list(FALLBACKS)


HALVES = [
    pytest.param(ROWS[:-1], '"diminished major seventh" has no scales', "into ROWS", id="no row"),
    pytest.param((*ROWS, ROWS[-1]._replace(context="to minor")),
                 '"diminished major seventh" has no scales for any', "into ROWS", id="no last row"),
    pytest.param((*ROWS, ROWS[0]._replace(kinds=("quartal",))), 'no kind of chord "quartal"', "into KINDS",
                 id="no kind"),
    pytest.param((*ROWS, ROWS[0]._replace(context="at dawn")), "(at dawn) names a context", "into CONTEXTS",
                 id="no context"),
    pytest.param((*ROWS, ROWS[0]._replace(fits=())), "names no scale", "a ScaleFit", id="no scale"),
    pytest.param((*ROWS, ROWS[0]._replace(source="")), "has no source", "Write one", id="no source"),
]  # fmt: skip


@pytest.mark.parametrize(("rows", "message", "hint"), HALVES)
def test_half_a_choice_is_refused(rows: tuple[ChordScaleRow, ...], message: str, hint: str) -> None:
    """The message says what is missing, the hint where to write it. Source: our own design."""
    with pytest.raises(TableError) as caught:
        index(KINDS, rows)
    assert message in caught.value.message
    assert hint in caught.value.hint


def test_a_scale_that_goes_with_no_chord_is_refused() -> None:
    new = SCALES[0]._replace(name="new scale")
    with pytest.raises(TableError) as caught:
        check_scales((*SCALES, new), ROWS, FALLBACKS, ONLY_WHEN_NAMED)
    assert caught.value.message == 'The scale "new scale" goes with no chord.'
    assert "ROWS in src/shedbook/theory/tables/chord_scales.py" in caught.value.hint
    check_scales((*SCALES, new), ROWS, FALLBACKS, (*ONLY_WHEN_NAMED, "new scale"))


def test_a_chord_that_takes_an_unknown_scale_is_refused() -> None:
    with pytest.raises(TableError, match=r'"new scale" stands in .*chord_scales.py, but nobody knows'):
        check_scales(SCALES, ROWS, (*FALLBACKS, "new scale"), ONLY_WHEN_NAMED)


def test_a_scale_is_not_offered_and_only_named() -> None:
    with pytest.raises(TableError, match="and not only when named"):
        check_scales(SCALES, ROWS, FALLBACKS, (*ONLY_WHEN_NAMED, "dorian"))


def named(chord: Chord) -> set[int]:
    assert chord.root is not None
    return {
        (chord.root.pitch_class + degree_interval(degree).semitones) % 12
        for degree in chord.degrees
        if degree != "5"
    }


KIND_TEXTS = (
    "", "m", "7", "maj7", "m7", "m7b5", "dim", "dim7", "aug", "6", "m6", "6/9", "sus4", "sus2", "7sus",
    "7susb9", "9", "11", "13", "13b9", "13#9", "7b9", "7#9", "7#11", "7b13", "7#5", "7b5", "9#5", "9b5",
    "9#11", "7alt", "7b9b13", "7#9b13", "7b9#11", "7b9#9", "7b9#5", "13#11", "13b9#11", "m9", "m11",
    "m13", "m(maj7)", "m(maj9)", "maj9", "maj13", "maj7#11", "maj7#5", "maj7b5", "maj9#11", "add9",
    "madd9", "m7b9", "m7#5", "m7(b13)", "m7#11", "m11b5", "m9b5", "5", "7no3", "7no5", "6#11",
    "maj7sus4", "7sus#11", "9b13", "add11", "maj7b9", "(b5)", "mb6", "11b9", "dim(maj7)", "m6b5",
    "6sus4", "9sus4", "13susb9", "maj7#9", "m(maj7)(#11)", "7#11b13",
)  # fmt: skip


@given(
    st.sampled_from(KIND_TEXTS),
    st.integers(-6, 6).map(NoteName),
    st.sampled_from(["", "Cmaj7", "Cm7", "F7", "Dm7", "Eb7", "Gmaj7", "Ab", "N.C.", "Bsus4"]),
    st.sampled_from(["", "ii", "V", "bVII", "I", "#iv°", "II", "iii"]),
    st.sampled_from(["", "C", "F# minor", "Bb"]),
)
def test_the_first_scale_holds_what_the_chord_names(
    kind: str, root: NoteName, following: str, function: str, key: str
) -> None:
    chord = parse_chord(f"{root}{kind}" if not kind.startswith("#") else f"{root}({kind})")

    found = choices(chord.text, following, function, key)

    assert found
    assert named(chord) <= found[0].scale.pitch_classes
    assert len({str(choice.scale) for choice in found}) == len(found)


def test_what_a_scale_serves_is_read_from_the_same_table() -> None:
    for row in SCALES:
        for service in serves(row):
            fits = [one.fits for one in ROWS if service.kind in one.kinds and one.context == service.context]
            assert any(fit[service.place - 1].scale == row.name for fit in fits if len(fit) >= service.place)
    assert [(one.chord, one.place) for one in serves(scale_row("lydian augmented"))] == [
        ("Cmaj7#5", 1),
        ("Caug", 3),
    ]
    assert serves(scale_row("chromatic")) == ()


@pytest.mark.parametrize(
    ("name", "spoken"),
    [("Eb", "E♭"), ("F#", "F♯"), ("D", "D"), ("F##", "G"), ("Abb", "G"), ("B##", "C♯")],
)
def test_note_names_in_words(name: str, spoken: str) -> None:
    assert spoken_name(NoteName.parse(name)) == spoken


def test_the_scales_of_a_slash_chord_stand_on_its_bass() -> None:  # common practice
    assert [str(choice.scale) for choice in choices("F/G", "Cmaj7")] == ["G mixolydian"]
    assert [str(choice.scale) for choice in choices("C/D", "Gmaj7")] == ["D mixolydian"]


# Common practice: what has to sound before a scale is heard over a plain dominant on C.
@pytest.mark.parametrize(
    ("scale", "pitch_classes"),
    [("half-whole diminished", {1, 6}), ("lydian dominant", {6}), ("mixolydian", set())],
)
def test_a_scale_must_have_what_it_is_known_by(scale: str, pitch_classes: set[int]) -> None:
    assert must_sound(parse_chord("C7"), parse_scale(f"C {scale}")) == pitch_classes
    assert must_sound(parse_chord("C7b9"), parse_scale(f"C {scale}")) == set()


def test_the_notes_may_ask_for_scales_that_the_context_does_not_offer() -> None:  # common practice
    offered = {choice.scale.name for choice in choices("G7", "Cmaj7")}
    asked = [
        choice.scale.name for choice in by_notes(parse_chord("G7"), Context(following=parse_chord("Cmaj7")))
    ]
    assert FIFTH_MODE in asked
    assert offered.isdisjoint(asked)
    assert by_notes(parse_chord("N.C.")) == ()


def test_a_scale_only_when_named_must_be_known() -> None:
    with pytest.raises(TableError, match='The scale "nowhere" stands in'):
        check_scales(SCALES, ROWS, FALLBACKS, (*ONLY_WHEN_NAMED, "nowhere"))


def test_a_scale_contradicts_what_stands_over_a_foreign_bass() -> None:
    """F/G sounds as G9sus: C, the fourth, F and A must be there (common practice)."""
    over = parse_chord("F/G")
    assert lacks(over, parse_scale("G lydian dominant")) == ("4",)
    assert lacks(over, parse_scale("G altered")) == ("4", "9")
    assert lacks(over, parse_scale("G mixolydian")) == ()


@pytest.mark.parametrize(
    ("chord", "scale", "nearest"),
    [
        # Usual ones before others; then those with fewest notes that only one of the two scales has.
        (
            "C7b9",
            "C mixolydian",
            ["phrygian dominant", HALF_WHOLE, "altered", "mixolydian b2", "phrygian b4"],
        ),
        ("C7b9", "C locrian", ["altered", "phrygian dominant", HALF_WHOLE, "phrygian b4", "mixolydian b2"]),
        ("C7#9", "C locrian natural 6", [HALF_WHOLE, "altered"]),
        ("Cdim7", "C locrian", ["whole-half diminished", "locrian natural 6"]),
        ("C13b9", "C lydian dominant", [HALF_WHOLE, "mixolydian b2"]),
    ],
)
def test_the_scales_that_fit_and_are_nearest(chord: str, scale: str, nearest: list[str]) -> None:
    """The notes of each scale are common practice; the order is the project's design."""
    found = nearest_fits(parse_chord(chord), parse_scale(scale), len(nearest))
    assert [one.name for one in found] == nearest
    assert nearest_fits(parse_chord(chord), parse_scale(scale), 1) == found[:1]
