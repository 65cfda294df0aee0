"""Numerals and the key that chords speak for."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import chord as m21_chord
from music21 import key as m21_key
from music21 import roman as m21_roman

from shedbook.theory.chord import Chord
from shedbook.theory.chord_function import Heard, groups, heard, tonic_name
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.progression import infer_key, numerals
from shedbook.theory.tables.chord_functions import FITS, MOVES
from strategies import chords as any_chords


def read(text: str) -> list[Chord]:
    return [parse_chord(word) for word in text.replace("|", " ").split()]


# Common practice, all rows.
KEYS = [
    ("Dm7 | G7 | Cmaj7", "C major"),
    ("Dm7b5 | G7b9 | Cm6", "C minor"),
    ("Dm7 G7", "C major"),
    ("Dm7b5 G7", "C minor"),
    ("Bm7b5 | E7b9", "A minor"),
    ("Bm7b5 | E7b9 | A6", "A major"),
    ("Cmaj7 C#dim7 | Dm7 D#dim7", "C major"),
    ("Cmaj7 A7 | Dm7 G7", "C major"),
    ("Em7 A7 | Dm7 G7 | Cmaj7", "C major"),
    ("Em7 A7 | Dm7 G7", "C major"),
    ("Fm7 Bb7 | Cmaj7", "C major"),
    ("Dm7 Db7 | Cmaj7", "C major"),
    ("Dm7 Db7", "C major"),
    ("E7 | A7 | D7 | G7", "C major"),
    ("Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6", "G minor"),
    ("C7 | F7 | C7 | C7", "C major"),
    ("C7|F7|C7|C7|F7|F7|C7|C7|G7|F7|C7|G7", "C major"),
    ("Cm6|Cm6|Cm6|Cm6|Fm7|Fm7|Cm6|Cm6|Ab7|G7|Cm6|G7", "C minor"),
    # A blues that begins and ends on its I7, with V or V–IV in bars 9 and 10.
    ("C7|C7|C7|C7|F7|F7|C7|C7|G7|G7|C7|C7", "C major"),
    ("Bb7|Eb7|Bb7|Bb7|Eb7|Eb7|Bb7|Bb7|F7|Eb7|Bb7|Bb7", "Bb major"),
    # A half-diminished iii does not make the ii a tonic, nor does the iii–VI that a rising opening leads to.
    ("Em7b5 | A7b9 | Dm7 | G7", "C major"),
    ("Cmaj7 C#dim7 | Dm7 D#dim7 | Em7 A7", "C major"),
    ("Em7b5 | A7b9 | Dm7 | Dm7", "D minor"),
    ("C#dim7 | Dm7", "D minor"),
    ("Cm7 | F9", "Bb major"),
    ("Cm | Cm(maj7) | Cm7 | Cm6", "C minor"),
    ("C | F | G | C", "C major"),
    ("Am | Dm | E7 | Am", "A minor"),
    # Decided, and said in the docstring: alone, a dominant is V of its major key, a minor chord a tonic.
    ("G7", "C major"),
    ("G13b9", "C major"),
    ("Dm7", "D minor"),
    ("Dm7 | Em7", "D minor"),
    ("Cmaj7", "C major"),
    ("F/G", "C major"),
    ("Bdim7", "C minor"),
    ("Cmaj7 Ebmaj7 | Abmaj7 Dbmaj7", "C major"),
    ("N.C.", "C major"),
    ("N.C. | G7 | N.C.", "C major"),
    # The dominants of a blues are at home: I7, IV7 and V7 (common practice).
    ("Eb7 | Bb7 | Eb7", "Bb major"),
    ("Bb7 | Eb7 | Bb7", "Bb major"),
    ("C7 | G7 | C7", "G major"),
    ("G7 | C7 | F7", "G major"),
    ("F7 | Eb7 | F7", "F major"),
    # A deceptive close, a side-slip of the dominant, a diminished chord on the tonic (common practice).
    ("C7 | Dm | Bbmaj7", "F major"),
    ("Dbdim7 | Db6 | Dbdim7", "Db major"),
    ("Dm7b5 | Cm | Fm6", "C minor"),
    # Spelled as the roots are written, and by the enharmonic neighbour beyond seven accidentals.
    ("Ebm7 | Ab7 | Dbmaj7", "Db major"),
    ("D#m7 | G#7 | C#maj7", "C# major"),
    ("Abm7 Db7", "Gb major"),
    ("G#m7 C#7", "F# major"),
    ("A#m7 | D#7 | G#maj7", "Ab major"),
    ("Bbm7b5 | Eb7b9 | Abm6", "Ab minor"),
    ("A#m7b5 | D#7b9 | G#m6", "G# minor"),
]


@pytest.mark.parametrize(("text", "expected"), KEYS, ids=[text for text, _ in KEYS])
def test_key(text: str, expected: str) -> None:
    assert str(infer_key(read(text))) == expected


# Common practice, all rows; the convention stands in the table's docstring.
NUMERALS = [
    ("Dm7 G7 Cmaj7", "C major", "ii V I"),
    ("Dm7b5 G7b9 Cm6", "C minor", "iiø V i"),
    ("Em7 A7 Dm7 G7", "C major", "iii VI ii V"),
    ("Cmaj7 C#dim7 Dm7 D#dim7 Em7", "C major", "I #i° ii #ii° iii"),
    ("Cmaj7 Dbdim7 Dm7 Ebdim7 Em7", "C major", "I #i° ii #ii° iii"),
    ("Em7 Ebdim7 Dm7 Db7 Cmaj7", "C major", "iii biii° ii bII I"),
    ("Fm6 Bb9 C6", "C major", "iv bVII I"),
    ("F F#dim7 C/G", "C major", "IV #iv° I"),
    ("F#m7b5 B7 Em7", "C major", "#ivø VII iii"),
    ("F#m7 B7 Em7", "C major", "#iv VII iii"),
    ("F#7 B7 Em7", "C major", "#IV VII iii"),
    ("Gb7 Fmaj7", "C major", "bV IV"),
    ("C#7 Cmaj7", "C major", "bII I"),
    ("Cm Ebmaj7 Abmaj7 Bb7", "C minor", "i bIII bVI bVII"),
    ("Caug F", "C major", "I+ IV"),
    ("Cmaj7#5 G7#5", "C major", "I+ V"),
    ("F/G Dm7/G G7sus", "C major", "V V V"),
    ("Dm7 N.C. G7", "C major", "ii  V"),
    ("C5 Csus2", "C major", "I I"),
    ("Bdim7 Cm6", "C minor", "vii° i"),
]


@pytest.mark.parametrize(("text", "key", "expected"), NUMERALS)
def test_numerals(text: str, key: str, expected: str) -> None:
    assert numerals(read(text), Key.parse(key)) == tuple(expected.split(" "))


# The seventh chords on the degrees of major and natural minor (common practice).
DIATONIC = {
    "major": "1 maj7,2 m7,3 m7,4 maj7,5 7,6 m7,7 m7b5",
    "minor": "1 m7,2 m7b5,b3 maj7,4 m7,5 m7,5 7,b6 maj7,b7 7,7 dim7",
}


@pytest.mark.parametrize("mode", ["major", "minor"])
@pytest.mark.parametrize("fifths", range(-5, 7))
def test_diatonic_sevenths_agree_with_music21(fifths: int, mode: str) -> None:
    """music21's romanNumeralFromChord; it counts bIII in minor from natural minor, as III."""
    key = Key(NoteName(fifths + (3 if mode == "minor" else 0)), mode)
    theirs = m21_key.Key(str(key.tonic).replace("b", "-"), mode)
    for row in DIATONIC[mode].split(","):
        degree, kind = row.split()
        chord = parse_chord(f"{key.tonic + degree_interval(degree)}{kind}")
        names = [str(tone).replace("b", "-") for tone in chord.tones]
        pitches = [name + octave for name, octave in zip(names, "3456", strict=True)]  # root at the bottom
        figure = m21_roman.romanNumeralFromChord(m21_chord.Chord(pitches), theirs).figure
        found = re.match(r"[b#]?[ivIV]+[oø]?", figure)
        assert found is not None
        expected = found.group().replace("o", "°")
        assert numerals([chord], key) == ("bIII" if expected == "III" else expected,)


