from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import strategies
from shedbook.editions.compass import compass_of
from shedbook.editions.instruments.edition import (
    Edition,
    edition_for,
    edition_named,
    group_editions,
)
from shedbook.editions.instruments.instrument import instruments
from shedbook.editions.instruments.own_instruments import instruments_from_fields
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_keys, register_interval
from shedbook.editions.registers.octave_choice import (
    Way,
    fits,
    note_costs,
    registers,
    registers_cost,
    ways_to,
    within,
    written_notes,
)
from shedbook.editions.registers.octave_fold import cuts_of
from shedbook.editions.tables.register_costs import FOLD_COSTS, LIES_WELL, NEAR, REGISTER_COSTS
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

Make = Callable[..., Phrase]

EDITIONS = (*group_editions(), *(edition_for(instrument) for instrument in instruments()))
CONCERT = edition_named("concert")
COST = {(row.policy, row.name): row.cost for row in (*REGISTER_COSTS, *FOLD_COSTS)}


def test_every_cost_stands_once_for_each_policy() -> None:
    assert len(COST) == len(REGISTER_COSTS) + len(FOLD_COSTS)
    assert all(row.cost >= 0 and row.per and row.why and row.source for row in (*REGISTER_COSTS, *FOLD_COSTS))
    names = {policy: {row.name for row in REGISTER_COSTS if row.policy == policy} for policy, _ in COST}
    assert names["author"] == names["reader"]


@given(strategies.phrases(most_bars=2), st.sampled_from(("fourths", "chromatic", "minor thirds")))
def test_the_concert_edition_keeps_the_register_of_the_author(phrase: Phrase, order: str) -> None:
    keys = key_cycle(phrase.key, order)
    ways = registers(phrase, keys, CONCERT)
    for key, way in zip(keys, ways, strict=True):
        nearest = ways_to(phrase, compass_of(phrase), key, CONCERT)[0]
        assert abs(way.semitones) <= max(NEAR, abs(nearest))
    assert [way.semitones for way in ways] == [register_interval(phrase, key).semitones for key in keys]
    assert len(in_keys(phrase, keys)) == len(ways)


@given(
    strategies.phrases(most_bars=2),
    st.sampled_from(EDITIONS),
    st.lists(st.sampled_from("C Db D Eb E F Gb G Ab A Bb B".split()), min_size=1, max_size=3),  # noqa: SIM905
    st.booleans(),
)
@settings(max_examples=60)
def test_no_other_choice_costs_less(
    phrase: Phrase, edition: Edition, tonics: list[str], folding: bool
) -> None:
    keys = [Key.parse(tonic) for tonic in tonics]
    cuts = cuts_of(phrase) if folding else ()
    found = registers(phrase, keys, edition, cuts)
    reach = compass_of(phrase)
    ways: list[list[Way]] = []
    for key in keys:
        plain = [Way(move, move) for move in ways_to(phrase, reach, key, edition)]
        serving = [way for way in plain if fits(reach, way, edition)]
        if serving:
            ways.append(serving)
            continue
        turned = [
            Way(way.semitones, way.semitones + turn, cut)
            for way in plain
            for turn in (-12, 12)
            for cut in cuts
        ]
        up = edition.transposition.semitones
        turned = [  # A0 to C8, to the ear and on paper
            way
            for way in turned
            if all(21 <= midi - down <= 108 for down in (0, up) for _, midi in written_notes(reach, way, up))
        ]
        extreme = edition.bands.extreme
        mending = [way for way in turned if fits(reach, way, edition)]
        if not mending and not any(within(extreme, reach, way, edition) for way in plain):
            mending = [way for way in turned if within(extreme, reach, way, edition)]
        ways.append(mending or plain)
    for choice, options in zip(found, ways, strict=True):
        assert choice in options
    # Ways far away cost more by themselves than any jump can save: the cheapest twelve are enough.
    near = [sorted(options, key=lambda way: registers_cost(phrase, [way], edition))[:12] for options in ways]
    least = min(registers_cost(phrase, row, edition) for row in product(*near))
    assert registers_cost(phrase, found, edition) <= least
    if all(len(options) <= 12 for options in ways):
        assert registers_cost(phrase, found, edition) == least


