"""The data of the pages: sharing scores out, heads, what a phrase's pages and the whole book are given."""

import calendar
from dataclasses import replace
from typing import Any

import pytest

from book.cards import CARD, PLACING
from shedbook.book.ground.paper import PAGE_SIZES, paper_of
from shedbook.book.ground.words import EN, opened
from shedbook.book.manuscript.chapters import Chapter
from shedbook.book.manuscript.settings.layout import LayoutSettings
from shedbook.book.manuscript.settings.pages import BY_KEY, BY_PROGRESSION, PageSettings
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.book_pages import date_words, page_data, proof_data
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.data import BookData, PhraseData
from shedbook.book.pages.edition_words import edition_words
from shedbook.book.pages.page_plan import Sheet
from shedbook.book.pages.phrase_pages import PhrasePages, sheet_of, shortened
from shedbook.book.scores.artefacts import CycleKey, Score
from shedbook.editions.instruments.edition import edition_named


@pytest.mark.parametrize(
    ("key", "words"),
    [("C major", ("C", "major")), ("Bb minor", ("B♭", "minor")), ("F# minor", ("F♯", "minor"))],
)
def test_keys_in_words(key: str, words: tuple[str, str]) -> None:
    assert EN.key(key) == words


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


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("minor ii–V–i", "Minor ii–V–i"),
        ("ii–V–I", "ii–V–I"),
        ("iii–VI–ii–V", "iii–VI–ii–V"),
        ("blues", "Blues"),
    ],
)
def test_a_numeral_keeps_its_small_letters(text: str, expected: str) -> None:
    assert opened(text, EN) == expected


BOOK = BookText(
    "T", Settings(author="A", language="nl-BE", keys="fourths"), edition_words(edition_named("concert"), EN)
)
TWELVE = tuple(f"{name} minor" for name in ["C", "F", "Bb", "Eb", "G#", "C#", "F#", "B", "E", "A", "D", "G"])


def score(key: str = "C minor", width_mm: float = 100, height_mm: float = 30) -> Score:
    return Score(width_mm, height_mm, 10, "alt", path=f"{key}.svg", key=key)


def book(**pages: Any) -> BookText:
    """Return the book with other settings of its pages."""
    return replace(BOOK, settings=replace(BOOK.settings, pages=PageSettings(**pages)))


def phrase(number: int = 7, height_mm: float = 30, **card: Any) -> PhrasePages:
    """Return the invented phrase, with another number, height of its scores, or other fields of its card."""
    one = PhrasePages(number, replace(CARD, **card), PLACING, score(height_mm=height_mm), (), (), score())
    return in_keys(one, TWELVE, height_mm=height_mm)


def in_keys(
    one: PhrasePages, written: tuple[str, ...], concert: tuple[str, ...] = (), *, height_mm: float = 30
) -> PhrasePages:
    """Return a phrase in keys; with `concert` as the reader of a transposing edition has it."""
    keys = tuple(CycleKey(sounding, key) for sounding, key in zip(concert or written, written, strict=True))
    scores = tuple(score(key, height_mm=height_mm) for key in written)
    placing = replace(one.placing, keys=keys, cycle=keys, transposes=bool(concert))
    return replace(one, placing=placing, keys=scores)


def at_home(one: PhrasePages, written: str, concert: str = "") -> PhrasePages:
    """Return a phrase with another home key."""
    placing = replace(one.placing, home=CycleKey(concert or written, written))
    return replace(one, placing=placing, home=score(written))


def first(data: BookData) -> PhraseData:
    """Return the first phrase of a book."""
    return data.parts[0].phrases[0]


def test_page_data_says_what_the_book_is() -> None:
    data = page_data(BOOK, [phrase()], proof=True)
    only = first(data)
    assert data.about.proof is True
    assert data.about.language == "nl"
    assert data.about.subtitle == "One phrase in all twelve keys"
    assert only.facts == ("Minor ii–V–i in C", "level 2")  # feel, tempo and metre stand in the score
    assert [block.text for block in only.commentary] == ["One line.", "Another."]
    assert [len(page.scores) for page in only.pages] == [4, 7]  # one opening, without the home key
    assert only.pages[0].scores[1].tonic == "B♭"


