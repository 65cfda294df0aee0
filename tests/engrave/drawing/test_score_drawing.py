"""The picture of a score: clean, the same again, complete, and nothing on top of anything."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
import verovio
from hypothesis import HealthCheck, given, settings

import strategies
from engrave.drawing.dense_scores import DENSE, EIGHTHS, degrees
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.engrave.drawing.line_layout import lay_out
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.notation.mei_score import mei
from shedbook.engrave.notation.score_notes import score_bars
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.errors import RenderError, ShedbookError
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

Make = Callable[..., Phrase]
TWELVE = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"]


def test_the_same_phrase_gives_the_same_bytes_whatever_was_drawn_before(make: Make) -> None:
    phrase, other = make(*EIGHTHS), make("1/1 c4", "C")
    first = draw(phrase, degrees(phrase)).svg
    draw(other)
    assert draw(phrase, degrees(phrase)).svg == first


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(strategies.phrases())
def test_every_written_note_is_drawn_and_named(phrase: Phrase) -> None:
    made = draw(phrase, degrees(phrase))
    heads = [head for bar in score_bars(phrase) for head in bar.notes if head.pitch is not None]
    wanted = {head.id for head in heads} | {f"{h.id}g{i}" for h in heads for i in range(len(h.grace))}
    assert set(re.findall(r'<g id="s(n[^"]*)"', made.svg)) == wanted
    assert made.width_mm <= 171


@pytest.mark.parametrize(("line", "changes"), DENSE)
def test_verovio_has_nothing_to_complain_of(
    make: Make, capfd: pytest.CaptureFixture[str], line: str, changes: str
) -> None:
    """Source: Verovio's own log, which it writes to standard error."""
    phrase = make(line, changes)
    toolkit = verovio.toolkit()
    verovio.enableLog(verovio.LOG_WARNING)
    try:
        toolkit.setOptions({"breaks": "encoded", "pageHeight": 60000, "noJustification": True})
        assert toolkit.loadData(mei(phrase, degrees(phrase), room={0: "iii"}))
        toolkit.renderToSVG(1)
    finally:
        verovio.enableLog(verovio.LOG_OFF)
    assert capfd.readouterr().err == ""


TWO_SYSTEMS = (
    "1/4 g4 | 1/16 c4 d e f g a b c5 d e f (g a b c6) b | "
    "1/8t c5 e g 1/4t e c6 b3 1/8+1/8 grace:a grace:g f | "
    "1/16 c6 d.accent e f.ghost g a b c5.fall d.scoop e f g a b c6 b | + 1/4 1/8 - c4 1/4 (d e5)",
    "C7b9 Am7 | F7#11 | Bm7b5 E7b9 | Am6",
)  # fmt: skip


def drawn_together(phrase: Phrase, keys: list[str]) -> None:
    """Draw a phrase in keys together and alone, with and without marks, and compare."""
    moved = [in_key(phrase, Key.parse(key)) for key in keys]
    for marks in (degrees(phrase), StudyMarks()):
        for style in (ScoreStyle(), ScoreStyle(prefix="p", label="Bb minor", label_mm=18, tempo=False)):
            assert draw_all(moved, marks, style) == tuple(draw(one, marks, style) for one in moved)


@pytest.mark.parametrize(
    ("line", "changes", "metre", "pickup"),
    [
        *(pytest.param(*case.values, "4/4", "0", id=case.id) for case in DENSE),
        pytest.param(*TWO_SYSTEMS, "4/4", "1", id="pick-up, two and two bars"),
        pytest.param("1/4 e4 a3 f#6 | 1/2. c5 | + 1/4 1/8 d e f g", "Am | D7 | %", "3/4", "0", id="3/4"),
        pytest.param("1/1 -", "C", "4/4", "0", id="nothing but a rest"),
    ],
)
def test_keys_drawn_together_look_as_each_alone_to_the_byte(
    make: Make, line: str, changes: str, metre: str, pickup: str
) -> None:
    drawn_together(make(line, changes, metre, pickup), TWELVE)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(strategies.phrases())
def test_any_phrase_drawn_together_looks_as_alone(phrase: Phrase) -> None:
    keys = ["C", "Gb", "B"]
    with contextlib.suppress(
        ShedbookError
    ):  # hardly ever: no octave fits, or a note beyond three accidentals
        drawn_together(phrase, keys)


def test_lines_of_different_lengths_go_on_different_pages(make: Make) -> None:
    mixed = [make("1/1 c4", "C"), make(*EIGHTHS), make("1/1 c4 | d", "C | D"), make(*TWO_SYSTEMS, "4/4", "1")]
    assert draw_all(mixed * 2) == tuple(draw(one) for one in mixed) * 2
    assert draw_all([]) == ()