@given(strategies.phrases(most_bars=2), st.sampled_from(EDITIONS))
def test_a_key_in_which_an_octave_serves_leaves_no_note_out(phrase: Phrase, edition: Edition) -> None:
    keys = key_cycle(phrase.key)
    reach = compass_of(phrase)
    for key, way in zip(keys, registers(phrase, keys, edition), strict=True):
        moves = ways_to(phrase, reach, key, edition)
        assert way.semitones in moves
        assert (way.semitones - phrase.key.tonic.interval_to(key.tonic).semitones) % 12 == 0
        if any(fits(reach, Way(move, move), edition) for move in moves):
            assert fits(reach, way, edition)


def test_a_fifth_down_rather_than_a_forest_of_ledger_lines(make: Make) -> None:
    # Common practice: three ledger lines are read at sight, a row of notes on five is not.
    high = make("Bb", "Bbmaj7", "1/8 bb5 d6 f d f d c bb5")
    low = make("C", "Cmaj7", "1/8 g3 a b c4 e c b3 g")
    eb, g = Key.parse("Eb"), Key.parse("G")
    assert [way.semitones for way in registers(high, [eb], CONCERT)] == [-7]
    assert [way.semitones for way in registers(low, [g], CONCERT)] == [7]
    assert [way.semitones for way in registers(high, [Key.parse("Bb")], CONCERT)] == [0]
    bands = CONCERT.bands.comfortable
    assert (bands.low.midi, bands.high.midi) == LIES_WELL


def test_what_a_note_costs_by_hand() -> None:
    # Alto saxophone: comfortable D4 to C6, full B flat 3 to F6, extreme to C7.
    table = note_costs(edition_named("alto sax").bands, "reader")
    assert (table[62], table[84]) == (0, 0)
    assert (table[61], table[86]) == (4, 8)
    assert table[90] == 4 * 6 + 100
    assert table[57] == 4 * 5 + 100 + 1000


def test_a_row_of_ways_by_hand(make: Make) -> None:
    # Alto saxophone, C5 and E5 written A5 and C#6 (85: a half step over the comfortable band), and an
    # octave lower A4 and C#5; then F: D6 and F#6, or D5 and F#5.
    phrase = make("C", "C", "1/2 c5 e5")
    edition = edition_named("alto sax")
    high, low = Way(0, 0), Way(-12, -12)
    assert registers_cost(phrase, [high], edition) == 4
    assert registers_cost(phrase, [low], edition) == 12
    assert registers_cost(phrase, [low, Way(-7, -7)], edition) == 12 + 7 + 2 * 5
    keys = [Key.parse("C"), Key.parse("F")]
    assert registers(phrase, keys, edition) == (high, Way(-7, -7))  # 4 + 7 + 14 < 12 + 7 + 10


def test_the_author_prefers_little_moves_then_the_middle_of_the_staff_then_the_lower(make: Make) -> None:
    # C5 and E5 lie 1 and 5 half steps over B4, the middle: 6 together, at 2 each; a way up is 1 more.
    phrase = make("C", "C", "1/2 c5 e5")
    assert registers_cost(phrase, [Way(0, 0)], CONCERT) == 2 * 6
    assert registers_cost(phrase, [Way(-5, -5)], CONCERT) == 2000 * 5 + 2 * 4
    assert registers_cost(phrase, [Way(7, 7)], CONCERT) == 2000 * 7 + 2 * 20 + 1


def test_a_folded_way_by_hand(make: Make) -> None:
    """What lies farther from the author's register counts, before or after the fold; then the fold."""
    phrase = make("C", "C", "1/4 c5 - c5 -")
    (cut,) = cuts_of(phrase)
    edition = edition_named("flute")
    notes = note_costs(edition.bands, edition.policy)
    fold = COST[edition.policy, "distance"] * 12
    before = registers_cost(phrase, [Way(-12, 0, cut)], edition)
    after = registers_cost(phrase, [Way(0, -12, cut)], edition)
    assert before == fold + notes[60] + notes[72] + cut.cost(12)
    assert after == fold + notes[72] + notes[60] + cut.cost(-12)


