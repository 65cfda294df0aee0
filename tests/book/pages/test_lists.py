"""What lists phrases: parts, indexes, the checklist; and the small things beside a phrase: tempos, links."""

import unicodedata
from dataclasses import replace

import pytest

from book.cards import CARD
from shedbook.book.ground.words import words_of
from shedbook.book.pages.lists import ListedPhrase, Part, checklist, indexes, parts_of, sort_key, typical
from shedbook.book.pages.phrase_pages import LONGEST_ADDRESS, qr_code, tempo_ladder
from shedbook.errors import RenderError

EN = words_of("en")
CARDS = [
    (1, replace(CARD, progression="ii–V–I", scale="dorian", scale_names=("dorian", "mixolydian"), level=2,
                home="G major", scale_shares=(("dorian", 0.5), ("mixolydian", 0.5)),
                progressions=("ii–V–I",), device_shares=(("enclosure", 0.3), ("run", 0.5)))),
    (2, replace(CARD, progression="", scale="", scale_names=(), level=1, progressions=())),
    (3, replace(CARD, progression="ii–V–I", scale="altered", scale_names=("altered",), level=2,
                progressions=("ii–V–I", "I–VI–ii–V"), scale_shares=(("altered", 1.0),),
                device_shares=(("passing note", 0.1), ("enclosure", 0.2)))),
]  # fmt: skip


def test_parts_by_progression_keep_the_order_of_their_first_phrases() -> None:
    assert parts_of(CARDS, "progression", EN) == (
        Part("ii–V–I", (1, 3), "ii–V–I"),
        Part("Other changes", (2,), "Other changes"),
    )


def test_parts_by_scale() -> None:
    names = [(part.name, part.phrases) for part in parts_of(CARDS, "scale", EN)]
    assert names == [("dorian", (1,)), ("altered", (3,)), ("No scale named", (2,))]


def test_a_book_that_is_not_divided_is_one_part_without_a_name() -> None:
    assert parts_of(CARDS, "none", EN) == (Part("", (1, 2, 3)),)


def test_indexes_list_every_phrase_under_its_terms() -> None:
    found = {
        index.name: [(entry.term, [one.number for one in entry.phrases]) for entry in index.entries]
        for index in indexes(CARDS, EN)
    }
    assert found == {
        "By key": [("C minor", [2, 3]), ("G major", [1])],
        "By progression": [("ii–V–I", [1, 3]), ("I–VI–ii–V", [3])],
        "By scale": [("altered", [3]), ("dorian", [1]), ("mixolydian", [1])],
        "By device": [("enclosure", [1, 3]), ("passing note", [3]), ("run", [1])],
        "By level": [("level 1, easy", [2]), ("level 2", [1, 3])],
    }


def test_an_index_has_the_titles() -> None:
    (entry, *_) = indexes(CARDS, EN)[0].entries
    assert entry.phrases[0] == (2, "Low tide")


def test_an_empty_index_is_left_out() -> None:
    assert [index.name for index in indexes([CARDS[1]], EN)] == ["By key", "By level"]


@pytest.mark.parametrize(
    ("shares", "phrases", "found"),
    [
        pytest.param({1: 0.1, 2: 0.2}, 36, [1, 2], id="a few: all"),
        pytest.param(
            {n: n / 100 for n in range(1, 28)}, 36, list(range(16, 28)), id="27 of 36: the third with most"
        ),
        pytest.param({n: 0.5 for n in range(1, 28)}, 36, [], id="alike in all: typical of none"),
        pytest.param(
            {n: 0.5 for n in range(1, 21)}, 84, list(range(1, 21)), id="20 of 84, alike: all of them"
        ),
        pytest.param(
            {n: n / 100 for n in range(1, 29)}, 84, list(range(13, 29)), id="28 of 84: the 16 with most"
        ),
        pytest.param({1: 0.9, **{n: 0.5 for n in range(2, 28)}}, 36, [1], id="one stands out"),
    ],
)
def test_what_is_typical(shares: dict[int, float], phrases: int, found: list[int]) -> None:
    assert typical(shares, phrases) == found


def test_the_checklist_has_a_box_for_each_key_that_the_book_has() -> None:
    phrases = [
        ListedPhrase(1, "A", ("F major", "Bb major", "Db major", "C major")),
        ListedPhrase(2, "B", ("C# minor", "C minor")),
    ]
    found = checklist(phrases)
    # Begun at C, in the order of the first.
    assert found.columns == (("C",), ("F",), ("B♭",), ("D♭", "C♯"))
    assert [(row.number, row.title) for row in found.rows] == [(1, "A"), (2, "B")]
    assert [row.boxes for row in found.rows] == [(True,) * 4, (True, False, False, True)]


@pytest.mark.parametrize(
    ("goal", "feel", "tempos", "expected"),
    [
        pytest.param(
            132, "swing", (), ((64, "slow"), (100, "medium"), (132, "goal")), id="half, three quarters"
        ),
        pytest.param(160, "swing", (80, 120, 200), ((80, "slow"), (120, "step"), (160, "goal")), id="own"),
        pytest.param(100, "free", (), (), id="no tempo where time is free"),
        pytest.param(60, "ballad", (80,), ((60, "goal"),), id="all of the author's are faster"),
        pytest.param(20, "ballad", (), ((20, "goal"),), id="nothing slower than a metronome goes"),
    ],
)
def test_the_ladder_of_tempos(
    goal: int, feel: str, tempos: tuple[int, ...], expected: tuple[tuple[int, str], ...]
) -> None:
    assert tempo_ladder(goal, feel, tempos) == expected


def test_a_code_has_the_three_eyes_of_a_qr_code() -> None:
    # A finder pattern of 7 by 7 modules stands in three corners: ISO/IEC 18004 (from memory).
    pytest.importorskip("segno")
    code = qr_code("https://example.org/tidewater/09")
    eye = ["1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"]
    count = len(code)
    assert [row[:7] for row in code[:7]] == eye
    assert [row[count - 7 :] for row in code[:7]] == eye
    assert [row[:7] for row in code[count - 7 :]] == eye
    assert [row[count - 7 :] for row in code[count - 7 :]] != eye


def test_an_address_that_no_camera_could_read_is_refused() -> None:
    pytest.importorskip("segno")
    with pytest.raises(RenderError, match="characters long"):
        qr_code("https://example.org/" + "a" * LONGEST_ADDRESS)


@pytest.mark.parametrize(
    "ordered",
    [
        pytest.param(("Arpège", "Échappée", "Enclosure", "Étude", "Fugue"), id="French: letters first"),
        pytest.param(("Achtel", "Ähnlich", "Akkord", "Ölung", "Oper", "Strasse", "Straße"), id="DIN 5007-1"),
        pytest.param(("nota", "nube", "ñu", "oboe"), id="Spanish: ñ after n [RAE, Ortografía 2010]"),
        pytest.param(("cordao", "cordão", "cordel"), id="an accent decides last [UTS 10, level 2]"),
        pytest.param(("b5 substitute", "bebop dominant", "Blues", "oeuvre", "œuvres"), id="case, ligatures"),
    ],
)  # fmt: skip
def test_terms_stand_in_the_order_of_a_dictionary(ordered: tuple[str, ...]) -> None:
    """The orders are from memory of the rules that each names."""
    assert tuple(sorted(reversed(ordered), key=sort_key)) == ordered
    decomposed = [unicodedata.normalize("NFD", term) for term in reversed(ordered)]
    assert [unicodedata.normalize("NFC", term) for term in sorted(decomposed, key=sort_key)] == list(ordered)
