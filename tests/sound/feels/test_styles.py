"""What a player of each style would object to first. Source of every check: common practice, from memory."""

from __future__ import annotations

import itertools
from collections import Counter
from fractions import Fraction

import pytest

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.players.band_chart import Chart, clave_halves
from shedbook.sound.players.bass import bass
from shedbook.sound.players.comping import comping
from shedbook.sound.players.drums import drums
from shedbook.sound.score.written_score import PartNote
from shedbook.sound.tables.drum_keys import BELL, CLOSED, FLOOR_TOM, FOOT, KICK, OPEN, RIDE, RIM, SHAKER
from sound.demo_scores import chart, phrase, score

LONG = "Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | A7"
CROWDED = "Dm7 G7@2.5 | Em7 A7@4 | Dm7@1 G7@3.5 | Cmaj7 A7@4.5"


@pytest.mark.parametrize("feel", FEELS)
@pytest.mark.parametrize("seed", range(3))
def test_a_new_chord_has_its_bass(feel: str, seed: int) -> None:
    """On its root, struck where it begins or up to a beat ahead and still sounding."""
    over = phrase(CROWDED, "1/1 d5 | e | f | e", feel=feel)
    written = score(over, Order(parts="trio", rounds=4, seed=seed, count_in=0))
    notes = next(one.notes for one in written.parts if one.player == "bass")
    starts = [over.change_start(change) for change in over.changes]
    for number in range(4):
        for start, change in zip(starts, over.changes, strict=True):
            place = start + number * 16
            sounding = [note for note in notes if note.start <= place < note.end and place - note.start <= 1]
            assert change.chord.root is not None
            assert any(note.midi % 12 == change.chord.root.pitch_class for note in sounding)


@pytest.mark.parametrize("feel", ["swing", "straight", "ballad", "shuffle", "bossa", "latin", "funk"])
@pytest.mark.parametrize(
    ("metre", "back"), [("6/8", {Fraction(3, 2)}), ("12/8", {Fraction(3, 2), Fraction(9, 2)})]
)
def test_the_backbeat_of_metres_in_eighths(feel: str, metre: str, back: set[Fraction]) -> None:
    over = chart(LONG, feel=feel, metre=metre)
    keys = {FOOT} if feel != "funk" else {38}
    heard = {
        note.start % over.metre.bar_quarters
        for note in drums(over, seed=1)
        if note.midi in keys and note.velocity > 40
    }
    assert back <= heard
    assert feel == "funk" or heard == back


