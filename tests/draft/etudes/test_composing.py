"""Études and fits: excerpts stand where they say, bars are whole; the least by brute force.

Source of the expectations: the design of the étude, and plain search in small cases.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.analysis.account import account
from shedbook.book.verbs.proposals import phrases_in
from shedbook.draft.etudes.composing import (
    _DRAFTED_BAR,
    EtudeWishes,
    _Beginning,
    _chosen,
    _cost,
    _octaves,
    compose,
)
from shedbook.draft.etudes.fitting import Fit, fits, sources_of
from shedbook.draft.ground import Ground, ground_of
from shedbook.draft.stock import changes_meant, stock_names
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.errors import NotationError
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"
FORMS = ("blues in F", "minor blues", "sixteen bars in Eb", "I-VI-ii-V with bridge in Bb")


@pytest.fixture(scope="module")
def demo() -> tuple[Phrase, ...]:
    return phrases_in(DEMO)


def two_five_one(key: str = "C") -> Phrase:
    return phrase_from_fields(
        {"title": key, "changes": "Dm7 | G7 | Cmaj7 | %",
         "line": "1/8 d5 f a c6 b5 a g f | e d c b4 d5 f e d | 1/4 c5 e g e | 1/2 c5 -"}
    )  # fmt: skip


def test_a_phrase_fits_its_own_changes_in_every_key() -> None:
    phrase = two_five_one()
    for key, up in (("C", 0), ("Eb", 3), ("F#", 6), ("A", -3)):
        ground = ground_of(changes_meant(f"ii-V-I in {key}"))
        found = fits(sources_of([phrase], ground), ground)
        whole = [one for one in found if one.bars == 4]
        assert [(one.at, one.first_bar, one.up, one.cost) for one in whole] == [(1, 1, up, 0.0)]
        assert [note - up for note in whole[0].midi] == list(midi_of(phrase))


def test_a_chord_on_another_root_or_of_another_family_is_no_place() -> None:
    phrase = two_five_one()
    for changes in ("Dm7 | Ab7 | Cmaj7 | %", "Dm7 | Gm7 | Cmaj7 | %", "D7 | G7 | Cm7 | %"):
        ground = ground_of(changes)
        assert not [one for one in fits(sources_of([phrase], ground), ground) if one.bars == 4]


def test_excerpts_of_two_bars_and_more(demo: tuple[Phrase, ...]) -> None:
    ground = ground_of(changes_meant("blues in F"))
    sources = sources_of(demo, ground)
    for one in fits(sources, ground):
        assert one.bars >= min(2, demo[one.source].full_bars)
        assert all(one.at <= 1 + onset // 48 < one.last or onset < (one.at - 1) * 48 for onset in one.onsets)


def small() -> tuple[Ground, list[Fit], EtudeWishes]:
    ground = ground_of("Dm7 | G7 | Cmaj7 | % | Dm7 | G7 | Cmaj7 | %")
    other = phrase_from_fields(
        {"title": "other", "changes": "G7 | Cmaj7", "line": "1/4 b4 d5 f d | 1/2 e5 -"}
    )
    third = phrase_from_fields({"title": "third", "changes": "Cmaj7 | %", "line": "1/4 g4 b c5 e | 1/2 d5 -"})
    sources = sources_of([two_five_one(), other, third], ground)
    return ground, list(fits(sources, ground)), EtudeWishes()


def test_the_search_finds_the_least_of_all_rows_of_excerpts() -> None:
    ground, found, wishes = small()

    def on(bar: int, one: _Beginning) -> float:
        if bar == ground.bars + 1:
            return one.cost
        best = on(bar + 1, one._replace(cost=one.cost + _DRAFTED_BAR))
        for fit in found:
            for moved in _octaves(fit, wishes) if fit.at == bar else ():
                cost = _cost(one, moved, ground, wishes)
                if cost is not None:
                    grown = _Beginning(cost, (*one.pieces, moved), moved.midi[-1], moved.ends[-1])
                    best = min(best, on(moved.last, grown))
        return best

    least = on(1, _Beginning(0.0, (), None, 0))
    chosen = _chosen(ground, found, wishes)
    cost, at, so_far = 0.0, 1, _Beginning(0.0, (), None, 0)
    for fit in chosen:
        so_far = so_far._replace(cost=so_far.cost + _DRAFTED_BAR * (fit.at - at))
        grown = _cost(so_far, fit, ground, wishes)
        assert grown is not None
        so_far = _Beginning(grown, (*so_far.pieces, fit), fit.midi[-1], fit.ends[-1])
        at = fit.last
    cost = so_far.cost + _DRAFTED_BAR * (ground.bars + 1 - at)
    assert cost == pytest.approx(least)


@pytest.mark.parametrize("name", FORMS)
def test_a_study_over_a_form(demo: tuple[Phrase, ...], name: str) -> None:
    ground = ground_of(changes_meant(name))
    made = compose(ground, demo, EtudeWishes())
    assert made.phrase.full_bars == ground.bars
    assert sum(piece.bars for piece in made.pieces) == ground.bars
    assert [piece.first_bar for piece in made.pieces[1:]] == [
        one.first_bar + one.bars for one in made.pieces[:-1]
    ]
    assert made.taken_bars >= 4
    seen = account(made.phrase)
    assert seen.accounted >= len(seen.notes) - 1
    rests = rhythm_of(made.phrase).rests
    assert sum(rest >= 6 for rest in rests) >= ground.bars // 5
    for piece in made.pieces:
        if piece.phrase is not None:
            assert piece.phrase.title in made.phrase.commentary


def test_a_phrase_stands_as_it_is_said(demo: tuple[Phrase, ...]) -> None:
    """Each excerpt is found again, note for note, in its phrase, moved as the étude says."""
    ground = ground_of(changes_meant("minor blues"))
    made = compose(ground, demo, EtudeWishes())
    line = dict(zip(rhythm_of(made.phrase).onsets, midi_of(made.phrase), strict=True))
    for piece in made.pieces:
        if piece.phrase is None:
            continue
        shift = (piece.first_bar - piece.from_bar) * 48
        own = dict(zip(rhythm_of(piece.phrase).onsets, midi_of(piece.phrase), strict=True))
        last = (piece.from_bar - 1 + piece.bars) * 48
        inside = {tick: note for tick, note in own.items() if (piece.from_bar - 1) * 48 <= tick < last - 3}
        assert {tick + shift: note + piece.up for tick, note in inside.items()}.items() <= line.items()


def test_without_phrases_every_bar_is_drafted() -> None:
    made = compose(ground_of("Dm7 | G7 | Cmaj7 | %"), (), EtudeWishes())
    assert made.taken_bars == 0
    assert len(midi_of(made.phrase)) > 6


def test_stock_changes_can_be_read_and_moved() -> None:
    for name in stock_names():
        for key in ("C", "F#", "Bb"):
            assert ground_of(changes_meant(f"{name} in {key}")).bars >= 2
    with pytest.raises(NotationError, match="no key"):
        changes_meant("blues in H")
    with pytest.raises(NotationError, match="more than 64 bars"):
        ground_of(" | ".join(["C7"] * 65))


@pytest.mark.parametrize("name", ["sixteen bars", "blues in F"])
def test_a_study_ends_at_home_before_the_last_beat(demo: tuple[Phrase, ...], name: str) -> None:
    """Common practice: the last note is the root, third or fifth of the last chord, and is held."""
    made = compose(ground_of(changes_meant(name)), demo, EtudeWishes(seed=4)).phrase
    last = sounding_notes(made)[-1]
    chord = account(made).notes[-1]
    assert chord.degree in {"1", "3", "b3", "5", "b5"}
    assert last.quarters >= 1
    assert last.start < 4 * made.full_bars - 1
