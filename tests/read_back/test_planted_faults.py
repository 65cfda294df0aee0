"""Hundreds of wrong glyphs in scores that were right before: of a hundred 99 must be found (our own aim).

Names of keys stand on the pages and not in scores: `tests/book/reading_back` plants those.
"""

from random import Random

from read_back.planted import PLANTS
from read_back.printed import HARD, demo_scores, hard_phrase, printed
from shedbook.read_back.staves import UnreadableError

_EACH = 40
_SEED = 2


def test_of_wrong_glyphs_99_in_a_hundred_are_found() -> None:
    scores = [*demo_scores((2, 11, 23), ("C", "Eb", "F#")), *(printed(hard_phrase(row[0])) for row in HARD)]
    scores += [printed(hard_phrase(name), degrees=True) for name in ("marks", "ties", "double accidentals")]
    assert [one.wrong() for one in scores] == [[]] * len(scores)
    dice = Random(_SEED)
    planted, missed = 0, []
    for kind, plant in PLANTS.items():
        of_kind = 0
        while of_kind < _EACH:
            score = dice.choice(scores)
            spoilt = plant(score.svg, dice)
            if spoilt is None:
                continue
            assert spoilt != score.svg
            of_kind += 1
            planted += 1
            try:
                found = bool(score.wrong(spoilt))
            except UnreadableError:
                found = True
            if not found:
                missed.append((kind, score.phrase.title, str(score.phrase.key)))
    assert planted == 8 * _EACH
    assert len(missed) <= planted // 100, missed
