"""The data of the pages: sharing scores out, and the words for keys and numbers."""

import pytest

from shedbook.book.advice import advice
from shedbook.book.pages import (
    BookWords,
    PhrasePages,
    Score,
    key_words,
    number_words,
    page_data,
    shortened,
    spread,
)


@pytest.mark.parametrize(
    ("heights", "room", "expected"),
    [
        pytest.param([], 250, [], id="nothing"),
        pytest.param([30] * 12, 253, [6, 6], id="seven would fit, six and six is even"),
        pytest.param([40] * 12, 253, [4, 4, 4], id="five would fit, four is even"),
        pytest.param([30] * 5, 253, [5], id="one page"),
        pytest.param([240] * 3, 253, [1, 1, 1], id="long phrases"),
        pytest.param([300, 300], 253, [1, 1], id="taller than a page"),
        pytest.param([100, 100, 30, 30], 253, [2, 2], id="uneven"),
    ],
)
def test_scores_are_shared_out_evenly(heights: list[float], room: float, expected: list[int]) -> None:
    assert spread(heights, room, 6.5) == expected


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "zero"), (12, "twelve"), (19, "nineteen"), (20, "twenty"), (36, "thirty-six"), (99, "ninety-nine"),
     (100, "100")],
)  # fmt: skip
def test_numbers_in_words(number: int, words: str) -> None:
    assert number_words(number) == words


@pytest.mark.parametrize(
    ("key", "words"),
    [("C major", ("C", "major")), ("Bb minor", ("B flat", "minor")), ("F# minor", ("F sharp", "minor"))],
)
def test_keys_in_words(key: str, words: tuple[str, str]) -> None:
    assert key_words(key) == words


@pytest.mark.parametrize(
    ("title", "head"),
    [
        ("Low tide", "Low tide"),
        ("The sea, the harbour, the tide", "The sea, the…"),
        ("Donaudampfschifffahrtsgesellschaft", "Donaudampfschif…"),
    ],
)
def test_a_long_title_is_cut_for_the_running_head(title: str, head: str) -> None:
    assert shortened(title, 16) == head


CARD = {
    "title": "Low tide", "key": "C minor", "progression": "minor ii–V–i", "tempo": 132, "feel": "swing",
    "metre": "4/4", "commentary": "One\nline.\n\nAnother.", "explanation": ["It works."],
}  # fmt: skip
BOOK = BookWords(
    "T", "", "A", "", "pt-BR", (), "a4", 166.0, "concert", "fourths", degrees=True, scale_names=True
)


def _phrase(width_mm: float, keys: int = 12) -> PhrasePages:
    scores = tuple(Score(f"{n}.svg", "Bb minor", width_mm, 30, 10, "alt") for n in range(keys))
    return PhrasePages(7, CARD, scores[0], scores)


def test_page_data_says_what_the_book_is() -> None:
    data = page_data(BOOK, [_phrase(160)], proof=True)
    phrase = data["phrases"][0]
    assert data["proof"] is True
    assert data["language"] == "pt"
    assert data["subtitle"] == "One phrase in all twelve keys"
    assert phrase["facts"] == ["Minor ii–V–i in C", "132 beats a minute, swing", "4/4"]
    assert phrase["commentary"] == ["One line.", "Another."]
    assert [len(page) for page in phrase["pages"]] == [6, 6]
    assert phrase["pages"][0][0][0]["tonic"] == "B flat"


@pytest.mark.parametrize(
    ("progression", "key", "fact"),
    [
        ("iii–VI–ii–V", "Ab major", "iii–VI–ii–V in A flat major"),
        ("backdoor ii–V", "E major", "Backdoor ii–V in E major"),
        ("", "F# minor", "F sharp minor"),
    ],
)
def test_the_progression_begins_a_line_but_numerals_keep_their_size(
    progression: str, key: str, fact: str
) -> None:
    card = {**CARD, "progression": progression, "key": key}
    phrase = PhrasePages(7, card, _phrase(160).home, _phrase(160).keys)
    assert page_data(BOOK, [phrase], proof=False)["phrases"][0]["facts"][0] == fact


def test_short_scores_stand_side_by_side_in_order() -> None:
    phrase = page_data(BOOK, [_phrase(80)], proof=False)["phrases"][0]
    assert phrase["columns"] == 2
    assert [len(row) for page in phrase["pages"] for row in page] == [2] * 6
    paths = [score["path"] for page in phrase["pages"] for row in page for score in row]
    assert paths == [f"{number}.svg" for number in range(12)]


def test_the_advice_fits_the_book() -> None:
    bare = " ".join(
        text for one in advice(keys=3, order="", degrees=False, scale_names=False) for text in one.says
    )
    full = " ".join(
        text
        for one in advice(keys=12, order="chromatic", degrees=True, scale_names=True)
        for text in one.says
    )
    assert "three keys" in bare
    assert "half steps" not in bare
    assert "figures under the notes" not in bare
    assert "They climb by half steps." in full
    assert "figures under the notes" in full
    assert "doctor" in bare  # a reader who hurts is sent to somebody who can help
