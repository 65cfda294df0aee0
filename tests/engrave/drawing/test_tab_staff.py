"""The tablature under a staff: the figures that the stops say, under their heads, readable on their lines."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from shedbook.editions.fingering.fingerboard import Fingerboard, fingerboards, read_strings
from shedbook.editions.fingering.tab import Stop, Tab, tab_of
from shedbook.engrave.drawing.line_layout import lay_out
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.drawing.tab_staff import LINE_GAP, tab_staff
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.engraver.verovio_svg import DrawnSystem, read_verovio_svg
from shedbook.engrave.notation.mei_score import mei
from shedbook.engrave.notation.score_notes import score_bars
from shedbook.engrave.notation.score_style import SPACE, ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.phrase.model import Phrase, sounding_notes

Make = Callable[..., Phrase]
GUITAR, BASS = fingerboards()["guitar"], fingerboards()["electric bass"]
UKULELE = Fingerboard(read_strings("G4 C4 E4 A4"), 15)
STYLE = ScoreStyle()

PHRASES = [
    pytest.param("1/8 f4 ab c5 eb d f ab g | 1/2 eb5 g4", "Dm7b5 G7 | Cm6", GUITAR, id="eighths"),
    pytest.param(
        "1/4 a4 1/8t g a c5 1/4 d 1/8+1/16 c 1/16 d | + 1/2 1/4. - 1/8 grace:g#4 a | 1/1 b4 | + 1/1",
        "Dm7 | G7 | Cmaj7 | %", GUITAR, id="triplets, ties, a rest, a grace note",
    ),
    pytest.param(
        "1/16 c6 d e f g a b c5 d6 e f g a g f e | 1/8 grace:c6 grace:d5 e5 d6 c6 b5 a g f e",
        "Cmaj7 | Am7", GUITAR, id="sixteenths at frets of two figures",
    ),
    pytest.param(
        "1/16 c#6 grace:g#5 a b grace:b c#6 d e d c# grace:a5 b a b c#6 1/4 grace:g#5 a5", "Amaj7 D7", GUITAR,
        id="crowded grace notes at frets of two figures",
    ),
    pytest.param("1/8 c3 d e f g a b c4 | 1/1 d4", "Cmaj7 | Dm7", BASS, id="four strings"),
    pytest.param("1/4 c5 d e f | g a b c6", "Cmaj7 | %", UKULELE, id="ukulele"),
]  # fmt: skip


def systems_of(phrase: Phrase, marks: StudyMarks = NO_STUDY_MARKS) -> list[DrawnSystem]:
    layout, bars = lay_out(phrase, marks, STYLE), score_bars(phrase)
    picture = verovio_door.svg(
        mei(phrase, marks, systems=layout.systems, room=layout.room, bars=bars), width=layout.width
    )
    heads = {head.id: head for bar in bars for head in bar.notes if head.pitch is not None}
    return read_verovio_svg(picture, [heads], "s").scores[0].systems


def heads(phrase: Phrase) -> dict[str, Any]:
    return {head.id: head for bar in score_bars(phrase) for head in bar.notes if head.pitch is not None}


def figures(word: str) -> str:
    """Return the figures and brackets of a word by the names of their glyphs."""
    return "".join(chr(int(code, 16)) for code in re.findall(r"#\{p\}b([0-9a-f]+)\"", word))


@pytest.mark.parametrize(("line", "changes", "board"), PHRASES)
def test_every_note_has_its_fret_under_its_head(
    make: Make, line: str, changes: str, board: Fingerboard
) -> None:
    phrase = make(line, changes)
    tab = tab_of(phrase, board, 12)
    named = heads(phrase)
    for system in systems_of(phrase):
        staff = tab_staff(tab, system, named, 900)
        top = min(int(y) for y in re.findall(r"M\d+ (\d+)H", staff.parts[0]))
        found = {}
        for one in staff.words[3:]:  # after T, A, B
            string = round((one.y - top) / LINE_GAP) + 1
            found[round(one.x + one.word.width / 2)] = (string, figures(one.word.svg))
        expected = {}
        for name, x in system.named.items():
            own, mark, index = name.partition("g")
            head = named[own]
            stop = tab.graces[head.struck][int(index)] if mark else tab.notes[head.struck]
            if stop is None or (head.part and not head.over_bar):
                continue
            text = f"({stop.fret})" if head.part else str(stop.fret)
            expected[x + (85 if mark else 113)] = (stop.string, text)
        assert sorted(found.values()) == sorted(expected.values())
        for (at, drawn), (near, meant) in zip(sorted(found.items()), sorted(expected.items()), strict=True):
            assert drawn == meant
            assert near - 130 <= at <= near + 1  # under its head; a crowded one gives way to the left


@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize(("line", "changes", "board"), PHRASES)
def test_figures_stand_free(
    make: Make, ink: Any, line: str, changes: str, board: Fingerboard, marked: bool
) -> None:
    phrase = make(line, changes)
    tab = tab_of(phrase, board, 12)
    notes = range(len(sounding_notes(phrase)))
    marks = (
        StudyMarks({note: "b13" for note in notes[::2]}, {0: "dorian"}, frozenset(notes[::3]))
        if marked
        else NO_STUDY_MARKS
    )
    svg = draw(phrase, marks, STYLE, tab).svg
    boxes = ink.boxes(svg)
    _, upper, _, height = map(float, re.search(r'viewBox="([^"]+)"', svg)[1].split())  # type: ignore[index]
    words = [box for box in boxes if box.kind == "word"]
    lines = [box for box in boxes if box.kind == "line" and box.bottom - box.top < 40]
    free = [word for word in words if word.left > 300]  # T, A and B stand on the lines, as a clef does
    assert len(free) >= len(notes) - sum(bar.events[0].tie_in for bar in phrase.bars)
    assert not [(word, line) for word in free for line in lines if word.overlaps(line)]
    for word, other in ((a, b) for i, a in enumerate(words) for b in words[i + 1 :]):
        assert not word.overlaps(other)
    for box in boxes:
        assert upper <= box.top
        assert box.bottom <= upper + height


@pytest.mark.parametrize(("line", "changes", "board"), PHRASES)
def test_the_lines_and_bar_lines_of_the_tablature(
    make: Make, line: str, changes: str, board: Fingerboard
) -> None:
    phrase = make(line, changes)
    tab = tab_of(phrase, board, 12)
    for system in systems_of(phrase):
        staff = tab_staff(tab, system, heads(phrase), 900)
        pieces = [(int(y), int(a), int(b)) for a, y, b in re.findall(r"M(\d+) (\d+)H(\d+)", staff.parts[0])]
        rows = sorted({y for y, _, _ in pieces})
        assert len(rows) == len(board.strings)
        assert {low - high for high, low in pairwise(rows)} == {LINE_GAP}
        assert rows[0] > 900
        places = {x for x, _ in system.bar_lines}
        through = re.findall(r"M(\d+) 720V(\d+)", "".join(staff.parts[1:]))
        assert {int(x) for x, _ in through} == places  # every bar line goes from the staff to the last string
        assert all(int(bottom) >= rows[-1] for _, bottom in through)
        assert min(a for _, a, _ in pieces) == 0
        assert staff.depth + 900 >= rows[-1]


def test_a_score_without_tablature_is_as_it_was_and_one_with_it_higher(make: Make) -> None:
    phrase = make("1/8 f4 ab c5 eb d f ab g | 1/2 eb5 g4", "Dm7b5 G7 | Cm6")
    plain, other = draw(phrase), draw(phrase, tab=None)
    assert plain == other
    tab = tab_of(phrase, GUITAR, 12)
    higher = draw(phrase, tab=tab)
    assert higher.width_mm == plain.width_mm
    assert higher.staff_top_mm == plain.staff_top_mm
    assert higher.height_mm > plain.height_mm + 5 * LINE_GAP * STYLE.mm - 2 * SPACE * STYLE.mm
    assert draw_all([phrase, phrase], tabs=[None, tab]) == (plain, higher)


def test_a_note_that_is_nowhere_has_no_figure(make: Make) -> None:
    phrase = make("1/4 c4 d e f", "Cmaj7")
    board = Fingerboard(read_strings("E4 G4 B4"), 12)
    tab = tab_of(phrase, board, 0)
    assert tab.missing == (0, 1)
    (system,) = systems_of(phrase)
    staff = tab_staff(tab, system, heads(phrase), 900)
    assert [figures(one.word.svg) for one in staff.words[3:]] == ["0", "1"]
    empty = Tab(3, (None,) * 4, ((),) * 4)
    assert len(tab_staff(empty, system, heads(phrase), 900).words) == 3


def test_a_figure_gives_way_to_the_next_one(make: Make) -> None:
    phrase = make("1/4 e5 e e e", "Cmaj7")
    tab = Tab(6, (Stop(2, 17, 15), Stop(1, 12, 12), Stop(3, 21, 20), Stop(1, 12, 12)), ((),) * 4)
    system = DrawnSystem(named={"n0": 1000, "n1": 1180, "n2": 1360, "n3": 3000}, bar_lines=[(4000, "45")])
    figures_drawn = tab_staff(tab, system, heads(phrase), 900).words[3:]
    middles = [one.x + one.word.width / 2 for one in figures_drawn]
    assert [round(one) for one in middles[2:]] == [1360 + 113, 3000 + 113]  # nothing is in their way
    for one, other in pairwise(figures_drawn):
        assert one.x + one.word.width < other.x