def test_neighbours_with_one_function_stand_together() -> None:
    """Common practice: a suspension resolves, a minor tonic's seventh comes down; C C7 is two functions."""
    text = "G9sus G7b9 | Cm Cm(maj7) Cm7 Cm6 | C C7 | Dsus4 D | N.C. N.C. | Bm7b5 Bdim7"
    spans = [(group.first, group.last) for group in groups(read(text))]
    assert spans == [(0, 1), (2, 5), (6, 6), (7, 7), (8, 9), (10, 11), (12, 12), (13, 13)]


@pytest.mark.parametrize(
    ("symbol", "kind"),
    [
        ("C", "major triad"), ("C6/9", "major seventh"), ("Cmaj9", "major seventh"), ("C13", "dominant"),
        ("C7alt", "dominant"), ("C7#5", "dominant"), ("Caug", "augmented"), ("Csus4", "suspended triad"),
        ("C13sus", "suspended"), ("Cm", "minor triad"), ("Cm11", "minor seventh"), ("Cm6", "minor sixth"),
        ("Cm(maj7)", "minor sixth"), ("Cm7b5", "half-diminished"), ("Cdim7", "diminished"),
        ("Cdim", "diminished"), ("Bb/C", "suspended"), ("Gm7/C", "suspended"), ("C/E", "major triad"),
    ],
)  # fmt: skip
def test_kinds(symbol: str, kind: str) -> None:
    found = heard(parse_chord(symbol))
    assert found is not None
    assert (found.kind, str(found.root)) == (kind, "C")