def at_bars(notes: tuple[PartNote, ...], keys: set[int] | None = None) -> list[set[Fraction]]:
    """Return the places struck in each bar of 4/4."""
    found: list[set[Fraction]] = [set() for _ in range(8)]
    for note in notes:
        if keys is None or note.midi in keys:
            found[int(note.start // 4)].add(note.start % 4)
    return found


@pytest.mark.parametrize("seed", range(6))
def test_latin_goes_by_one_clave(seed: int) -> None:
    """Clave, bell and montuno are on one side in every bar; the bass plays the "and" of 2 and 4."""
    over: Chart = chart(LONG, feel="latin")
    half = clave_halves(over, seed)[0]
    struck = drums(over, seed=seed)
    clave, bell = at_bars(struck, {RIM}), at_bars(struck, {BELL})
    montuno = at_bars(comping(over, seed=seed))
    low = at_bars(bass(over, seed=seed))
    for bar in range(7):
        three = (half + bar) % 2 == 0
        if bar != 3:  # a fill may stand there
            assert clave[bar] == ({0, Fraction(3, 2), 3} if three else {1, 2})
        assert (Fraction(3, 2) in bell[bar]) == three
        assert (0 in montuno[bar]) != three
        assert {Fraction(3, 2), 3} <= low[bar]
        assert bar == 0 or 0 not in low[bar]


def test_the_bass_of_latin_is_tied_over_the_bar() -> None:
    notes = bass(chart(LONG, feel="latin"), seed=0)
    over = [note for note in notes if note.start % 4 == 3 and note.start < 28]
    assert over
    assert all(note.end > note.start // 4 * 4 + 4 for note in over)


def test_samba_has_a_surdo_and_a_shaker_that_a_hand_can_play() -> None:
    over = chart(LONG, feel="samba")
    struck = drums(over, seed=2)
    assert all(2 in bar for bar in at_bars(struck, {FLOOR_TOM}))
    shaken = sorted(note.start for note in struck if note.midi == SHAKER)
    least = min(after - before for before, after in itertools.pairwise(shaken))
    assert least * 60 / over.tempo_qpm >= Fraction(1, 10)
    assert {1, 3} <= at_bars(struck, {FOOT})[0]


def test_the_bass_of_funk_keeps_its_groove() -> None:
    """Common practice: a figure of two bars that comes again, with a variation now and then."""
    kept = total = 0
    for seed in range(6):
        over = chart(" | ".join(["Dm7"] * 16), feel="funk")
        bars: dict[int, set[Fraction]] = {}
        for note in bass(over, seed=seed):
            bars.setdefault(int(note.start // 4), set()).add(note.start % 4)
        kept += sum(bars[number] == bars[number + 2] for number in range(14))
        total += 14
    assert 0.5 <= kept / total < 0.95


def test_latin_has_congas() -> None:
    """Common practice: the slap on 2, two open strokes on 4."""
    over = chart(LONG, feel="latin")
    strokes = drums(over, seed=0)
    slaps = {note.start % 4 for note in strokes if note.midi == 62 and note.velocity > 50}
    opened = [note.start % 4 for note in strokes if note.midi == 63]
    assert slaps == {1}
    assert opened.count(Fraction(3)) == opened.count(Fraction(7, 2))
    assert opened.count(Fraction(3)) >= 0.8 * over.passages[0].bars


def test_bossa_is_played_on_a_guitar() -> None:
    """Common practice: with nylon strings."""
    assert FEELS["bossa"].comping.instrument == "nylon-string guitar"


def test_funk_is_in_sixteenths_with_an_open_hat_and_an_electric_bass() -> None:
    over = chart(LONG, feel="funk")
    struck = drums(over, seed=2)
    assert any(note.midi == OPEN for note in struck)
    assert {1, 3} <= at_bars(struck, {38})[0]
    low = bass(over, seed=2)
    assert any((note.start * 4) % 2 == 1 for note in low)
    assert FEELS["funk"].bass.instrument == "electric bass"


def test_fast_swing_is_thinner_than_swing() -> None:
    counts: Counter[str] = Counter()
    for feel in ("swing", "fast swing"):
        over = chart(LONG, feel=feel, rounds=4)
        for seed in range(4):
            struck = drums(over, seed=seed)
            counts[f"{feel} ride"] += sum(note.midi == RIDE and note.start % 1 != 0 for note in struck)
            counts[f"{feel} kick"] += sum(note.midi == KICK for note in struck)
            counts[f"{feel} piano"] += len({note.start for note in comping(over, seed=seed)})
    for what in ("ride", "kick", "piano"):
        assert counts[f"fast swing {what}"] < 0.75 * counts[f"swing {what}"]
    fast = bass(chart(LONG, feel="fast swing"), seed=0)
    assert all(note.start % 1 == 0 for note in fast)


def test_closed_hats_leave_room_for_the_hand() -> None:
    """One hand strikes nine times a second at most; sixteenths that would come quicker are left out."""
    for feel in ("funk", "samba", "fast swing"):
        over = chart(LONG, feel=feel)
        for key in (CLOSED, SHAKER):
            places = sorted(note.start for note in drums(over, seed=0) if note.midi == key)
            gaps = [after - before for before, after in itertools.pairwise(places)]
            assert all(gap * 60 / over.tempo_qpm >= Fraction(1, 10) for gap in gaps)
