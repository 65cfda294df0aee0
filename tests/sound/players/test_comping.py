"""The comping: voicings a pianist would play, in the gaps, with the chord scale of the line."""

from __future__ import annotations

import itertools
from collections import defaultdict
from fractions import Fraction

import pytest

from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.players.comping import comping
from shedbook.sound.players.usable_notes import usable_notes
from shedbook.sound.players.voicings import Voicing, movement, smoothest, step_cost, steps, voicings
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import COMPING, PartNote
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.scale import parse_scale
from sound.chord_oracle import third_and_seventh
from sound.demo_scores import chart, demo, demo_in_keys, from_bar_one, score
from sound.demo_scores import phrase as written_phrase

BOTH = Order(parts="both", rounds=2, count_in=0)
COMPED = tuple(phrase for phrase in demo_in_keys() if phrase.feel != "latin")
"""A montuno is a figure of single notes and octaves, which comes before its chord; it is no comping."""


def struck(found: tuple[PartNote, ...]) -> dict[Fraction, list[PartNote]]:
    chords: dict[Fraction, list[PartNote]] = defaultdict(list)
    for note in found:
        chords[note.start].append(note)
    return chords


def degrees(symbol: str, scale: str) -> set[int]:
    """Return every note that voicings of a chord use, as half steps over the root."""
    chord = parse_chord(symbol)
    assert chord.root is not None
    over = usable_notes(chord, parse_scale(scale, root=chord.root) if scale else None)
    return {(midi - chord.root.pitch_class) % 12 for voicing, _ in voicings(over) for midi in voicing}


@pytest.mark.parametrize(
    ("symbol", "scale", "pair"),
    [
        pytest.param("Dm7", "dorian", {3, 10}, id="3 and 7"),
        pytest.param("G7", "mixolydian", {4, 10}, id="3 and b7"),
        pytest.param("Cmaj7", "ionian", {4, 11}, id="3 and 7, major"),
        pytest.param("C6", "ionian", {4, 9}, id="3 and 6"),
        pytest.param("Cm6", "melodic minor", {3, 9}, id="b3 and 6"),
        pytest.param("G7sus4", "mixolydian", {5, 10}, id="4 and b7"),
        pytest.param("Bm7b5", "locrian", {3, 10, 6}, id="b3, b7 and the b5 that makes it"),
        pytest.param("Edim7", "whole-half diminished", {3, 9, 6}, id="b3, b5 and bb7"),
        pytest.param("G7#5", "whole tone", {4, 10, 8}, id="3, #5 and b7"),
        pytest.param("C13b9", "half-whole diminished", {4, 10, 9, 1}, id="13 and b9 as written"),
        pytest.param("Am(maj7)", "melodic minor", {3, 11}, id="b3 and 7"),
        pytest.param("C/E", "ionian", {4, 7}, id="a triad: 3 and 5"),
    ],
)
def test_every_voicing_says_what_the_chord_is(symbol: str, scale: str, pair: set[int]) -> None:
    """Common practice: the pair, and what the symbol insists on; named colours may wait in three notes."""
    chord = parse_chord(symbol)
    assert chord.root is not None
    over = usable_notes(chord, parse_scale(scale, root=chord.root))
    found = voicings(over)
    assert found
    for voicing, _ in found:
        heard = {(midi - chord.root.pitch_class) % 12 for midi in voicing}
        assert len(voicing) in (3, 4)
        assert pair <= heard or (len(voicing) == 3 and len(pair & heard) == 3)


@pytest.mark.parametrize(
    ("symbol", "scale", "never"),
    [
        pytest.param("G7alt", "altered", {7, 2, 9, 11, 5}, id="no 5, 9, 13 under altered [the design]"),
        pytest.param("G7b9", "half-whole diminished", {8, 2, 11}, id="no b13 under half-whole [the design]"),
        pytest.param("G7", "bebop dominant", {11, 5}, id="no major 7 over a dominant [the design]"),
        pytest.param("G7", "mixolydian", {5, 8, 1}, id="no 11 over a major third [Levine 1995]"),
        pytest.param("Em7", "phrygian", {1, 8}, id="no b9 over iii [Levine 1995]"),
        pytest.param("C7", "lydian dominant", {5, 8, 1}, id="no 4 under lydian dominant"),
        pytest.param("F7", "blues", {11, 5}, id="blues is a line's scale, no chord's"),
        pytest.param("Cmaj7", "ionian", {0, 5, 10}, id="rootless, no 11, no b7"),
        pytest.param("F#m7b5", "locrian", {0, 1}, id="rootless, no b9"),
        pytest.param("Bm7b5", "locrian #2", {0, 1}, id="rootless with the ninth"),
    ],
)
def test_colours_come_from_the_chord_scale(symbol: str, scale: str, never: set[int]) -> None:
    assert degrees(symbol, scale).isdisjoint(never)