sequences = st.lists(any_chords | st.just(parse_chord("N.C.")), min_size=1, max_size=12)
moves = st.builds(lambda fifths: NoteName(0).interval_to(NoteName(fifths)), st.integers(-5, 6))


@given(sequences, moves)
def test_key_and_numerals_move_with_the_chords(chords: list[Chord], by: Interval) -> None:
    moved = [chord.transposed(by) for chord in chords]
    here, there = infer_key(chords), infer_key(moved)
    assert abs(there.signature) <= 7
    assert here.mode == there.mode
    if any(chord.root is not None for chord in chords):
        assert (here.tonic.pitch_class + by.semitones) % 12 == there.tonic.pitch_class
        assert numerals(chords, here) == numerals(moved, there)


@given(sequences)
def test_every_chord_has_a_numeral(chords: list[Chord]) -> None:
    for chord, numeral in zip(chords, numerals(chords, infer_key(chords)), strict=True):
        if chord.root is None:
            assert numeral == ""
        else:
            assert re.fullmatch(r"[#b]?(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)[°ø+]?", numeral)


@pytest.mark.parametrize("root", ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"])
def test_a_lone_chord_names_the_tonic(root: str) -> None:
    """Common practice: b2, b3, #4, b6 and b7 above C; each alone says that the tonic is written C."""
    assert tonic_name(0, [Heard(NoteName.parse(root), "dominant")], "major") == NoteName.parse("C")


_NUMERAL = re.compile(
    r"tritone substitute|back door|(?<![A-Za-z])[b#]?(?:VII|VI|IV|V|III|II|I)(?![a-z])"
    r"|(?<![A-Za-z])[b#]?(?:vii|vi|iv|v|iii|ii|i)(?![a-z])"
)
_DEGREES = {"I": 0, "II": 2, "III": 4, "IV": 5, "V": 7, "VI": 9, "VII": 11}


def semitones_said(text: str) -> list[int]:
    """Return the half steps above the tonic of each numeral in the name of a function or a move."""
    found = []
    for numeral in _NUMERAL.findall(text):
        if numeral in ("tritone substitute", "back door"):
            found.append({"tritone substitute": 1, "back door": 10}[numeral])
        else:
            plain = numeral.lstrip("b#").upper()
            found.append(_DEGREES[plain] + numeral.count("#") - numeral.count("b"))
    return found


def test_functions_stand_on_the_degrees_that_their_names_say() -> None:
    """Common practice: bVI is 8 half steps above the tonic, the tritone substitute 1, viiø 11."""
    for row in FITS:
        assert semitones_said(row.source)[0] == row.semitones, row.source
    for move in MOVES:
        assert semitones_said(move.source)[:2] == [move.first, move.second], move.source
    assert min(row.weight for row in FITS) == min(row.weight for row in MOVES) == 1


@pytest.mark.parametrize(
    ("tonic", "symbols", "name"),
    [
        (6, "B7", "F#"), (6, "Cb7", "Gb"), (6, "E7", "F#"), (6, "Fb7", "Gb"), (6, "Cb7 D#m7", "Gb"),
        (6, "B7 Ebm7", "F#"), (6, "Db7 B7", "Gb"), (1, "Ab7", "Db"), (1, "G#7", "C#"), (8, "Gb7", "Ab"),
        # Each degree alone, by either name: G is the b2 of F sharp, C the #4 of G flat, A the b6 of C sharp.
        (6, "F#", "F#"), (6, "Gb", "Gb"), (6, "G7", "F#"), (6, "Ab7", "Gb"), (6, "G#7", "F#"),
        (6, "A7", "F#"), (6, "Bb7", "Gb"), (6, "A#7", "F#"), (6, "C7", "Gb"), (6, "D7", "F#"),
        (6, "Eb7", "Gb"), (6, "D#7", "F#"), (6, "F7", "Gb"), (6, "E#7", "F#"),
        (1, "A7", "C#"), (1, "D7", "C#"), (1, "G7", "Db"),
    ],
)  # fmt: skip
def test_a_tonic_takes_its_name_from_its_chords(tonic: int, symbols: str, name: str) -> None:
    """The chord that says most of a key names it: I, V, ii, IV and so on. Spelling: common practice."""
    sounding = [one for symbol in symbols.split() if (one := heard(parse_chord(symbol)))]
    assert str(tonic_name(tonic, sounding, "major")) == name
