"""Chord symbols: what they mean, how they are printed, what is said of one that cannot be read."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.errors import ChordSymbolError, TableError
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import SymbolParts, canonical, parse_chord, symbol_parts
from shedbook.theory.chord_symbol_meaning import check_meanings
from shedbook.theory.chord_symbol_tokens import index, symbol_tokens
from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.chord_qualities import STACKS, TOKENS

# Ways to write a quality, its degrees, the form printed. Source of the table: common practice, and
# Brandt & Roemer 1976 (read through a secondary source) for the plain letter, brackets and °7.
QUALITIES = [
    ("; maj; M; ma; major", "1 3 5", ""),
    ("maj7; M7; Δ; Δ7; △7; ∆; ma7; Maj7; MAJ7; MA7; j7; 7M; (maj7); major7", "1 3 5 7", "maj7"),
    ("maj9; M9; Δ9; ma9; maj7(9)", "1 3 5 7 9", "maj9"),
    ("maj13; M13; Δ13", "1 3 5 7 9 13", "maj13"),
    ("maj7#11; M7#11; Δ#11; Δ7#11; maj7(#11); maj7♯11; maj7+11; maj7#4", "1 3 5 7 #11", "maj7#11"),
    ("maj7#5; M7#5; +M7; +maj7; Δ#5; augmaj7; maj7+; maj7(#5); M7+5", "1 3 #5 7", "maj7#5"),
    ("maj7b5; M7b5; Δb5; maj7-5; maj7(♭5)", "1 3 b5 7", "maj7b5"),
    ("maj9#11; Δ9(#11)", "1 3 5 7 9 #11", "maj9#11"),
    ("6; maj6; M6; add6; (6)", "1 3 5 6", "6"),
    ("6/9; 69; 6(9); 6add9; maj6/9", "1 3 5 6 9", "6/9"),
    ("m; -; min; mi; Min; −; minor; MI", "1 b3 5", "m"),
    ("m7; -7; min7; mi7; MI7; −7; –7; minor7", "1 b3 5 b7", "m7"),
    ("m9; -9; min9", "1 b3 5 b7 9", "m9"),
    ("m11; -11", "1 b3 5 b7 9 11", "m11"),
    ("m13; -13", "1 b3 5 b7 9 11 13", "m13"),
    ("m6; -6; min6", "1 b3 5 6", "m6"),
    ("m6/9; m69; -6/9", "1 b3 5 6 9", "m6/9"),
    ("m(maj7); mM7; -Δ7; -Δ; mΔ; m(ma7); minmaj7; mMaj7; mmaj7; m#7; m(+7); m7M; m(Δ7)",
     "1 b3 5 7", "m(maj7)"),
    ("m(maj9); mM9; -Δ9; m(maj7)(9)", "1 b3 5 7 9", "m(maj9)"),
    ("madd9; m(add9); m(9); -add9", "1 b3 5 9", "m(add9)"),
    ("m7(11); m7add11; m7add4", "1 b3 5 b7 11", "m7(add11)"),
    ("ø; ø7; Ø7; ∅; m7b5; -7b5; m7♭5; m7-5; -7-5; m7(b5); min7b5", "1 b3 b5 b7", "m7b5"),
    ("ø9; m9b5; ø7(9)", "1 b3 b5 b7 9", "m9b5"),
    ("ø11; m11b5", "1 b3 b5 b7 9 11", "m11b5"),
    ("°; o; dim; º; mb5; m(b5); diminished", "1 b3 b5", "dim"),
    ("°7; o7; dim7; º7; ˚7; diminished7", "1 b3 b5 bb7", "dim7"),
    ("°M7; dim(maj7); °(maj7); oΔ7", "1 b3 b5 7", "dim(maj7)"),
    ("+; aug; (#5); +5; maj#5; augmented", "1 3 #5", "aug"),
    ("7; dom7; (7)", "1 3 5 b7", "7"),
    ("9; 7(9); 7/9", "1 3 5 b7 9", "9"),
    ("11", "1 5 b7 9 11", "11"),
    ("13; 9(13); 7(9,13)", "1 3 5 b7 9 13", "13"),
    ("7(13); 7add13; 7add6; 13no9", "1 3 5 b7 13", "7(add13)"),
    ("7#5; +7; 7+; aug7; 7+5; 7(#5); 7aug", "1 3 #5 b7", "7#5"),
    ("9#5; +9; 9+", "1 3 #5 b7 9", "9#5"),
    ("7b5; 7-5; 7(b5); 7♭5", "1 3 b5 b7", "7b5"),
    ("7b9; 7-9; 7(b9); 7♭9; 7(-9); 7b2", "1 3 5 b7 b9", "7b9"),
    ("7#9; 7+9; 7(#9); 7♯9", "1 3 5 b7 #9", "7#9"),
    ("7#11; 7+11; 7(#11); 7#4", "1 3 5 b7 #11", "7#11"),
    ("9#11; 9(#11)", "1 3 5 b7 9 #11", "9#11"),
    ("13#11; 13(#11)", "1 3 5 b7 9 #11 13", "13#11"),
    ("7b13; 7(b13); 7-13; 7b6", "1 3 5 b7 b13", "7b13"),
    ("13b9; 13(b9); 7b9(13); 7b9/13; 7(b9,13); 7b913; 13-9", "1 3 5 b7 b9 13", "13b9"),
    ("13#9; 13+9", "1 3 5 b7 #9 13", "13#9"),
    ("7b9#11; 7#11b9; 7(b9,#11); 7(b9#11); 7(b9)(#11); 7b9,#11; 7[b9,#11]; 7(#11/b9)",
     "1 3 5 b7 b9 #11", "7(b9,#11)"),
    ("7#9b13; 7b13#9; 7(#9,b13); 7+9-13", "1 3 5 b7 #9 b13", "7(#9,b13)"),
    ("7b9b13; 7(b9,b13)", "1 3 5 b7 b9 b13", "7(b9,b13)"),
    ("7#5#9; +7#9; 7(#9,#5); +7+9", "1 3 #5 b7 #9", "7(#5,#9)"),
    ("7b5b9; 7(b9,b5)", "1 3 b5 b7 b9", "7(b5,b9)"),
    ("7b9#9", "1 3 5 b7 b9 #9", "7(b9,#9)"),
    ("7b5#5b9#9", "1 3 #5 b7 b9 #9 #11", "7(#5,b9,#9,#11)"),
    ("7alt; alt; 7(alt); 7altered; 7altb9; 7alt(#9,b13)", "1 3 b7 b9 #9 #11 b13", "7alt"),
    ("sus4; sus; Sus4; (sus4)", "1 4 5", "sus4"),
    ("sus2", "1 2 5", "sus2"),
    ("sus2sus4; sus24", "1 4 5 9", "sus4(add9)"),
    ("7sus4; 7sus; sus7; 7(sus4)", "1 4 5 b7", "7sus4"),
    ("9sus4; 9sus; 7sus9; 11sus", "1 4 5 b7 9", "9sus4"),
    ("13sus4; 13sus; 9sus13", "1 4 5 b7 9 13", "13sus4"),
    ("7susb9; 7sus4b9; 7sus(b9); susb9; 7b9sus; 7sus4(b9)", "1 4 5 b7 b9", "7sus4(b9)"),
    ("maj7sus4; M7sus; sus4maj7", "1 4 5 7", "maj7sus4"),
    ("add9; add2; (add9); (9)", "1 3 5 9", "add9"),
    ("add11; add4", "1 3 5 11", "add11"),
    ("add#11; (#11)", "1 3 5 #11", "add#11"),
    ("(b5)", "1 3 b5", "(b5)"),
    ("5", "1 5", "5"),
    ("7no3; 7omit3; 7(no3)", "1 5 b7", "7(no3)"),
    ("7no5; 7omit5; 7(omit5)", "1 3 b7", "7(no5)"),
    ("no3; omit3", "1 5", "5"),
    ("mb6; m(b6); maddb13", "1 b3 5 b13", "m(addb13)"),
    ("9no3; 9(no3)", "1 5 b7 9", "9(no3)"),
    ("13no3; 13omit3", "1 5 b7 9 13", "13(no3)"),
    ("maj9no3", "1 5 7 9", "maj9(no3)"),
    ("maj11no3", "1 5 7 9 11", "maj9(add11,no3)"),
    ("7altno3; 7alt(no3)", "1 b7 b9 #9 #11 b13", "7alt(no3)"),
]  # fmt: skip
WAYS = [
    pytest.param(f"C{way.strip()}", degrees, f"C{printed}", id=f"C{way.strip()} [common practice]")
    for ways, degrees, printed in QUALITIES
    for way in ways.split(";")
]


def meaning(chord: Chord) -> Chord:
    return replace(chord, text="")


@pytest.mark.parametrize(("symbol", "degrees", "printed"), WAYS)
def test_every_way_to_write_a_quality(symbol: str, degrees: str, printed: str) -> None:
    chord = parse_chord(symbol)

    assert " ".join(chord.degrees) == degrees
    assert canonical(chord) == printed
    assert meaning(parse_chord(printed)) == meaning(chord)
    assert chord.text == symbol


@pytest.mark.parametrize(
    ("symbol", "root", "bass", "printed"),
    [
        ("B♭m7♭5", "Bb", None, "Bbm7b5"),
        ("F♯7♯9", "F#", None, "F#7#9"),
        ("Abb7", "Abb", None, "Abb7"),
        ("F𝄪m", "F##", None, "F##m"),
        ("B𝄫", "Bbb", None, "Bbb"),
        ("Fx7", "F##", None, "F##7"),
        ("C♮7", "C", None, "C7"),
        ("Cb9", "Cb", None, "Cb9"),  # the letter takes the accidental
        ("C-7", "C", None, "Cm7"),  # never C flat
        ("Cm7/Bb", "C", "Bb", "Cm7/Bb"),
        ("C/E", "C", "E", "C/E"),
        ("C6/9", "C", None, "C6/9"),
        ("C6/9/E", "C", "E", "C6/9/E"),
        ("D♭Δ7/A♭", "Db", "Ab", "Dbmaj7/Ab"),
        ("G7(b9/13)/B", "G", "B", "G13b9/B"),
    ],
)
def test_roots_and_basses(symbol: str, root: str, bass: str | None, printed: str) -> None:  # common practice
    chord = parse_chord(symbol)

    assert str(chord.root) == root
    assert (None if chord.bass is None else str(chord.bass)) == bass
    assert canonical(chord) == printed


@pytest.mark.parametrize("symbol", ["N.C.", "NC", "N.C", "n.c."])
def test_no_chord_is_a_symbol(symbol: str) -> None:
    chord = parse_chord(symbol)

    assert chord.root is None
    assert chord.degrees == ()
    assert chord.tones == ()
    assert canonical(chord) == "N.C."
    assert chord.transposed(Interval(1, 2)) == chord
    assert symbol_parts(chord) == SymbolParts("N.C.", "", (), "")
    assert chord.split_text() == (symbol, "")


@pytest.mark.parametrize(
    ("symbol", "third", "fifth", "seventh", "tensions", "altered"),
    [
        ("C7alt", "3", "", "b7", ("b9", "#9", "#11", "b13"), True),
        ("C11", "", "5", "b7", ("9", "11"), False),
        ("C7b13", "3", "5", "b7", ("b13",), False),
        ("Cm7b5", "b3", "b5", "b7", (), False),
        ("C13sus", "4", "5", "b7", ("9", "13"), False),
        ("C6/9", "3", "5", "6", ("9",), False),
        ("C5", "", "5", "", (), False),
    ],
)
def test_a_chord_is_taken_apart(
    symbol: str, third: str, fifth: str, seventh: str, tensions: tuple[str, ...], altered: bool
) -> None:  # common practice
    chord = parse_chord(symbol)

    assert (chord.third, chord.fifth, chord.seventh) == (third, fifth, seventh)
    assert chord.tensions == tensions
    assert chord.altered is altered


@pytest.mark.parametrize(
    ("symbol", "tones"),
    [
        ("Cmaj7", "C E G B"),
        ("Eb7b9", "Eb G Bb Db Fb"),
        ("F#m7b5", "F# A C E"),
        ("Bdim7", "B D F Ab"),
        ("F7#9", "F A C Eb Ab"),  # #9 as the plain minor third
        ("E7#9", "E G# B D G"),  # never F double sharp
        ("Ab7b9", "Ab C Eb Gb A"),  # a tension has no double flat
        ("C13", "C E G Bb D A"),
        ("Bb7alt/Ab", "Bb D Ab Cb Db E Gb"),
    ],
)
def test_tones_are_spelled_by_the_chord(symbol: str, tones: str) -> None:  # common practice
    assert " ".join(str(tone) for tone in parse_chord(symbol).tones) == tones


@pytest.mark.parametrize(
    ("symbol", "parts"),
    [
        ("Cm7", ("C", "m7", (), "")),
        ("Bbmaj7", ("Bb", "maj7", (), "")),
        ("C△7", ("C", "Δ7", (), "")),
        ("F#ø7", ("F#", "ø7", (), "")),
        ("C°7", ("C", "°7", (), "")),
        ("C6/9", ("C", "6/9", (), "")),
        ("C7sus4", ("C", "7sus4", (), "")),
        ("C7alt", ("C", "7alt", (), "")),
        ("Cm7b5", ("C", "m7", ("b5",), "")),
        ("C-7♭5/B♭", ("C", "-7", ("b5",), "Bb")),
        ("C7(b9,#11)", ("C", "7", ("b9", "#11"), "")),
        ("C7#11b9", ("C", "7", ("#11", "b9"), "")),  # in the author's order
        ("C13(b9)", ("C", "13", ("b9",), "")),
        ("C7(b9/13)", ("C", "7", ("b9", "13"), "")),
        ("C7susb9", ("C", "7sus", ("b9",), "")),
        ("C7(sus4)", ("C", "7sus4", (), "")),
        ("Cm(maj7)", ("C", "m", ("maj7",), "")),
        ("CmM7", ("C", "mM7", (), "")),
        ("C-Δ7", ("C", "-Δ7", (), "")),
        ("Cmadd9", ("C", "m", ("add9",), "")),
        ("C(add9)", ("C", "", ("add9",), "")),
        ("C7+9", ("C", "7", ("+9",), "")),
        ("C7+", ("C", "7+", (), "")),
        ("C/G", ("C", "", (), "G")),
    ],
)
def test_the_authors_own_way_is_kept_for_drawing(
    symbol: str, parts: tuple[str, str, tuple[str, ...], str]
) -> None:
    assert symbol_parts(parse_chord(symbol)) == SymbolParts(*parts)


@pytest.mark.parametrize(
    ("symbol", "start", "says"),
    [
        ("", 0, "missing"),
        ("c7", 0, "root"),
        ("H7", 0, "root"),
        ("7", 0, "root"),
        ("Cq", 1, "not understood"),
        ("C7b", 2, "not understood"),
        ("CO7", 1, "not understood"),  # short signs stand exactly as they are
        ("C7B9", 2, "not understood"),
        ("CmA7", 2, "not understood"),
        ("C7b3", 2, "alteration"),
        ("C7#13", 2, "alteration"),
        ("Cm7 b5", 3, "white space"),
        ("C7(b9", 2, "not closed"),
        ("C7b9)", 4, "never opened"),
        ("C7((b9))", 3, "inside a bracket"),
        ("C()", 2, "beside"),
        ("C7(b9,)", 5, "beside"),
        ("C7,", 2, "beside"),
        ("C/", 1, "bass"),
        ("C/e", 1, "bass"),
        ("C/E/G", 1, "bass"),
        ("Cb#9", 2, "runs on"),
        ("C#b9", 2, "runs on"),
        ("C4", 1, "two ways"),
        ("C2", 1, "two ways"),
        ("C6+9", 2, "two ways"),
        ("Cm+7", 2, "two ways"),
        ("C-5", 2, "contradicts"),
        ("C79", 2, "contradicts"),
        ("C77", 2, "contradicts"),
        ("C7-", 2, "contradicts"),
        ("C7m", 2, "contradicts"),
        ("Cmm7", 2, "contradicts"),
        ("C7maj7", 2, "contradicts"),
        ("Cø7maj7", 3, "contradicts"),
        ("Cm7sus4", 3, "contradicts"),
        ("C7sus4no3", 6, "contradicts"),
        ("C7sussus2", 5, "contradicts"),
        ("Cmalt", 1, "contradicts"),
        ("C9alt", 1, "contradicts"),
        ("C7alt13", 5, "contradicts"),
        ("C9b9", 2, "contradicts"),
        ("C7(9,b9)", 5, "contradicts"),
        ("C13b13", 3, "contradicts"),
        ("C11#11", 3, "contradicts"),
        ("C7b9b9", 4, "contradicts"),
        ("Cm7#9", 3, "contradicts"),
        ("Cm7b5#5", 5, "contradicts"),
        ("Cmaj7b5#5", 7, "contradicts"),
        ("C7b5no5", 4, "contradicts"),
        ("C6b13", 2, "contradicts"),
        ("Cdim6", 4, "contradicts"),
        ("Cm(maj)", 3, "number"),
        ("C" + "b9" * 50, 64, "longer"),
    ],
)
def test_an_error_names_the_character_and_the_mend(symbol: str, start: int, says: str) -> None:
    with pytest.raises(ChordSymbolError) as raised:
        parse_chord(symbol)

    assert raised.value.start == start
    assert says in raised.value.message
    assert raised.value.hint


@pytest.mark.parametrize(
    ("symbol", "pointed_at", "hint"),
    [
        ("C7b3", "b3", "A minor third is written m"),
        ("C7b7", "b7", "Alterations are b5 #5 b9 #9 #11 b13."),
        ("C7#13", "#13", "Alterations are b5 #5 b9 #9 #11 b13."),
        ("Cm7b5#5", "#5", "Write b5 or #5"),
        ("C7maj7", "maj", "Keep one of the two sevenths."),
        ("Cm(maj)", "maj", "Write maj7."),
        ("C2", "2", "Write add9 or sus2."),
        ("C" + "b9" * 32, "9", "Divide chords by white space"),
    ],
)
def test_an_error_points_at_the_whole_piece(symbol: str, pointed_at: str, hint: str) -> None:
    """Source: our own design; a mend of the trade stands in the hint (common practice)."""
    error = refusal(symbol)
    assert error is not None
    assert symbol[error.start : error.end] == pointed_at
    assert hint in error.hint


_PIECES = sorted(
    {spelling for row in TOKENS for spelling in row.spellings} | set("()/,b#") | {"/E", "♭9", " "}
)


def refusal(text: str) -> ChordSymbolError | None:
    """Return the error with which a text is refused, or None for a symbol."""
    try:
        parse_chord(text)
    except ChordSymbolError as error:
        return error
    return None


nearly_right = st.builds(
    lambda root, pieces: root + "".join(pieces),
    st.sampled_from(["C", "Bb", "F#", "Abb", "E♭"]),
    st.lists(st.sampled_from(_PIECES), max_size=5),
)


@given(nearly_right)
def test_a_symbol_is_read_whole_or_refused_with_a_place_inside(text: str) -> None:
    error = refusal(text)
    if error is not None:
        assert 0 <= error.start < error.end <= len(text)
        return
    chord = parse_chord(text)
    head, kind = chord.split_text()
    found = symbol_tokens(text, len(head), len(head) + len(kind))
    assert all(one.end <= after.start for one, after in pairwise(found))
    covered = {at for one in found for at in range(one.start, one.end)}
    assert all(text[at] in "(),/[]" for at in range(len(head), len(head) + len(kind)) if at not in covered)
    printed = canonical(chord)
    assert printed.isascii()
    assert meaning(parse_chord(printed)) == meaning(chord)
    assert canonical(parse_chord(printed)) == printed


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    error = refusal(text)

    assert error is None or 0 <= error.start <= len(text)


@given(
    st.sampled_from([way.values[0] for way in WAYS]),
    st.sampled_from(["b2", "2", "b3", "3", "4", "#4", "b5", "5", "b6", "6", "b7", "7"]),
)
def test_transposing_keeps_the_kind_and_the_way_it_is_written(symbol: object, degree: str) -> None:
    chord = replace(parse_chord(str(symbol)), bass=NoteName.parse("G"), text=f"{symbol}/G")
    interval = degree_interval(degree)

    moved = chord.transposed(interval)

    assert moved.degrees == chord.degrees
    assert meaning(parse_chord(moved.text)) == meaning(moved)
    assert symbol_parts(moved).base == symbol_parts(chord).base
    assert symbol_parts(moved).raised == symbol_parts(chord).raised
    assert moved.transposed(-interval) == chord


@pytest.mark.parametrize(
    ("symbol", "semitones", "degree"),
    [
        ("G7alt", 6, "#11"),  # D flat over G7alt
        ("F7b9", 3, "#9"),  # A flat over F7b9
        ("Bdim7", 11, "7"),  # B flat over Bdim7
        ("C6", 9, "6"),
        ("C7", 9, "13"),
        ("Cm7b5", 6, "b5"),
        ("C7sus4", 5, "4"),
        ("Cmaj7", 8, "#5"),
        ("Cm6b5", 9, "6"),
    ],
)
def test_degree_over_a_chord(symbol: str, semitones: int, degree: str) -> None:  # common practice
    chord = parse_chord(symbol)
    assert chord.root is not None

    assert chord.degree_of((chord.root.pitch_class + semitones) % 12) == degree


@pytest.mark.parametrize(
    ("symbol", "family"),
    [
        ("C7", "dominant"), ("C7alt", "dominant"), ("C+7", "dominant"), ("C", "major"), ("C6", "major"),
        ("C+", "major"), ("C5", "major"), ("Cm", "minor"), ("Cm(maj7)", "minor"), ("Cø", "half-diminished"),
        ("C°", "diminished"), ("C°7", "diminished"), ("Cdim7no3", "diminished"), ("C7sus", "suspended"),
        ("Csus2", "suspended"),
    ],
)  # fmt: skip
def test_family(symbol: str, family: str) -> None:
    assert parse_chord(symbol).family == family


def test_a_spelling_with_two_meanings_is_refused() -> None:
    """The message names both meanings, the hint the file. Source: our own design."""
    twice = TOKENS[0]._replace(value="minor", spellings=("maj",))
    with pytest.raises(TableError) as caught:
        index((TOKENS[0], twice))
    assert caught.value.message == (
        '"maj" is written for two meanings: the quality "major" and the quality "minor".'
    )
    assert "src/shedbook/theory/tables/chord_qualities.py" in caught.value.hint


def test_half_a_token_is_refused() -> None:
    with pytest.raises(TableError, match='no way to write the quality "major"'):
        index((TOKENS[0]._replace(spellings=()),))
    with pytest.raises(TableError, match='no source for the quality "major"'):
        index((TOKENS[0]._replace(source=""),))
    with pytest.raises(TableError, match=r'"quartal", but that has no meaning.*chord_symbol_meaning.py'):
        check_meanings((*TOKENS, TOKENS[0]._replace(value="quartal", spellings=("quart",))), STACKS)
    with pytest.raises(TableError, match=r"a 13 names over a chord of the kind suspended.*into STACKS"):
        check_meanings(TOKENS, STACKS[:-1])


def test_b5_and_sharp_5_leave_no_room_for_an_eleventh() -> None:
    with pytest.raises(ChordSymbolError, match="cannot all be meant"):
        parse_chord("C7b5#5(11)")


def test_pitch_classes_leave_out_the_bass() -> None:
    assert parse_chord("C/Bb").pitch_classes == {0, 4, 7}


def test_nothing_has_a_degree_over_no_chord() -> None:
    assert parse_chord("N.C.").degree_of(0) == ""


# The degree table of the design: what the symbol names keeps the symbol's name.
@pytest.mark.parametrize(
    ("symbol", "note", "degree"),
    [
        ("Db7(#5)", "A", "#5"), ("Db7b13", "A", "b13"), ("C7b5", "Gb", "b5"), ("C7#11", "F#", "#11"),
        ("G7alt", "Db", "#11"), ("G7alt", "Eb", "b13"), ("F7b9", "Ab", "#9"), ("Bdim7", "Bb", "7"),
        ("Cm7#5", "Ab", "#5"), ("Cm6", "A", "6"), ("Csus2", "D", "9"), ("C6/9", "D", "9"),
    ],
)  # fmt: skip
def test_the_degree_of_a_note(symbol: str, note: str, degree: str) -> None:
    assert parse_chord(symbol).degree_of(NoteName.parse(note).pitch_class) == degree


@pytest.mark.parametrize(
    ("typed", "printed"),
    [("Cm7#5", "Cm7#5"), ("Cm#5", "Cm(#5)"), ("Cm6#5", "Cm6#5"), ("Cmmaj7#5", "Cm(maj7)(#5)")],
)
def test_a_minor_chord_with_a_raised_fifth_keeps_it(typed: str, printed: str) -> None:  # our own form
    chord = parse_chord(typed)
    assert canonical(chord) == printed
    assert "#5" in parse_chord(printed).degrees


@pytest.mark.parametrize(
    ("typed", "start", "end", "hint"),
    [
        ("C7#12", 2, 5, "Alterations are"), ("C7#3", 2, 4, "A minor third is written m"),
        ("cm7", 0, 1, 'A root is a capital letter: "Cm7".'), ("Hm7", 0, 1, "There is no H here"),
    ],
)  # fmt: skip
def test_where_a_symbol_is_not_understood(typed: str, start: int, end: int, hint: str) -> None:
    with pytest.raises(ChordSymbolError) as caught:
        parse_chord(typed)
    assert (caught.value.start, caught.value.end) == (start, end)
    assert hint in caught.value.hint
