"""Spelling: laws, the optimiser against brute force, and tables checked by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.chord_names import chords_cost, respelled_chords
from shedbook.editions.spelling.note_names import names_over
from shedbook.editions.spelling.note_spelling import least_cost, respell, spelling_cost
from shedbook.editions.spelling.spelling_plan import plan_spelling
from shedbook.editions.tables.spelling_costs import CHORD_COSTS, NOTE_COSTS, CostRow
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Bar, Phrase, sounding_notes
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch, spellings
from shedbook.theory.scale import parse_scale

Make = Callable[..., Phrase]
COST = costs_by_name(NOTE_COSTS)


def written(phrase: Phrase) -> Iterator[Pitch]:
    for bar in phrase.bars:
        for event in bar.events:
            yield from event.grace
            if event.pitch is not None:
                yield event.pitch


def with_names(phrase: Phrase, pick: Callable[[Pitch], Pitch]) -> Phrase:
    bars = tuple(
        Bar(
            bar.number,
            tuple(
                replace(
                    event,
                    pitch=None if event.pitch is None else pick(event.pitch),
                    grace=tuple(pick(pitch) for pitch in event.grace),
                )
                for event in bar.events
            ),
        )
        for bar in phrase.bars
    )
    return replace(phrase, bars=bars)


# Laws.


@given(strategies.phrases())
def test_spelling_keeps_sound(phrase: Phrase) -> None:
    spelled = respell(phrase)
    assert [pitch.midi for pitch in written(spelled)] == [pitch.midi for pitch in written(phrase)]
    assert with_names(spelled, lambda pitch: Pitch(0, pitch.midi)).bars == (
        with_names(phrase, lambda pitch: Pitch(0, pitch.midi)).bars
    )
    for new, old in zip(spelled.changes, phrase.changes, strict=True):
        assert new.chord.pitch_classes == old.chord.pitch_classes
    for new_scale, old_scale in zip(spelled.scales, phrase.scales, strict=True):
        assert (new_scale and new_scale.pitch_classes) == (old_scale and old_scale.pitch_classes)


@given(strategies.phrases())
def test_spelling_twice_is_spelling_once(phrase: Phrase) -> None:
    once = respell(phrase)
    assert respell(once) == once


@given(strategies.phrases(), st.randoms(use_true_random=False))
def test_names_do_not_depend_on_how_the_notes_were_written(phrase: Phrase, random: st.DataObject) -> None:
    other = with_names(phrase, lambda pitch: random.choice(spellings(pitch.midi)))  # type: ignore[attr-defined]
    expected = respell(phrase)
    # A tie between two names of one pitch is a tie all the same.
    assert respell(other).bars == expected.bars


@given(strategies.phrases())
def test_a_tied_note_has_one_name(phrase: Phrase) -> None:
    last = None
    for bar in respell(phrase).bars:
        for event in bar.events:
            if (
                event.tie_in
                and last is not None
                and event.pitch is not None
                and last.midi == event.pitch.midi
            ):
                assert event.pitch == last
            last = event.pitch or last


@given(strategies.phrases())
def test_no_double_accidentals_and_never_dearer_than_as_written(phrase: Phrase) -> None:
    spelled = respell(phrase)
    assert all(abs(pitch.alteration) <= 1 for pitch in written(spelled))
    as_written = replace(phrase, changes=spelled.changes, scales=spelled.scales)
    assert spelling_cost(spelled) == least_cost(spelled, plan_spelling(spelled), 0)
    if all(abs(pitch.alteration) <= 1 for pitch in written(phrase)):
        assert spelling_cost(spelled) <= spelling_cost(as_written) or _against_a_chord(as_written)


def _against_a_chord(phrase: Phrase) -> bool:
    """Say whether a note has a name that is never tried, such as A# for the seventh of C7."""
    layout = plan_spelling(phrase)
    tables = [
        names_over(change.chord, scale, phrase.key).candidates
        for change, scale in zip(phrase.changes, phrase.scales, strict=True)
    ]
    pitches = [pitch for bar, row in zip(phrase.bars, layout.events, strict=True)
               for event, (graces, main) in zip(bar.events, row, strict=True)
               for index, pitch in zip((*graces, main), (*event.grace, event.pitch), strict=True)
               if pitch is not None and pitch.name.fifths not in
               [name for name, _ in tables[layout.struck[index].chord][pitch.midi % 12]]]  # fmt: skip
    return bool(pitches)


# Brute force.