@pytest.mark.parametrize(
    ("progression", "key", "fact"),
    [
        ("iii–VI–ii–V", "Ab major", "iii–VI–ii–V in A♭ major"),
        ("backdoor ii–V", "E major", "Backdoor ii–V in E major"),
        ("", "F# minor", "F♯ minor"),
    ],
)
def test_facts_name_the_progression_and_the_key_that_is_read(progression: str, key: str, fact: str) -> None:
    one = at_home(phrase(progression=progression), key)
    assert first(page_data(BOOK, [one], proof=False)).facts[0] == fact


def test_a_score_that_is_higher_than_the_page_keeps_its_size() -> None:
    room = paper_of("a4").room_mm
    data = first(page_data(BOOK, [phrase(height_mm=2 * room)], proof=False))
    for found in (data.home, data.pages[1].scores[0]):
        assert (found.width_mm, found.height_mm) == (100, 2 * room)
    assert [len(page.scores) for page in data.pages] == [0] + [1] * 11
    assert all(page.broken for page in data.pages[1:])


@pytest.mark.parametrize(
    ("widths", "columns"),
    [((), 1), ((30.0,), 1), ((30.0,) * 4, 4), ((30.0, 58.0, 30.0, 30.0), 2), ((30.0, 90.0), 1),
     ((53.3,) * 3, 3), ((53.4,) * 3, 2)],
)  # fmt: skip
def test_the_widest_scale_says_how_many_stand_in_a_row(widths: tuple[float, ...], columns: int) -> None:
    """On A4 a line is 168 mm long; scales stand 4 mm apart at the least."""
    scales = tuple(score(width_mm=wide, height_mm=11) for wide in widths)
    one = replace(phrase(), scales=scales)
    one = replace(one, placing=replace(one.placing, scales=("locrian",) * len(scales)))
    assert first(page_data(BOOK, [one], proof=False)).scale_columns == columns


@pytest.mark.parametrize("wanted", [True, False])
def test_own_staves_are_there_as_the_author_says(wanted: bool) -> None:
    data = page_data(book(own_staves=wanted), [phrase()], proof=False)
    assert (first(data).changes is not None) is wanted
    assert any("empty staves" in says for one in data.advice for says in one.says) is wanted


def test_indexes_go_by_the_pages_where_the_book_has_parts() -> None:
    phrases = [
        phrase(1, progression="ii–V–I"),
        phrase(2, progression="minor ii–V–i"),
        phrase(3, progression="ii–V–I"),
    ]
    data = page_data(book(parts=BY_PROGRESSION), phrases, proof=False)
    assert [[one.number for one in part.phrases] for part in data.parts] == [[1, 3], [2]]
    assert [[one.number for one in entry.phrases] for index in data.indexes for entry in index.entries][
        -1
    ] == [1, 3, 2]


def test_progressions_are_printed_with_real_signs() -> None:
    one = phrase(progression="I–#i°–ii–#ii°", progressions=("tritone substitute ii–bII", "I–#i°–ii–#ii°"))
    data = page_data(book(parts=BY_PROGRESSION), [one], proof=False)
    (part,) = data.parts
    assert part.head == "I–♯i°–ii–♯ii°"
    assert part.phrases[0].progression == "I–♯i°–ii–♯ii°"
    assert part.phrases[0].facts[0].startswith("I–♯i°–ii–♯ii° in C")
    assert [entry.term for entry in data.indexes[1].entries] == [
        "I–♯i°–ii–♯ii°",
        "tritone substitute ii–♭II",
    ]