@pytest.mark.parametrize("phrase", COMPED, ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_chords_on_the_beat_hold_third_and_seventh(phrase: Phrase) -> None:
    """Third and seventh (or sixth) as music21 gives them, wherever a chord is struck inside its stretch.

    One of them may be left out where the line sounds a half step above it.
    """
    found = struck(from_bar_one(score(phrase, BOTH), COMPING))
    starts = [phrase.change_start(change) for change in phrase.changes]
    ends = [*starts[1:], phrase.full_bars * phrase.metre.bar_quarters]
    line = {note.pitch.midi % 12 for note in sounding_notes(phrase)}
    for start, end, change in zip(starts, ends, phrase.changes, strict=True):
        known = third_and_seventh(change.chord)
        for at, chord in found.items():
            if known is not None and start <= at < end - Fraction(1, 2):
                missing = known - {note.midi % 12 for note in chord}
                assert {(voice + 1) % 12 for voice in missing} <= line


@pytest.mark.parametrize("phrase", COMPED, ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_window_and_size(phrase: Phrase) -> None:
    found = struck(from_bar_one(score(phrase, BOTH), COMPING))
    for chord in found.values():
        assert len(chord) in (2, 3, 4)  # two where more would clash with the line at once
        assert all(50 <= note.midi <= 74 for note in chord)


@pytest.mark.parametrize("phrase", demo_in_keys(), ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_no_half_step_against_a_landing(phrase: Phrase) -> None:
    """Landings judged here by themselves: the line's notes struck on the strong beats."""
    written = score(phrase, BOTH)
    strong = {(beat - 1) * phrase.metre.beat_quarters for beat in phrase.metre.strong_beats}
    landings = [
        note
        for note in sounding_notes(phrase)
        if note.start >= 0 and note.start % phrase.metre.bar_quarters in strong
    ]
    for landing in landings:
        for note in from_bar_one(written, COMPING):
            if note.start < landing.end and note.end > landing.start:
                assert abs(note.midi - landing.pitch.midi) not in (1, 13)


def test_thins_behind_the_line_and_answers_without_it() -> None:
    """Hits a bar over the whole book, in rounds with the line and in rounds left to the reader."""
    behind = alone = bars = 0
    for phrase in demo():
        span = phrase.full_bars * phrase.metre.bar_quarters
        found = struck(from_bar_one(score(phrase, Order(rounds=2, answers=True, count_in=0)), COMPING))
        behind += sum(at < span for at in found)
        alone += sum(span <= at < 2 * span for at in found)
        bars += phrase.full_bars
    assert 0.6 <= behind / bars <= 1.8
    assert alone / behind >= 1.3


@pytest.mark.parametrize("feel", [feel for feel in FEELS if feel not in ("free", "waltz", "latin")])
def test_thins_and_answers_in_every_feel(feel: str) -> None:
    """Over the phrases in four; a free feel holds its chords, and a montuno goes on as it is."""
    behind = alone = bars = 0
    for phrase in demo():
        if phrase.metre.bar_quarters != 4:
            continue
        span = phrase.full_bars * phrase.metre.bar_quarters
        order = Order(rounds=2, answers=True, count_in=0, feel=feel)
        found = struck(from_bar_one(arrange(phrase, order), COMPING))
        behind += sum(at < span for at in found)
        alone += sum(span <= at < 2 * span for at in found)
        bars += phrase.full_bars
    assert 0.6 <= behind / bars <= 1.9
    assert alone / behind >= 1.2
    assert alone / bars <= 3.2


def test_hits_behind_the_line_prefer_its_gaps() -> None:
    """Against chance: the share of all eighths at which the line moves on."""
    hits: list[bool] = []
    chance: list[bool] = []
    for phrase in demo():
        onsets = [note.start for note in sounding_notes(phrase)]
        span = phrase.full_bars * phrase.metre.bar_quarters

        def busy(at: Fraction, onsets: list[Fraction] = onsets) -> bool:
            return sum(-1 < 2 * (onset - at) <= 1 for onset in onsets) > 1

        chance += [busy(Fraction(at, 2)) for at in range(int(2 * span))]
        for seed in range(4):
            found = struck(from_bar_one(score(phrase, Order(count_in=0, seed=seed)), COMPING))
            hits += [busy(at) for at in found if at < span]
    assert sum(hits) / len(hits) <= 0.7 * sum(chance) / len(chance)


def test_anticipation_takes_the_coming_chord() -> None:
    """A hit on the last off-beat of a bar plays what the next bar begins with."""
    over = chart("Dm7 | G7 | Cmaj7 | A7", scales=("dorian", "mixolydian", "ionian", "mixolydian"))
    thirds = {1: {11, 5}, 2: {4, 11}, 3: {1, 7}}
    seen = 0
    for seed in range(20):
        for at, chord in struck(comping(over, seed=seed)).items():
            if at % 4 == Fraction(7, 2) and at < 12:
                seen += 1
                assert thirds[int(at // 4) + 1] <= {note.midi % 12 for note in chord}
    assert seen > 5


def test_comes_early_with_a_line_that_does() -> None:
    """The line holds the next chord's third over the bar line: the piano changes with it, or not at all."""
    early = written_phrase(
        "Dm7 | G7 | Cmaj7 | %", "1/8 d5 e f g a g f b4 | + 1/2 1/2 - | 1/1 e5 | 1/1 -", scales=""
    )
    for seed in range(10):
        found = struck(from_bar_one(score(early, Order(rounds=1, count_in=0, seed=seed)), COMPING))
        if Fraction(7, 2) in found:
            assert {11, 5} <= {note.midi % 12 for note in found[Fraction(7, 2)]}
        assert Fraction(4) not in found


@pytest.mark.parametrize("phrase", demo(), ids=lambda phrase: phrase.title)
def test_no_round_is_the_one_before(phrase: Phrase) -> None:
    written = score(phrase, Order(parts="trio", rounds=4, count_in=0))
    span = phrase.full_bars * phrase.metre.bar_quarters * (2 if phrase.full_bars < 4 else 1)
    rounds = [
        tuple(
            (note.start - at * span, note.midi)
            for note in from_bar_one(written, COMPING)
            if at * span <= note.start < (at + 1) * span
        )
        for at in range(3)
    ]
    assert rounds[0] != rounds[1] != rounds[2]


@pytest.mark.parametrize("feel", [feel for feel in FEELS if feel not in ("free", "waltz", "latin")])
@pytest.mark.parametrize("bars", [1, 2])
def test_no_round_is_the_one_before_its_empty_bars(feel: str, bars: int) -> None:
    """Between rounds lie as many empty bars; judged by the rhythm alone, a montuno left out."""
    short = written_phrase(
        " | ".join(["C7", "F7"][:bars]), " | ".join(["1/8 e4 g bb d5 1/2 c5"] * bars), feel=feel
    )
    for seed in range(4):
        written = arrange(short, Order(rounds=5, seed=seed))
        found = [note.start for note in from_bar_one(written, COMPING)]
        starts = [2 * bars * 4 * at for at in range(5)]
        rounds = [{at - start for at in found if start <= at < start + 4 * bars} for start in starts]
        assert all(one != two for one, two in itertools.pairwise(rounds))


def test_seeds() -> None:
    over = chart("Dm7 | G7 | Cmaj7 | A7")
    assert comping(over, seed=4) == comping(over, seed=4)
    assert len({comping(over, seed=seed) for seed in range(8)}) == 8


# The optimiser against brute force.


@pytest.mark.parametrize("symbols", ["Dm7 G7 Cmaj7", "Bm7b5 E7alt Am6", "Fmaj7 F#dim7 Gm7", "C7 F7 C7"])
def test_voice_leading_is_the_smoothest_of_all(symbols: str) -> None:
    dice = seeded(1, symbols)
    rows = [
        tuple(
            (voicing, cost + dice.randint(0, 9))
            for voicing, cost in voicings(usable_notes(parse_chord(text), None))
        )
        for text in symbols.split()
    ]

    def total(ways: tuple[Voicing, ...]) -> int:
        own = sum(dict(row)[voicing] for row, voicing in zip(rows, ways, strict=True))
        return own + sum(step_cost(one, two) for one, two in itertools.pairwise(ways))

    every = itertools.product(*([voicing for voicing, _ in row] for row in rows))
    assert total(smoothest(rows)) == min(total(ways) for ways in every)


def test_steps_are_the_step_costs() -> None:
    one = tuple(voicing for voicing, _ in voicings(usable_notes(parse_chord("G7"), None)))
    two = tuple(voicing for voicing, _ in voicings(usable_notes(parse_chord("Cm6"), None)))
    found = steps(one, two)
    assert all(
        found[a, b] == step_cost(x, y) for (a, x), (b, y) in itertools.product(enumerate(one), enumerate(two))
    )


def test_movement_is_the_least_of_all_ways_to_move() -> None:
    """Equal sizes: against every way of pairing the voices."""
    row = [voicing for voicing, _ in voicings(usable_notes(parse_chord("G7"), None)) if len(voicing) == 4]
    for one, two in itertools.product(row, row):
        ways = (sum(abs(a - b) for a, b in zip(one, way, strict=True)) for way in itertools.permutations(two))
        assert movement(one, two) == min(ways)


def test_a_two_five_one_moves_by_step() -> None:
    """Common practice: sevenths fall to thirds, the rest stays; at most two half steps a voice."""
    rows = [
        voicings(usable_notes(parse_chord(text), parse_scale(scale, root=parse_chord(text).root)))
        for text, scale in (("Dm7", "dorian"), ("G7", "mixolydian"), ("Cmaj7", "ionian"))
    ]
    for one, two in itertools.pairwise(smoothest(rows)):
        assert movement(one, two) <= 2 * max(len(one), len(two))


def test_rests_over_no_chord() -> None:
    found = struck(comping(chart("Cmaj7 | N.C. | Cmaj7", feel="ballad"), seed=0))
    assert all(not 4 <= at < 7 for at in found)