@given(
    st.lists(st.integers(60, 72), min_size=4, max_size=7),
    st.sampled_from(["G7", "Db7", "F#7alt", "Cm7b5", "Ebm7", "B", "Adim7", "E7#9", "N.C."]),
    st.sampled_from(["C", "Gb", "B minor", "E"]),
)
def test_the_optimiser_finds_what_brute_force_finds(
    make: Make, midis: list[int], chord: str, key: str
) -> None:
    notes = " ".join(str(spellings(midi)[0]) for midi in midis)
    left = {4: "1/2 -", 5: "1/4 - 1/8 -", 6: "1/4 -", 7: "1/8 -"}[len(midis)]
    phrase = make(key, f"{chord}", f"1/8 {notes} {left}")
    spelled = respell(phrase)
    candidates = names_over(spelled.changes[0].chord, None, spelled.key).candidates
    costs = []
    for names in product(*(candidates[midi % 12] for midi in midis)):
        row = iter(
            [Pitch((7 * midi - name) // 12, midi) for midi, (name, _) in zip(midis, names, strict=True)]
        )
        costs.append(spelling_cost(with_names(spelled, lambda _, row=row: next(row))))  # type: ignore[misc]
    assert spelling_cost(spelled) == min(costs)


def test_the_cost_of_a_line_by_hand(make: Make) -> None:
    # C C# D over C major: C# is outside (b9, so Db by its degree: 2) and C C# is a chromatic half step (2);
    # with Db: Db goes up to D on one letter (2 + 6).
    line = "1/4 c4 {} 1/2 d"
    assert (
        spelling_cost(make("C", "C", line.format("c#")))
        == COST["against degree"] + COST["chromatic half step"]
    )
    assert spelling_cost(make("C", "C", line.format("db"))) == (
        COST["chromatic half step"] + COST["leaving outside"]
    )


@pytest.mark.parametrize(
    ("sharp", "flat", "more"),
    [
        ("1/4 d#5 c# d -", "1/4 eb5 c# d -", 0),
        ("1/4 g4 d#5 c# d", "1/4 g4 eb5 c# d", 2),  # and G to D# is an augmented fifth
        ("1/8 f#4 a d#5 c# d e f g", "1/8 f#4 a eb5 c# d e f g", 0),  # A to Eb and to D#: both a tritone
    ],
)
def test_an_enclosure_leaves_its_first_note_by_letter_too(
    make: Make, sharp: str, flat: str, more: int
) -> None:
    """Eb C# D: over C the first note closes in by half step across the second, so Eb and not D#."""
    dearer = spelling_cost(make("C", "C", sharp)) - spelling_cost(make("C", "C", flat))
    assert dearer == COST["against degree"] + COST["leaving outside"] + more


def test_a_diminished_seventh_is_spelled_by_the_key_that_it_moves_into(make: Make) -> None:
    """Its root may be renamed the other way round than the key moves: the letters follow the key."""
    phrase = make("Db", "Cb7 Db", "1/8 cb4 eb gb bbb bb4 f db db")
    spelled = respell(phrase)
    assert [change.chord.text for change in spelled.changes] == ["B7", "Db"]
    assert " ".join(str(pitch.name) for pitch in written(spelled)) == "B D# F# A Bb F Db Db"


# Tables checked by hand. Common practice where no source stands beside a row.

LINES = [
    pytest.param("C", "Cmaj7", "", "1/8 c4 db d eb e f gb g", "C C# D D# E F F# G", id="chromatic, rising"),
    pytest.param("C", "Cmaj7", "", "1/8 g4 f# f e d# d c# c", "G Gb F E Eb D Db C", id="chromatic, falling"),
    pytest.param(
        "Bb", "Bbmaj7", "", "1/8 bb4 b c5 c# d eb e f", "Bb B C C# D Eb E F", id="chromatic in B flat"
    ),
    pytest.param(
        "E", "E", "", "1/8 e5 eb db c b4 a ab gb", "E D# C# C B A G# F#", id="E major by its own notes"
    ),
    pytest.param(
        "C",
        "G7",
        "half-whole diminished",
        "1/8 d#5 db d b4 a# a ab g",
        "Eb C# D B Bb A Ab G",
        id="closing in on the fifth, then a passing note between two scale notes",
    ),
    pytest.param(
        "C",
        "G7",
        "half-whole diminished",
        "1/8 g4 ab bb b db5 d e f",
        "G Ab Bb B C# D E F",
        id="half-whole, rising: #9 by the plain minor third",
    ),
    pytest.param(
        "C", "G7#9", "", "1/8 d5 bb4 b d5 f d b4 g", "D A# B D F D B G", id="#9 that rises to the third"
    ),
    pytest.param("C", "G7#9", "", "1/8 d5 a#4 g f d f g a", "D Bb G F D F G A", id="#9 that goes elsewhere"),
    pytest.param(
        "C",
        "F7b9",
        "",
        "1/8 a4 c5 eb f# ab f# eb c",
        "A C Eb Gb Ab Gb Eb C",
        id="A flat is the #9 of F [the project's design]",
    ),
    pytest.param(
        "C minor", "G7alt", "altered", "1/8 g4 ab bb b c# d# f d#", "G Ab Bb B Db Eb F Eb", id="altered"
    ),
    pytest.param(
        "B",
        "F#7",
        "half-whole diminished",
        "1/8 f#4 g a bb c db eb e",
        "F# G A A# C C# D# E",
        id="half-whole on F#: A# as its third, C natural rather than B#",
    ),
    pytest.param(
        "Gb",
        "Db7",
        "half-whole diminished",
        "1/8 db5 d e f g ab bb b",
        "Db D E F G Ab Bb Cb",
        id="half-whole on D flat: D and E natural, not E double flat and F flat; C flat as its seventh",
    ),
    pytest.param(
        "Eb minor", "Bb7b9", "", "1/8 d5 f ab b bb ab f d", "D F Ab Cb Bb Ab F D", id="C flat falls to B flat"
    ),
    pytest.param(
        "E minor", "B7alt", "altered", "1/8 b4 c d eb f g a g", "B C D D# F G A G", id="F natural, not E#"
    ),
    pytest.param("F#", "C#7", "", "1/8 f5 ab b db f ab gb bb", "E# G# B C# E# G# F# A#", id="E# as a third"),
    pytest.param(
        "E",
        "D#7",
        "",
        "1/8 d#5 g a# c# a# g d# db",
        "D# G A# C# A# G D# C#",
        id="G serves for F double sharp",
    ),
    pytest.param(
        "Bb", "Cdim7", "", "1/8 c4 eb gb a c d# f# a", "C Eb Gb A C Eb Gb A", id="plain letters over dim7"
    ),
    pytest.param("D", "D", "", "1/8 f#4 f f# g a ab a d", "F# F F# G A G# A D", id="lower neighbours"),
    pytest.param(
        "C",
        "Cmaj7 | F#7",
        "",
        "1/8 e4 g b g e d c bb | 1/1 bb4",
        "E G B G E D C A# A#",
        id="an anticipated third has the name that it will have",
    ),
    pytest.param(
        "Ab minor",
        "E7#11",
        "",
        "1/8 g#4 gb b d5 e f# ab b",
        "G# F# B D E F# G# B",
        id="E7, not Fb7: its own 9",
    ),
    pytest.param("C", "Am7", "", "1/4 grace:eb4 e grace:bb b 1/2 c5", "D# E A# B C", id="grace notes"),
    pytest.param("C", "Dm7/G#", "", "1/2 ab4 d", "G# D", id="a bass that is no chord tone lends its letter"),
    pytest.param(
        "Eb minor",
        "Bb7b9",
        "half-whole diminished",
        "1/8 d5 d# e c# b4 d5 f ab",
        "D Eb E Db Cb D F Ab",
        id="a key's own tonic outside the chord scale keeps its letter, and so does its flat sixth",
    ),
    pytest.param(
        "Ab minor",
        "Eb7b9",
        "half-whole diminished",
        "1/8 g4 g# a gb e g bb db5",
        "G Ab A Gb Fb G Bb Db",
        id="F flat belongs to A flat minor",
    ),
    pytest.param(
        "C minor",
        "G7b9",
        "half-whole diminished",
        "1/4 f5 1/8 d# c# 1/4 d 1/8 c a#4",
        "F Eb C# D C Bb",
        id="the #9 that the key has is called as the key calls it",
    ),
    pytest.param(
        "Bb",
        "C7",
        "mixolydian",
        "1/8 d4 d# e f# g f e d",
        "D Eb E F# G F E D",
        id="outside the scale and in the key, rising, beside a note outside both",
    ),
    pytest.param(
        "B",
        "Bmaj7 Cdim7",
        "",
        "1/8 b4 f# d# f# a gb f eb",
        "B F# D# F# A F# F D#",
        id="a diminished seventh by the key's letters: one name in the bar",
    ),
    pytest.param(
        "C", "C#dim7", "", "1/8 a#4 c#5 e c# a#4 g f# e", "Bb C# E C# Bb G F# E", id="C#dim7 has B flat"
    ),
    pytest.param(
        "D",
        "A13b9",
        "half-whole diminished",
        "1/8 e5 c# a4 c#5 a#4 f# a# g",
        "E C# A C# Bb F# Bb G",
        id="a named b9 keeps its letter among sharps",
    ),
    pytest.param("C", "N.C.", "", "1/8 c4 db d d# e eb db c", "C C# D D# E Eb Db C", id="no chord"),
]


@pytest.mark.parametrize(("key", "changes", "scales", "line", "expected"), LINES)
def test_line(make: Make, key: str, changes: str, scales: str, line: str, expected: str) -> None:
    spelled = respell(make(key, changes, line, scales))
    assert " ".join(str(pitch.name) for pitch in written(spelled)) == expected


ROOTS = [
    pytest.param("Db", "Bbb7 Ab7", "A7 Ab7", id="no root with a double accidental"),
    pytest.param("Gb", "Cbm7 Fb7 Gbmaj7", "Bm7 E7 Gbmaj7", id="no Fb7, and its ii goes with it"),
    pytest.param("Gb", "Gbmaj7 Cbmaj7 Db7", "Gbmaj7 Cbmaj7 Db7", id="Cb is the fourth of G flat"),
    pytest.param("B", "B B#dim7 C#m7 C##dim7 D#m7", "B Cdim7 C#m7 Ddim7 D#m7", id="rising diminished in B"),
    pytest.param("Db", "Db Cb7 Db", "Db B7 Db", id="backdoor in D flat"),
    pytest.param("C", "Db7 C6", "Db7 C6", id="the author's tritone substitute stays"),
    pytest.param("C", "B#m7/D# F7", "Cm7/Eb F7", id="the bass goes with its chord"),
    pytest.param("C", "C7/A# F", "C7/Bb F", id="the bass as the chord calls it"),
    pytest.param("Db", "Gbm6/Bbb Db", "Gbm6/A Db", id="no bass with a double accidental"),
    pytest.param("C", "N.C. B#m N.C.", "N.C. Cm N.C.", id="no chord"),
    pytest.param("B", "D#7 G#m", "D#7 G#m", id="III7 keeps its fifth to vi"),
]


@pytest.mark.parametrize(("key", "chords", "expected"), ROOTS)
def test_chord_names(key: str, chords: str, expected: str) -> None:
    found = respelled_chords(tuple(parse_chord(text) for text in chords.split()), Key.parse(key))
    assert " ".join(chord.text for chord in found) == expected
    again = respelled_chords(found, Key.parse(key))
    assert again == found


def test_chords_cost_counts_signature_and_odd_names() -> None:
    key = Key.parse("C")
    assert chords_cost((parse_chord("C"), parse_chord("F")), key) == 0
    assert chords_cost((parse_chord("C"), parse_chord("Fb")), key) == 10  # E, renamed
    assert chords_cost((), Key.parse("F#")) == 18


def test_scales_follow_their_chords(make: Make) -> None:
    phrase = make("Gb", "Fb7 | Gb", "1/1 e4 | db4", "lydian dominant | Gb ionian")
    spelled = respell(phrase)
    assert [str(scale) for scale in spelled.scales] == ["E lydian dominant", "Gb ionian"]


def test_a_scale_on_another_root_moves_with_its_chord(make: Make) -> None:
    phrase = make("Gb", "Fb7 | N.C.", "1/1 e4 | db4", "Cb melodic minor |")
    own = replace(phrase, scales=(phrase.scales[0], parse_scale("Gb major")))
    assert [str(scale) for scale in respell(own).scales] == ["B melodic minor", "Gb ionian"]


def test_a_phrase_without_changes_is_spelled_by_its_key(make: Make) -> None:
    phrase = replace(make("Ab", "Ab", "1/8 g#4 a# c5 c# d# c# c g#4"), changes=(), scales=())
    assert print_line(respell(phrase).bars) == "1/8 ab4 bb c5 db eb db c ab4"
    assert spelling_cost(respell(phrase)) < spelling_cost(phrase)


def test_rests_only(make: Make) -> None:
    phrase = make("C", "C", "1/1 -")
    assert respell(phrase) == phrase
    assert sounding_notes(respell(phrase)) == ()
    assert spelling_cost(phrase) == 0


def test_a_bar_of_twelve_open_notes_that_come_again_is_still_spelled(make: Make) -> None:
    # Chromatic to and fro over no chord: the widest the search can get in one bar.
    phrase = make("C", "N.C.", "1/16 c4 db e ab bb d gb b bb ab gb e db c eb a")
    assert phrase.metre == Metre()
    once = respell(phrase)
    assert respell(once) == once


def test_a_cost_cannot_stand_twice_nor_be_negative() -> None:
    row = CostRow("a", 1, "b", "c")
    with pytest.raises(ValueError, match="twice"):
        costs_by_name((row, row))
    with pytest.raises(ValueError, match="below zero"):
        costs_by_name((row._replace(cost=-1),))
    assert all(row.why and row.source for row in (*NOTE_COSTS, *CHORD_COSTS))