@pytest.mark.parametrize(
    ("order", "keys", "written", "first"),
    [
        pytest.param("fourths", TWELVE[5:] + TWELVE[:5], True, ["C", "F", "B♭"], id="named, from C"),
        pytest.param("fifths", TWELVE[::-1], True, ["C", "G", "D"], id="another"),
        pytest.param(
            ("E", "A", "C"), ("E minor", "A minor", "C minor"), True, ["E", "A", "C"], id="the author's own"
        ),
        # Concert C is the reader's D.
        pytest.param("fourths", TWELVE, False, ["D", "G", "C"], id="concert keys"),
    ],
)
def test_key_by_key_goes_from_where_the_order_begins(
    order: str | tuple[str, ...], keys: tuple[str, ...], written: bool, first: list[str]
) -> None:
    concert = {"C": "Bb", "F": "Eb", "Bb": "G#", "Eb": "C#", "G#": "F#", "C#": "B",
               "F#": "E", "B": "A", "E": "D", "A": "G", "D": "C", "G": "F"}  # fmt: skip
    sounding = tuple(f"{concert[key.partition(' ')[0]]} minor" for key in keys)
    one = in_keys(phrase(), keys, sounding)
    settings = replace(book(arrange=BY_KEY).settings, keys=order, keys_written=written)
    found = [key.tonic for key in page_data(replace(BOOK, settings=settings), [one], proof=False).by_key]
    assert found[:3] == first
    assert len(found) == len(keys)


@pytest.mark.parametrize(
    ("widths", "columns"),
    [((60.0, 77.4), 2), ((60.0, 77.6), 1), ((77.0,), 2), ((), 1)],
)
def test_short_keys_stand_in_two_columns(widths: tuple[float, ...], columns: int) -> None:
    """A column of A4 is 77 mm wide; half a millimetre is rounding."""
    keys = [score(width_mm=wide) for wide in widths]
    assert sheet_of(BOOK, keys, None).columns == columns
    assert sheet_of(book(layout=LayoutSettings(columns="one")), keys, None).columns == 1
    tablet = replace(BOOK, settings=replace(BOOK.settings, page_size="tablet"))
    assert sheet_of(tablet, keys, None).columns == 1


def test_what_the_plan_is_told_of_a_book() -> None:
    sheet = sheet_of(book(layout=LayoutSettings(systems=5)), [score()], score(height_mm=20))
    assert (sheet.room, sheet.most, sheet.opening) == (258.0, 5, True)
    assert (sheet.own, sheet.own_head) == (21.0, 8.5)  # a millimetre of white under each own staff
    assert sheet_of(book(large_print=True), [score()], None) == Sheet(258.0, 8, 1, True, 0.0, 10.5)
    assert sheet_of(book(arrange=BY_KEY), [score()], None).opening is False
    assert sheet_of(replace(BOOK, keys=3), [score()], None).opening is False


def test_a_long_title_is_shortened_beside_its_score() -> None:
    one = phrase(title="Eight bars of rain on the old tin roof by the river where we used to play")
    data = page_data(book(arrange=BY_KEY), [one], proof=False)
    assert data.by_key[0].pages[0].scores[0].title == "Eight bars of rain on the old…"
    whole, longer = "Rain on the old tin roof at home", "Rain on the old tin roof at home."
    for title, shown in ((whole, whole), (longer, "Rain on the old tin roof at…")):  # 32 letters and 33
        data = page_data(book(arrange=BY_KEY), [phrase(title=title)], proof=False)
        assert data.by_key[0].pages[0].scores[0].title == shown


def test_the_concert_key_stands_beside_the_readers() -> None:
    one = in_keys(phrase(), TWELVE, tuple("Bb minor" for _ in TWELVE))
    scores = [key for page in first(page_data(BOOK, [one], proof=False)).pages for key in page.scores]
    assert {key.concert for key in scores} == {"concert B♭"}
    scores = [key for page in first(page_data(BOOK, [phrase()], proof=False)).pages for key in page.scores]
    assert {key.concert for key in scores} == {""}


