"""Long lines cut at their progressions and rests, and ranked by what the analysis says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from exchange.playing import phrase_file
from shedbook.book.verbs.bring_in import BringInOrder, bring_in
from shedbook.errors import UnknownNameError
from shedbook.exchange.ground.report import Imported, Piece, Report
from shedbook.exchange.phrases.cutting import CutPassage, cut_at_progressions, cut_at_rests, cut_pieces
from shedbook.exchange.phrases.progression_names import ALL
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase, sounding_notes

# Invented: a minor ii–V–i in C, three bars of C minor, and a major ii–V–I in B flat.
SOLO = phrase_from_fields(
    {
        "title": "Long solo",
        "id": "long",
        "key": "C minor",
        "changes": "Dm7b5 | G7b9 | Cm6 | % | % | Ebmaj7 | Cm7 | F7 | Bbmaj7 | %",
        "line": """
            1/8 f4 ab c5 eb d c b4 ab | g b d5 f eb d c b4 | (1/4 c5 1/8 eb g) 1/2 f |
            1/1 - | 1/1 - | 1/4 - - 1/8 - g4 bb d5 |
            1/8 eb5 d c bb4 a g f eb | d eb f# g a c5 eb 1/8 d | + 1/4 1/8 d f 1/2 a | 1/1 -
        """,
    }
)


def heard(phrase: Phrase) -> list[tuple[Fraction, int]]:
    return [(note.start, note.pitch.midi) for note in sounding_notes(phrase)]


def test_every_progression_is_cut_out() -> None:
    cuts = cut_at_progressions(SOLO)
    assert {(cut.progression.name, cut.first_bar, cut.last_bar) for cut in cuts if cut.progression} == {
        ("minor ii–V–i", 1, 4),  # the tonic lasts three bars, of which two belong to it
        ("ii–V–I", 7, 10),
    }
    assert [cut.rank for cut in cuts] == sorted((cut.rank for cut in cuts), reverse=True)
    for cut in cuts:
        assert 0 <= cut.rank <= 100
        assert any("accounted for" in reason for reason in cut.reasons)
        assert phrase_from_fields(fields_from_phrase(cut.phrase)) is not None


@pytest.mark.parametrize(
    "name", ["minor ii–V–i", "minor ii-V-i", "Minor ii V i", "MINOR II-V-I", "ii-V-i", "minor 251"]
)
def test_one_kind_of_progression(name: str) -> None:
    (only,) = cut_at_progressions(SOLO, name)
    assert (only.first_bar, only.last_bar) == (1, 4)
    assert str(only.phrase.key) == "C minor"
    assert only.phrase.id == ""
    assert heard(only.phrase) == heard(SOLO)[: len(heard(only.phrase))]


def test_notes_that_lead_in_come_along_as_a_pickup() -> None:
    (only,) = cut_at_progressions(SOLO, "ii–V–I")
    assert print_line(only.phrase.bars).startswith("1/8 g4 bb d5 | eb5 d")
    assert only.phrase.bars[0].number == 0
    shift = 6 * 4
    assert heard(only.phrase) == [(at - shift, midi) for at, midi in heard(SOLO) if at >= shift - 2]


def test_a_phrase_leads_into_its_progression_from_where_it_begins() -> None:
    joined = phrase_from_fields(
        {
            "title": "Joined",
            "changes": "Cmaj7 | Dm7 | G7 | Cmaj7",
            "line": "1/8 c4 d e f g a b a5 | + 1/4 1/4 f4 d c | b3 d4 f g | 1/1 e4",
        }
    )
    (only,) = cut_at_progressions(joined, "ii–V–I")
    assert heard(only.phrase) == heard(joined)  # nowhere does the line breathe


def test_notes_of_other_phrases_in_the_bars_of_a_passage_are_silent() -> None:
    two = phrase_from_fields(
        {
            "title": "Two",
            "changes": "Am7 | Dm7 | G7 | Cmaj7",
            "line": "1/8 c5 1/8 d 1/2 - 1/8 d4 e | f a c5 b4 a g f e | d b3 d4 f a g f d | 1/4 e - - -",
        }
    )
    (only,) = cut_at_progressions(two, "ii–V–I")
    assert [midi for _, midi in heard(only.phrase)] == [midi for _, midi in heard(two)[2:]]
    assert print_line(only.phrase.bars).startswith("1/8 d4 e | f4 a")


def test_a_run_over_two_progressions_is_one_passage() -> None:
    chain = phrase_from_fields(
        {
            "title": "Chain",
            "changes": "Dm7 G7 | Cmaj7 | Cm7 F7 | Bbmaj7",
            "line": "1/8 d4 f a c5 b4 a g f | e g b d5 c b4 a g | eb g bb d5 c a4 f eb | 1/1 d4",
        }
    )
    assert [(cut.first_bar, cut.last_bar) for cut in cut_at_progressions(chain, "ii–V–I")] == [(1, 4)]


def test_silence_is_written_in_few_rests_and_ranks_lower() -> None:
    def cut(second: str) -> CutPassage:
        fields = {
            "title": "Rests",
            "changes": "Dm7 | G7 | Cmaj7 | %",
            "line": f"1/8 d4 f a c5 b4 a g f | {second} | 1/8 e - g - 1/2 c5 | "
            "1/8 - - 1/4 - 1/8t - - - 1/4 -",
        }
        return cut_at_progressions(phrase_from_fields(fields), "ii–V–I")[0]

    full, silent = cut("e d b3 d4 f b a f"), cut("1/4 - - 1/8 - - 1/4 -")
    assert print_line(full.phrase.bars).endswith("| 1/1 -")
    assert "| 1/1 - |" in print_line(silent.phrase.bars)
    assert "played over 2 of 3 chords" in silent.reasons
    assert silent.rank < full.rank


def test_a_passage_that_may_begin_inside_a_phrase_says_so_and_ranks_lower() -> None:
    assert not any("inside a phrase" in reason for cut in cut_at_progressions(SOLO) for reason in cut.reasons)


def test_unknown_names_are_refused() -> None:
    with pytest.raises(UnknownNameError, match="ii–V–X"):
        cut_at_progressions(SOLO, "ii–V–X")


def test_rests_divide() -> None:
    cuts = sorted(cut_at_rests(SOLO), key=lambda cut: cut.first_bar)
    assert [(cut.first_bar, cut.last_bar) for cut in cuts] == [(1, 3), (6, 9)]
    assert sum(len(heard(cut.phrase)) for cut in cuts) == len(heard(SOLO))
    assert cut_at_rests(SOLO, Fraction(100))[0].last_bar == 9


def test_a_better_passage_ranks_higher() -> None:
    # The same changes, once with a line that lands on chord tones, once with notes from anywhere.
    good = SOLO
    strange = phrase_from_fields(
        {
            **fields_from_phrase(SOLO),
            "line": print_line(SOLO.bars).replace("f4 ab c5 eb d c b4 ab", "e4 a c#5 e d# c# b4 a#"),
        }
    )

    def first(phrase: Phrase) -> CutPassage:
        return cut_at_progressions(phrase, "minor ii–V–i")[0]

    assert first(good).rank > first(strange).rank


def test_pieces_are_cut_with_the_bars_of_their_file() -> None:
    imported = Imported((Piece(SOLO, "33", "42"),), Report("solo.mid"))
    cut = cut_pieces(imported, "ii-V-I, minor ii-V-i")
    assert {(piece.first_bar, piece.last_bar) for piece in cut.pieces} == {("33", "36"), ("39", "42")}
    assert len(cut.report.remarks) == 2
    nothing = cut_pieces(imported, "backdoor ii–V")
    assert nothing.pieces == ()
    assert "no passage" in str(nothing.report.remarks[0])


def test_a_line_without_progressions_gives_nothing() -> None:
    changes = tuple(replace(change, chord=SOLO.changes[0].chord) for change in SOLO.changes)
    assert cut_at_progressions(replace(SOLO, changes=changes), ALL) == ()


def test_import_cuts(tmp_path: Path) -> None:
    file = tmp_path / "solo.mid"
    file.write_bytes(phrase_file(SOLO))
    brought = bring_in(BringInOrder((file,), tmp_path / "book", cut="minor ii-V-i"))
    (only,) = brought.phrases
    assert (only.first_bar, only.last_bar) == ("1", "4")
    assert only.path.name == "01-long-solo-bars-1-to-4.toml"
    assert any("of 100" in str(remark) for report in brought.reports for remark in report.remarks)


@pytest.mark.parametrize("name", ["ii-V-I", "major ii V I", "2-5-1", "251", "ii-v-I"])
def test_a_major_progression_however_it_is_typed(name: str) -> None:
    (only,) = cut_at_progressions(SOLO, name)
    assert (only.first_bar, only.last_bar) == (7, 10)


def test_capital_numerals_that_find_nothing_are_read_as_small_ones() -> None:
    cut = cut_pieces(Imported((Piece(SOLO, "1", "10"),), Report("solo")), "II-V-I")
    assert [piece.phrase.title for piece in cut.pieces] == ["Long solo, bars 7 to 10"]
    said = [str(remark) for remark in cut.report.remarks]
    assert said[:2] == [
        "no passage over II-V-I was found.",
        'capital numerals name major and dominant chords: these are the passages over "ii–V–I".',
    ]


def test_capital_numerals_that_stand_for_themselves() -> None:
    wheel = phrase_from_fields(
        {"title": "Wheel", "changes": "D7 | G7 | Cmaj7", "line": "1/4 d4 f# a c | b3 d4 f g | 1/1 e4"}
    )
    (only,) = cut_at_progressions(wheel, "II-V-I")
    assert only.progression is not None
    assert only.progression.name == "secondary dominant II–V–I"


def test_a_passage_in_the_pickup_alone_gets_the_silent_bar_after_it() -> None:
    # Found among lead sheets: the rests that divide a line may stand right after its pick-up.
    line = phrase_from_fields(
        {
            "title": "Early",
            "pickup": "1/2",
            "changes": "Cmaj7 | % | Dm7",
            "line": "1/8 g4 a b c5 | 1/1 - | 1/1 - | 1/4 f4 a c5 e",
        }
    )
    first = min(cut_at_rests(line), key=lambda cut: cut.first_bar)
    assert (first.first_bar, first.last_bar) == (1, 1)
    assert heard(first.phrase) == heard(line)[:4]


def test_the_pickup_of_a_line_comes_along_with_its_first_passage() -> None:
    line = phrase_from_fields(
        {
            "title": "Upbeat",
            "pickup": "3/4",
            "changes": "Dm7 | G7 | Cmaj7",
            "line": "1/8 g4 a b c5 d e | f d c a g4 e f a | b g f d c b3 d4 f | 1/1 e",
        }
    )
    (only,) = cut_at_progressions(line, "ii–V–I")
    assert heard(only.phrase) == heard(line)
    (only,) = cut_at_rests(line)
    assert heard(only.phrase) == heard(line)