def test_many_systems_go_on_several_pages(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    pages: list[str] = []
    real = verovio_door.svg

    def counted(mei: str, **more: Any) -> str:
        pages.append(mei)
        return real(mei, **more)

    long = make(" | ".join(["1/16 c4 d e f g a b c5 d e f g a b c6 b"] * 16), "C" + " | %" * 15)
    monkeypatch.setattr(verovio_door, "svg", counted)
    drawings = draw_all([long] * 12)
    assert len(pages) == 2  # eight systems each
    assert len(set(drawings)) == 1
    assert drawings[0].height_mm > 8 * 15


def test_the_key_that_cannot_be_drawn_is_named(make: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    phrases = [in_key(make("1/4 c4 d e f", "C"), Key.parse(key)) for key in ("F", "Bb", "Eb")]
    real = verovio_door.svg

    def without_a_flat(mei: str, **more: Any) -> str:
        """Stand for a Verovio that loses a note of E flat major, its A flat."""
        return real(re.sub(r'<note xml:id="k\d-n3" pname="a"[^>]*/>', '<rest dur="4"/>', mei), **more)

    monkeypatch.setattr(verovio_door, "svg", without_a_flat)
    with pytest.raises(RenderError, match=r'^In Eb major: 1 of 4 notes of "test"'):
        draw_all(phrases)
    assert len(draw_all(phrases[:2])) == 2


def test_the_staff_is_as_high_in_every_key_and_the_line_as_long(make: Make) -> None:
    sizes = set()
    for tonic in TWELVE:
        made = draw(
            in_key(make(*EIGHTHS, key="C minor"), Key.parse(tonic, mode="minor")),
            StudyMarks(),
            ScoreStyle(staff_mm=6.5),
        )
        view = re.search(r'viewBox="(-?\d+) (-?\d+) (\d+) (\d+)"', made.svg)
        lines = re.findall(r'd="((?:M0 \d+H\d+)+)"', made.svg)
        assert view is not None
        ys = [int(y) for y in re.findall(r"M0 (\d+)", lines[0])]
        mm = made.width_mm / int(view[3])
        assert made.height_mm / int(view[4]) == pytest.approx(mm)
        assert len(ys) == 5
        sizes.add((round((max(ys) - min(ys)) * mm, 3), round(made.width_mm, 3)))
    assert len(sizes) == 1
    assert sizes.pop()[0] == 6.5


def test_one_bar_takes_less_room_than_four(make: Make) -> None:
    one, four = draw(make("1/8 c4 d e f g a b c5", "C")), draw(make(*EIGHTHS))
    assert one.width_mm < 0.4 * four.width_mm
    assert four.width_mm == pytest.approx(170, abs=1)


@pytest.mark.parametrize("studied", [False, True], ids=["plain", "study marks"])
@pytest.mark.parametrize("tonic", ["C", "Gb", "C#"])
@pytest.mark.parametrize(("line", "changes"), DENSE)
def test_words_touch_neither_words_nor_notes(
    make: Make, ink: Any, line: str, changes: str, tonic: str, studied: bool
) -> None:
    phrase = in_key(make(line, changes), Key.parse(tonic))
    boxes = ink.boxes(draw(phrase, degrees(phrase) if studied else StudyMarks()).svg)
    words = [box for box in boxes if box.kind == "word"]
    rest = [box for box in boxes if box.kind != "word"]
    assert len(words) > len(phrase.changes)
    assert [(a, b) for i, a in enumerate(words) for b in words[i + 1 :] if a.overlaps(b)] == []
    assert [(a, b) for a in words for b in rest if a.overlaps(b) and _really(a, b)] == []


@pytest.mark.parametrize(("line", "changes"), DENSE)
def test_accidentals_keep_clear_of_the_note_before(make: Make, line: str, changes: str) -> None:
    """A sixth of a staff space, 30 units, is left at least; common practice asks for a little air."""
    for tonic in ("Gb", "B", "C#"):
        svg = draw(in_key(make(line, changes), Key.parse(tonic))).svg
        notes = re.findall(r'<g id="sn\d+">(.*?)</g>', svg)
        placed = [
            [(int(x), int(y)) for x, y in re.findall(r'href="#sE(?:0A|26)\w+" x="(-?\d+)" y="(-?\d+)"', note)]
            for note in notes
        ]
        for before, note in pairwise(placed):
            same_system = note[0][0] > before[0][0]
            level = abs(note[0][1] - before[0][1]) <= 360  # further off, a sign may stand over a head
            if same_system and level:
                assert min(x for x, _ in note) - (before[0][0] + 226) >= 30


def _cubic(corners: list[float], t: float) -> float:
    """Return a place on a cubic Bézier curve."""
    while len(corners) > 1:
        corners = [a + (b - a) * t for a, b in pairwise(corners)]
    return corners[0]


def _really(word: Any, other: Any) -> bool:
    """Say whether a beam or a curve reaches a word, rather than the box round it."""
    if other.kind == "curve":
        steps = [step / 40 for step in range(41)]
        curve = [tuple(_cubic([p[axis] for p in other.outline[:4]], t) for axis in (0, 1)) for t in steps]
        return any(word.left < x < word.right and word.top < y < word.bottom for x, y in curve)
    if other.kind != "beam":
        return True
    (x1, y1), (x2, y2) = other.outline[0], other.outline[1]
    thick = abs(other.outline[3][1] - y1)
    reach = [y1 + (y2 - y1) * (x - x1) / (x2 - x1) for x in (max(word.left, x1), min(word.right, x2))]
    upper, lower = min(reach) - thick, max(reach) + thick
    return bool(upper < word.bottom and word.top < lower)


def test_symbols_stand_on_one_line_and_the_first_over_the_first_beat(make: Make, ink: Any) -> None:
    svg = draw(make("1/4 c#5 d e f | c6 b a g", "A7 D7 | E7 F7"), StudyMarks(), ScoreStyle(tempo=False)).svg
    placed = re.findall(r'<g transform="translate\((-?\d+) (-?\d+)\)"><use href="#sb', svg)
    assert len({y for _, y in placed}) == 1
    head = re.search(r'<g id="sn0"><use href="#sE0A4" x="(\d+)"', svg)
    assert head is not None
    assert placed[0][0] == head[1]


def test_degrees_stand_in_one_row_centred_under_their_notes(make: Make) -> None:
    phrase = make("1/4 c4 d5 e g", "C")
    svg = draw(phrase, StudyMarks(under={0: "1", 1: "9", 2: "3", 3: "5"}), ScoreStyle(tempo=False)).svg
    words = re.findall(r'<g transform="translate\((-?\d+) (-?\d+)\)"><use href="#sa(\w+)"', svg)
    heads = [int(x) for x in re.findall(r'<g id="sn\d"><use href="#sE0A4" x="(\d+)"', svg)]
    assert [chr(int(code, 16)) for _, _, code in words] == ["1", "9", "3", "5"]
    assert len({y for _, y, _ in words}) == 1
    for (x, _, _), head in zip(words, heads, strict=True):
        assert int(x) + 67 == pytest.approx(head + 113, abs=3)  # half a figure is 67 wide, half a head 113


def test_bar_numbers_open_every_system_but_the_first(make: Make) -> None:
    phrase = make("1/4 g4 | " + " | ".join(["1/2 c5 d"] * 10), " | ".join(["C"] * 10), pickup="1")
    svg = draw(phrase).svg
    assert [
        (chr(int(code, 16)), int(x))
        for x, code in re.findall(r'<g transform="translate\((0) -?\d+\)"><use href="#sa(\w+)"', svg)
    ] == [("5", 0), ("8", 0)]  # four, three and three bars
    assert len(re.findall(r'<g transform="translate\(0 \d+\)"><use href="#sE050"', svg)) == 2


def test_four_bars_of_sixteenths_are_set_two_and_two(make: Make) -> None:
    bar = "1/16 c4 d e f g a b c5 d e f g a b c6 b"
    phrase = make(" | ".join([bar] * 4), "C | F | G | C")
    assert lay_out(phrase, StudyMarks(), ScoreStyle()).systems == (2, 2)
    assert lay_out(make(*EIGHTHS), degrees(make(*EIGHTHS)), ScoreStyle()).systems == (4,)


def test_a_label_has_a_margin_of_its_own(make: Make) -> None:
    plain = draw(make("1/1 c4", "C"))
    labelled = draw(make("1/1 c4", "C"), StudyMarks(), ScoreStyle(label="Bb minor", label_mm=18))
    assert labelled.width_mm - plain.width_mm == pytest.approx(18, abs=0.02)


def test_marks_stand_outwards_from_the_head_as_players_read_them(make: Make) -> None:
    """Staccato and tenuto before the accent: Gould 2011, Behind Bars, from memory; SMuFL E4A0 to E4A5."""
    for line, inner in (("1/1 c4.accent.staccato", "E4A3"), ("1/1 c4.accent.tenuto", "E4A5")):
        svg = draw(make(line, "C")).svg
        near, accent = (
            int(re.search(rf'href="#s{code}" x="\d+" y="(-?\d+)"', svg)[1])  # type: ignore[index]
            for code in (inner, "E4A1")
        )
        head = int(re.search(r'<g id="sn0"><use href="#sE0A2" x="\d+" y="(-?\d+)"', svg)[1])  # type: ignore[index]
        assert abs(near - head) < abs(accent - head)