@pytest.mark.parametrize(
    ("edition", "lowest", "highest"),
    [
        # The line lies between C5 and C6; written notes of the home key, common practice.
        ("flute", "C5", "C6"),
        ("alto sax", "A4", "A5"),
        ("tenor sax", "D5", "D6"),
        ("baritone sax", "A4", "A5"),
        ("trumpet", "D4", "D5"),
        ("horn", "G4", "G5"),
        ("trombone", "C3", "C4"),
        ("guitar", "C5", "C6"),
        ("double bass", "C3", "C4"),
        ("baritone voice", "C3", "C4"),
        ("bass", "C3", "C4"),
    ],
)
def test_where_one_octave_lies(make: Make, edition: str, lowest: str, highest: str) -> None:
    from shedbook.theory.pitch import Pitch  # noqa: PLC0415

    phrase = make("C", "C", "1/4 c5 e5 g5 c6")
    reader = edition_named(edition)
    (way,) = registers(phrase, [Key.parse("C")], reader)
    written = way.semitones + reader.transposition.semitones
    assert (72 + written, 84 + written) == (Pitch.parse(lowest).midi, Pitch.parse(highest).midi)


def test_neighbouring_keys_do_not_jump_for_a_trifle(make: Make) -> None:
    phrase = make("C", "C", "1/8 e4 g c5 e g e c g4 | g a b c5 d e f g")
    chromatic = key_cycle(phrase.key, "chromatic")
    for name in ("tenor sax", "trumpet", "trombone", "cello"):
        ways = registers(phrase, chromatic, edition_named(name))
        jumps = [after.semitones - before.semitones for before, after in pairwise(ways)]
        assert sum(abs(jump) > 1 for jump in jumps) <= 2, name


def test_a_range_that_fits_nowhere_is_an_error(make: Make) -> None:
    phrase = make("C", "C", "1/2 a0 c8")
    with pytest.raises(ShedbookError, match="does not fit between A0 and C8 in D major for the alto"):
        registers(phrase, [Key.parse("D")], edition_named("alto sax"))
    with pytest.raises(ShedbookError, match=r"in D major\."):
        registers(phrase, [Key.parse("D")], CONCERT)


@pytest.mark.parametrize(
    ("line", "key", "edition", "ways"),
    [
        ("1/1 c8", "C", "concert", (0,)), ("1/1 b7", "Db", "concert", (1,)),
        ("1/1 a0", "C", "concert", (0,)), ("1/1 bb0", "B", "concert", (-1,)),
        ("1/1 c8", "Db", "concert", (-11, -23, -35, -47, -59, -71, -83)),
        ("1/1 a0", "B", "concert", (11, 23, 35, 47, 59, 71, 83)),
        # Written a sixth and a ninth higher: C8 is the highest note on paper too, A0 the lowest that sounds.
        ("1/1 eb7", "C", "alto sax", (0, -12, -24, -36, -48, -60, -72)),
        ("1/1 e7", "C", "alto sax", (-12, -24, -36, -48, -60, -72)),
        ("1/1 a0", "C", "tenor sax", (0, 12, 24, 36, 48, 60, 72)),
    ],
)  # fmt: skip
def test_no_note_leaves_the_keyboard_on_paper_or_to_the_ear(
    make: Make, line: str, key: str, edition: str, ways: tuple[int, ...]
) -> None:
    """Common practice: the compass of the piano, C8 and A0 included; the shortest way first."""
    phrase = make("C", "C", line)
    found = ways_to(phrase, compass_of(phrase), Key.parse(key), edition_named(edition))
    assert found == ways


def test_an_instrument_that_is_written_below_its_sound(make: Make) -> None:
    """Common practice: a piccolo sounds an octave above what it reads; A0 is the lowest note on paper."""
    (piccolo,) = instruments_from_fields(
        [{"name": "piccolo", "transposition": "down an octave", "range": "D4 C7"}]
    )
    low, high = make("C", "C", "1/1 a0"), make("C", "C", "1/1 c8")
    edition = edition_for(piccolo)
    c = Key.parse("C")
    assert ways_to(low, compass_of(low), c, edition) == (12, 24, 36, 48, 60, 72, 84)
    assert ways_to(high, compass_of(high), c, edition) == (0, -12, -24, -36, -48, -60, -72)


def test_rests_only_and_no_keys(make: Make) -> None:
    phrase = make("C", "C", "1/1 -")
    assert registers(phrase, [Key.parse("C")], CONCERT) == (Way(0, 0),)
    assert registers(phrase, [], CONCERT) == ()


def test_grace_notes_count_and_tied_notes_count_once(make: Make) -> None:
    reach = compass_of(make("C", "C | C", "1/2 grace:b5 c5 d5 | + 1/2 -"))
    assert reach.notes == ((83, 72), (74,))
    assert (reach.lowest, reach.highest) == (72, 83)