def test_key_by_key_every_phrase_stands_once_in_every_key() -> None:
    by_key = page_data(book(arrange=BY_KEY), [phrase(1), phrase(2)], proof=False).by_key
    assert len(by_key) == 12
    for key in by_key:
        assert [one.number for page in key.pages for one in page.scores] == [1, 2]
    assert page_data(BOOK, [phrase(1)], proof=False).by_key == ()


def test_chapters_stand_where_they_say() -> None:
    chapters = (
        Chapter("Before", ("a",)), Chapter("After", ("b",), "back"), Chapter("Seven", ("c",), "phrase", "7"),
        Chapter("Minor", ("d",), "part", "Minor II–V–I"),
    )  # fmt: skip
    data = page_data(replace(book(parts=BY_PROGRESSION), chapters=chapters), [phrase()], proof=False)
    (part,) = data.parts
    found = [data.front, data.back, part.phrases[0].chapters, part.chapters]
    assert [[one.name for one in place] for place in found] == [
        ["Before"],
        ["After"],
        ["Seven"],
        ["Minor"],
    ]


@pytest.mark.parametrize("month", range(1, 13))
def test_a_date_in_words(month: int) -> None:
    """The calendar of the standard library is the oracle."""
    assert date_words((2026, month, 21), EN) == f"21 {calendar.month_name[month]} 2026"


def test_a_sample_and_a_licensee_are_said() -> None:
    about = page_data(replace(BOOK, licensee="Ada Reader", sample_of=36), [phrase()], proof=False).about
    assert about.licensee == "This copy belongs to Ada Reader"
    assert "1 of 36" in about.sample


def test_the_proof_sheet_has_every_score() -> None:
    data = proof_data(BOOK, [phrase(1), phrase(2)])
    assert [len(one.scores) for one in data.phrases] == [12, 12]


@pytest.mark.parametrize("name", PAGE_SIZES)
def test_large_print_is_half_as_large_again(name: str) -> None:
    usual, large = paper_of(name), paper_of(name, large=True)
    for field in ("staff_mm", "home_staff_mm", "scale_staff_mm", "text_pt"):
        assert getattr(large, field) >= 1.5 * getattr(usual, field) - 0.01


@pytest.mark.parametrize("name", PAGE_SIZES)
def test_a_players_staff_and_margins(name: str) -> None:
    # A staff is 7 mm high, 6.5 mm at the least; margins of a printed part are 15 to 19 mm: piano style
    # guides, MOLA guidelines (from memory). A tablet needs no margin to hold the paper by.
    paper = paper_of(name)
    assert paper.staff_mm >= 6.5
    assert paper.home_staff_mm >= 1.25 * paper.staff_mm
    assert name == "tablet" or 15 <= paper.outer_mm <= paper.inner_mm <= 19


def test_a_transposing_edition_names_the_concert_key_and_whose_names_the_author_uses() -> None:
    one = at_home(in_keys(phrase(), ("D minor",), ("C minor",)), "D minor", "C minor")
    one = replace(one, placing=replace(one.placing, names_concert=True))
    (part,) = page_data(BOOK, [one], proof=False).parts
    (found,) = part.phrases
    assert found.facts[0] == "Minor ii–V–i in D, concert C"
    assert found.commentary_note == "These words name concert pitch."
    assert [page.scores for page in found.pages] == [(), ()]  # the home key is not printed again


@pytest.mark.parametrize(
    ("keys", "pages", "expected"),
    [
        (12, {}, True),
        (4, {}, True),
        (3, {}, False),  # an opening would be half empty
        (0, {}, False),
        (3, {"layout": LayoutSettings(starts="opening")}, True),
        (12, {"layout": LayoutSettings(starts="page")}, False),
    ],
)
def test_few_keys_need_no_opening(keys: int, pages: dict[str, Any], expected: bool) -> None:
    """Source: common practice; a phrase with few keys stands on one page."""
    assert replace(book(**pages), keys=keys).openings is expected
