"""A score drawn from systems that were kept is, byte for byte, the score drawn whole."""

from collections.abc import Sequence
from random import Random

import pytest

from shedbook.engrave.drawing.kept_systems import KeptSystems
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

_NAMES = [letter + sign for letter in "cdefgab" for sign in ("", "", "#", "b")]
_CHORDS = ("Dm7b5", "G7b9", "Cm6", "A7alt", "F#7", "Gbmaj7", "E7#9", "N.C.")
_LENGTHS = {1: "1/8", 2: "1/4", 3: "1/4.", 4: "1/2", 6: "1/2."}
_MARKS = ("", "", "", "", "", ".accent", ".ghost", ".fall", ".scoop")


def note(dice: Random) -> str:
    return f"{dice.choice(_NAMES)}{dice.choice((3, 4, 4, 5, 5, 6))}{dice.choice(_MARKS)}"


def bar(dice: Random, eighths: int) -> str:
    """Return a bar that ends with a note: triplets, slurs, grace notes and rests among plain values."""
    found, left = [], eighths
    while left:
        length = dice.choice([one for one in (1, 1, 1, 2, 2, 3, 4, 6) if one <= left])
        left -= length
        kind = dice.random()
        if length == 2 and kind < 0.3:
            found.append("1/8t " + " ".join(note(dice) for _ in range(3)))
        elif length == 2 and kind < 0.5:
            found.append(f"1/8 ({note(dice)} {note(dice)})")
        elif kind > 0.95:
            found.append(f"{_LENGTHS[length]} grace:{dice.choice(_NAMES)}5 {note(dice)}")
        else:
            found.append(f"{_LENGTHS[length]} {'-' if kind > 0.88 and left else note(dice)}")
    return " ".join(found)


def phrase(lines: Sequence[str], metre: str, dice: Random) -> Phrase:
    changes = " | ".join(dice.choice(_CHORDS) for _ in lines)
    return phrase_from_fields(
        {"title": "x", "key": "Eb", "metre": metre, "changes": changes, "line": " | ".join(lines)}
    )


def same(kept: KeptSystems, one: Phrase, style: ScoreStyle) -> None:
    whole, found = draw(one, NO_STUDY_MARKS, style), kept.draw(one, style)
    assert found == whole
    assert found.lines == whole.lines


@pytest.mark.parametrize("metre", ["4/4", "3/4", "6/8", "5/4"])
@pytest.mark.parametrize("signature", [True, False])
def test_the_score_is_the_same_after_every_change(metre: str, signature: bool) -> None:
    dice = Random(f"{metre}{signature}")
    eighths = {"4/4": 8, "3/4": 6, "6/8": 6, "5/4": 10}[metre]
    style = ScoreStyle(width_mm=dice.choice((110, 200)), tempo=False, signature=signature)
    kept, lines = KeptSystems(), [bar(dice, eighths) for _ in range(9)]
    for changed in (0, 4, 8, 5):  # another rhythm moves the numbers of all notes after it
        lines[changed] = bar(dice, eighths)
        same(kept, phrase(lines, metre, Random(metre)), style)


@pytest.mark.parametrize(
    ("fourth", "fifth"),
    [("1/1 c5", "+ 1/2 1/2 d5"), ("1/2 c5 1/2 (d5", "1/2 e5) 1/2 d5"), ("1/2 (c5 d5)", "+ 1/4 1/2. e5")],
)
def test_ties_and_slurs_from_one_system_into_the_next(fourth: str, fifth: str) -> None:
    lines = ["1/4 c5 d e f"] * 3 + [fourth, fifth] + ["1/4 g4 a b c5"] * 11
    kept = KeptSystems()
    for first in ("1/4 c5 d e f", "1/8 c5 d e f 1/4 g a"):
        same(kept, phrase([first, *lines[1:]], "4/4", Random(1)), ScoreStyle(tempo=False))


def test_only_the_system_that_changed_is_engraved(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [f"1/4 {one}4 d5 e f" for one in "cdefgabcdefgabcd"]
    style, kept, engraved = ScoreStyle(tempo=False), KeptSystems(), list[int]()
    kept.draw(phrase(lines, "4/4", Random(1)), style)
    plain = verovio_door.svg

    def counted(mei: str, **options: object) -> str:
        engraved.append(mei.count("<note "))
        return plain(mei, **options)  # type: ignore[arg-type]

    monkeypatch.setattr(verovio_door, "svg", counted)
    lines[5] = "1/4 g5 d e f"
    kept.draw(phrase(lines, "4/4", Random(1)), style)
    assert engraved == [16]  # four bars of four notes
    kept.draw(phrase(lines, "4/4", Random(1)), style)
    assert engraved == [16]
