"""A phrase as the reader of an edition sees it on the page."""

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from practice_opened import manuscript
from read_back.printed import Printed
from shedbook.analysis.telling import explain, notes_of_sentences
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.practice.part import _names, read_part
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import keys_of, placed_in
from shedbook.book.scores.study import study
from shedbook.phrase.fields import phrase_from_fields

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Manuscript:
    return open_manuscript(manuscript(tmp_path_factory.mktemp("part") / "book"))


def part(book: Manuscript, place: int, edition: str) -> Any:
    (chosen,) = chosen_editions((edition,), book.settings, ())
    order = PracticeOrder("", book.phrases[place], book.settings, (), (chosen,), ("", "", ""))
    return read_part(order.part(chosen))


def test_an_alto_reads_a_sixth_higher_and_sounds_the_same(book: Manuscript) -> None:
    """An E flat part is written a major sixth above what sounds (common practice)."""
    alto = part(book, 0, "eflat")
    assert [key["name"] for key in alto["keys"]] == ["A minor", "D minor", "G minor"]
    assert [key["key"] for key in alto["keys"]] == ["C minor", "F minor", "Bb minor"]
    concert = part(book, 0, "concert")
    for one, other in zip(alto["keys"], concert["keys"], strict=True):
        assert {(a - b) % 12 for a, b in zip(one["midi"], other["midi"], strict=True)} == {0}


def test_every_layout_holds_every_note_once_in_its_bars(book: Manuscript) -> None:
    for place, notes in ((0, 16), (1, 18)):
        found = part(book, place, "concert")
        layouts = found["keys"][0]["layouts"]
        assert [layout["bars"] for layout in layouts] == sorted({layout["bars"] for layout in layouts})
        for layout in layouts:
            shown = [note for line in layout["lines"] for note, _ in line[3]]
            assert shown == list(range(notes))
            for _, _, edges, there in layout["lines"]:
                assert all(edges[0] < x < edges[-1] for _, x in there)
            drawn = set(re.findall(r'href="#([^"]+)"', layout["svg"]))
            assert drawn <= found["glyphs"].keys()


def test_a_bar_a_line_is_no_closer_than_a_page(book: Manuscript) -> None:
    """On the phone a bar of eighths has more white between its heads than a head is wide [measured]."""
    layout = part(book, 0, "concert")["keys"][0]["layouts"][0]
    assert layout["bars"] == 1
    for _, _, _, notes in layout["lines"]:
        apart = [after - before for (_, before), (_, after) in pairwise(notes)]
        assert min(apart) >= 380  # drawing units; a head is 212 wide


@pytest.mark.parametrize("place", range(0, 84, 9))
def test_a_sentence_shows_the_notes_that_it_names(place: int) -> None:
    """Each note's name that stands in a sentence belongs to one of its notes or chords."""
    demo = open_manuscript(ROOT / "examples/tidewater")
    account = study(demo.phrases[place].text.phrase()).account
    told, about = explain(account, with_commentary=False), notes_of_sentences(account)
    assert len(told) == len(about)
    for notes in about:
        assert list(notes) == sorted(set(notes))
        assert all(0 <= note < len(account.notes) for note in notes)
    first = re.match(r"(?:Start on|Lean on|From) ([A-G][♭♯]?)", told[0])
    if first is not None:
        names = {
            str(account.notes[note].written.name).replace("b", "♭").replace("#", "♯") for note in about[0]
        }
        assert first[1] in names


def test_what_stands_over_a_chord_is_the_scales(book: Manuscript) -> None:
    """G7 with b9: F is its seventh and a chord tone, A flat its flat nine (common practice)."""
    over = part(book, 0, "concert")["over"]
    span = over["spans"][1]
    assert span["chord"] == "G7b9"
    assert (span["degrees"][5], span["tones"][5], span["names"][5]) == ("b7", "chord", "F")
    assert (span["degrees"][8], span["names"][8]) == ("b9", "Ab")
    assert over["strong"] == [0.0, 2.0]


@pytest.mark.parametrize(
    ("changes", "key", "flat", "names"),
    [
        # By chord and scale, else plainly by the key; no note is called by two signs.
        ("Dm7", "C", True, "C Db D Eb E F Gb G Ab A Bb B"),
        ("G7alt", "C", True, "C C# D Eb E F Gb G Ab A Bb B"),
        ("A7", "D", False, "C C# D D# E F F# G G# A A# B"),
        ("Ebdim7", "Eb", True, "C Db D Eb E F Gb G Ab A Bb B"),
        ("Fm7b5", "Gb", True, "C Db D Eb E F Gb G Ab A Bb Cb"),
    ],
)
def test_every_key_of_a_keyboard_has_a_name_over_a_chord(
    changes: str, key: str, flat: bool, names: str
) -> None:
    account = study(phrase_from_fields({"changes": changes, "key": key, "line": "1/1 -"})).account
    assert " ".join(_names(account, 0, flat=flat)) == names


def test_the_scores_of_the_page_read_back_as_the_phrase(book: Manuscript) -> None:
    """Every key and width of two editions, read from the drawing alone, by code that shares none with it."""
    read = 0
    for place, name in ((0, "concert"), (2, "eflat")):
        (edition,) = chosen_editions((name,), book.settings, ())
        found = part(book, place, name)
        studied = study(book.phrases[place].text.phrase())
        keys = keys_of(studied.phrase, key_order(book.settings), edition)
        for key, placed in zip(
            found["keys"], placed_in(studied, keys.cycle, keys.wanted, edition), strict=True
        ):
            for layout in key["layouts"]:
                box = " ".join(map(str, layout["box"]))
                glyphs = "".join(found["glyphs"].values())
                svg = (
                    f'<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="{box}" '
                    f'fill="currentColor"><defs>{glyphs}</defs>{layout["svg"]}</svg>'
                )
                assert Printed(svg, placed.phrase, feel="").wrong() == []
                read += 1
    assert read == 12
