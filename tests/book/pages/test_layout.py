"""Where things stand on the pages: nothing off the paper, nothing alone, sizes as promised."""

import re
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from book import drawings
from book.builds import write_manuscript
from shedbook.book.ground.paper import GAP_MM, paper_of
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.pages import BY_KEY, BY_PHRASE, PageSettings
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.artefacts import CHANGES, HOME, Picture
from shedbook.book.verbs.build import build
from shedbook.editions.instruments.edition import edition_named
from shedbook.engrave.drawing.empty_staves import QUIET
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle

MM = 72 / 25.4
LONG_TITLE = "Eight Bars of Rain on the Old Tin Roof by the River Where We Used to Play"
EIGHT = (
    "C#m7 | F#7b9 | Bmaj7 | G#7alt | C#m7 | F#7alt | B6 | %",
    "B major",
    "1/8 g#4 b d#5 f# e d# c# b4 | a# g f# e d# f# g# a# | 1/4 d#5 f# a# g# | "
    "1/16 e5 d# c b4 1/8 a b# d#5 g# b e | 1/8 d#5 c# b4 g# e g# a b | bb d5 c bb4 ab g f# e | "
    "1/2 d#4 f# | 1/1 b4",
)
SIXTEEN = (
    "Bbmaj7 | G7b9 | Cm7 | F7 | Dm7 | G7alt | Cm7 F7 | Bb6 | "
    "Fm7 | Bb7 | Ebmaj7 | Ab7#11 | Dm7 G7 | Cm7 F7 | Bb6 | %",
    "Bb major",
    "1/8 d5 f a bb a g f d | ab4 b d5 f ab g f d | eb g bb d6 c bb5 a g | a c6 eb f eb c a5 f | "
    "1/4 d5 f a c6 | 1/8 b5 ab g f eb db b4 ab | 1/8 g4 bb c5 eb c a4 gb eb | 1/2 d4 - | "
    "1/8 ab4 c5 eb g f eb db c | d f ab c6 bb5 ab f d | 1/4. g5 1/8 f 1/2 d | 1/8 c5 d f# g bb ab gb f | "
    "1/8 f a c6 a5 b g f d | eb g bb g a f eb c | 1/1 d5 | -",
)
BLUES = (
    "F7 | Bb7 Bdim7 | F7/C D7#9 | Gm7 C13sus4@3 C7b9@4",
    "F major",
    "1/8t c5 - ab4 a c5 - 1/4 eb 1/4 - | 1/8 d5 bb4 f ab b d5 f ab | 1/4 a5 1/8 g f f# d 1/4 - | "
    "1/8 bb4 d5 f a 1/4 g 1/8 e db",
)
FOUR = ("Dm7b5 | G7b9 | Cm6 | %", "C minor",
        "1/8 f4 ab c5 eb d f ab g | ab f d b4 ab g f d | 1/2 eb4 g | 1/1 c5")  # fmt: skip


def text_of(form: tuple[str, str, str], title: str = "T") -> PhraseText:
    changes, key, line = form
    return drawings.text_of(title=title, key=key, changes=changes, line=line, tempo=120)


def write(folder: Path, form: tuple[str, str, str], title: str, settings: str = "", extra: str = "") -> Path:
    root = write_manuscript(folder / "tides", phrases=0, settings=settings)
    changes, key, line = form
    (root / "phrases/01.toml").write_text(
        f'title = "{title}"\nkey = "{key}"\nchanges = "{changes}"\nline = "{line}"\n{extra}', encoding="utf-8"
    )
    return root


def settings_on(paper: str, *, large: bool = False, arrange: str = BY_PHRASE) -> Settings:
    return Settings(page_size=paper, pages=PageSettings(large_print=large, arrange=arrange))


KEY = "in its own key"
"""Stands for the score of the home key among those of the keys."""


def drawn(text: PhraseText, settings: Settings) -> dict[str, Picture]:
    """Return a phrase in its home key as its first page has it, and as it stands among its keys."""
    card, pictures = drawings.inputs_of(text, edition_named("concert"), settings)
    return drawings.drawn({HOME: pictures[HOME], KEY: pictures[card.home.written]})


def staff_of(svg: str) -> float:
    """Return the height of a staff in millimetres: 720 units of the drawing."""
    found = re.search(r'width="([\d.]+)mm" .*?viewBox="\S+ \S+ (\d+) ', svg)
    assert found is not None
    return 720 * float(found[1]) / float(found[2])


def bounds(path: Path) -> Iterator[tuple[int, float, float, float, float]]:
    """Yield the page and the edges in points of everything drawn, counted from the foot and the left."""
    document = pypdfium2.PdfDocument(path)
    try:
        for number, page in enumerate(document):
            for one in page.get_objects(max_depth=1):
                yield number, *one.get_bounds()
    finally:
        document.close()


def texts(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    try:
        return [page.get_textpage().get_text_range().replace("\r", "") for page in document]
    finally:
        document.close()


@pytest.mark.parametrize("paper", ["a4", "letter", "tablet"])
@pytest.mark.parametrize("form", [FOUR, EIGHT, SIXTEEN], ids=["four", "eight", "sixteen"])
def test_large_print_is_half_as_large_again_everywhere(paper: str, form: tuple[str, str, str]) -> None:
    usual = paper_of(paper)
    found = drawn(text_of(form), settings_on(paper, large=True))
    assert set(found) == {HOME, KEY}
    for one in found.values():
        assert staff_of(one.svg) >= 1.5 * usual.staff_mm - 0.02


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("form", [FOUR, EIGHT, SIXTEEN], ids=["four", "eight", "sixteen"])
def test_a_phrase_is_larger_on_its_first_page_but_takes_no_more_systems(
    paper: str, form: tuple[str, str, str]
) -> None:
    found = drawn(text_of(form), settings_on(paper))
    assert len(found[HOME].facts.cuts_mm) == len(found[KEY].facts.cuts_mm)
    assert staff_of(found[HOME].svg) >= staff_of(found[KEY].svg)
    assert form == SIXTEEN or staff_of(found[HOME].svg) > 7.4


@pytest.mark.parametrize("paper", ["a4", "letter", "tablet"])
@pytest.mark.parametrize("form", [FOUR, EIGHT, SIXTEEN, BLUES], ids=["four", "eight", "sixteen", "blues"])
@pytest.mark.parametrize("large", [False, True], ids=["usual", "large"])
def test_lines_end_at_one_edge_and_no_bar_stands_alone(
    paper: str, form: tuple[str, str, str], large: bool
) -> None:
    line = paper_of(paper, large=large).line_mm
    for one in drawn(text_of(form), settings_on(paper, large=large)).values():
        # A line is a whole number of tens of units, and its last stroke reaches a little further.
        assert line - 0.4 <= one.facts.width_mm <= line + 0.4
        ends = [int(end) for end in re.findall(r"M0 0H(\d+)", one.svg)]
        assert max(ends) - min(ends) <= 10  # a hundredth of the staff's height, as the engraver rounds


def test_sixteen_bars_stay_on_their_first_page() -> None:
    found = drawn(text_of(SIXTEEN), settings_on("a4"))
    assert staff_of(found[HOME].svg) >= staff_of(found[KEY].svg)
    assert found[HOME].facts.height_mm <= paper_of("a4").home_room_mm("T")


@pytest.mark.parametrize("paper", ["a4", "letter", "tablet"])
def test_a_long_title_leaves_room_for_the_score_beneath_it(paper: str) -> None:
    home = drawn(text_of(EIGHT, LONG_TITLE), settings_on(paper))[HOME]
    assert home.facts.height_mm <= paper_of(paper).home_room_mm(LONG_TITLE)
    assert paper_of(paper).home_room_mm(LONG_TITLE) < paper_of(paper).home_room_mm("T") - 10


def test_sixteen_bars_stand_two_on_a_page() -> None:
    room = (paper_of("a4").room_mm - GAP_MM) / 2
    _, pictures = drawings.inputs_of(text_of(SIXTEEN), edition_named("concert"), settings_on("a4"))
    found = drawings.drawn({key: pictures[key] for key in ("Bb major", "C major")})
    heights = [one.facts.height_mm for one in found.values()]
    assert len(heights) == 2
    assert all(height <= room for height in heights)


def test_systems_come_closer_but_never_touch() -> None:
    phrase = text_of(SIXTEEN).phrase()
    usual, close = (draw(phrase, style=ScoreStyle(width_mm=158, most_white=white)) for white in (1_000, 0.5))
    assert close.height_mm < usual.height_mm - 5
    assert len(close.cuts_mm) == len(usual.cuts_mm) == 3
    assert all(before < after for before, after in zip((0, *close.cuts_mm), close.cuts_mm, strict=False))


def test_feel_and_tempo_stand_over_the_keys_only_where_the_book_goes_by_key() -> None:
    plain, said = (
        drawn(text_of(FOUR), settings_on("a4", arrange=arrange)) for arrange in (BY_PHRASE, BY_KEY)
    )
    assert plain[HOME] == said[HOME]
    assert said[KEY].facts.height_mm > plain[KEY].facts.height_mm + 3


@pytest.mark.parametrize(
    ("form", "rows"), [(FOUR, 1), (EIGHT, 2), (SIXTEEN, 4)], ids=["four", "eight", "sixteen"]
)
def test_own_staves_have_the_changes_over_their_bars(form: tuple[str, str, str], rows: int) -> None:
    _, pictures = drawings.inputs_of(text_of(form), edition_named("concert"), settings_on("a4"))
    one = drawings.drawn({CHANGES: pictures[CHANGES]})[CHANGES]
    assert len(one.facts.cuts_mm) == rows - 1
    assert one.svg.count(QUIET) == rows
    assert one.svg.count("V720") == form[0].count("|") + 1 + rows  # a line before each bar, and at the end
    assert form[0].split(" ")[0] in one.facts.alt


SETTINGS = 'page_size = "tablet"\nlarge_print = true\nparts = "progression"\n'


@pytest.fixture(scope="module")
def tablet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("tablet")
    return build(Request(write(folder, EIGHT, LONG_TITLE, SETTINGS), folder / "out", keys=("B", "E"))).pdfs[0]


def test_nothing_runs_off_the_paper(tablet: Path) -> None:
    document = pypdfium2.PdfDocument(tablet)
    try:
        for number in range(1, len(document)):  # the title's staff runs off on purpose
            picture = document[number].render(scale=1, grayscale=True).to_pil()
            width, height = picture.size
            edge = round(3 * MM)
            for box in (
                (0, 0, width, edge),
                (0, height - edge, width, height),
                (0, 0, edge, height),
                (width - edge, 0, width, height),
            ):
                assert min(picture.crop(box).tobytes()) > 250, f"page {number + 1}"
    finally:
        document.close()


def test_the_running_head_is_one_line(tablet: Path) -> None:
    document = pypdfium2.PdfDocument(tablet)
    try:
        for number in range(2, len(document)):
            page = document[number]
            text = page.get_textpage()
            floor = page.get_height() - paper_of("tablet").top_mm * MM
            lines = {
                round(text.get_charbox(index, loose=True)[1])
                for index in range(text.count_chars())
                if text.get_charbox(index, loose=True)[1] > floor and text.get_text_range(index, 1).strip()
            }
            assert len(lines) <= 1, f"page {number + 1}"
    finally:
        document.close()
    assert any("…" in page.partition("\n")[0] for page in texts(tablet))


def test_a_title_stands_with_its_score(tablet: Path) -> None:
    pages = texts(tablet)
    # A title in the contents and on the part's page has no facts under it.
    (first,) = (index for index, page in enumerate(pages) if "· level" in " ".join(page.split()))
    paper = paper_of("tablet", large=True)
    assert any(
        number == first and top - bottom > paper.staff_mm * MM and right - left > 0.8 * paper.line_mm * MM
        for number, left, bottom, right, top in bounds(tablet)
    )


def test_no_blank_leaf_on_a_tablet(tablet: Path) -> None:
    assert all(page.strip() for page in texts(tablet))


def test_contents_on_a_narrow_page_give_titles_room(tablet: Path) -> None:
    contents = next(page for page in texts(tablet) if "Contents" in page)
    start = contents.index("Eight Bars")
    assert contents[start : contents.index("to Play")].count("\n") <= 3


def test_bookmarks_key_by_key_divide_number_and_title(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", phrases=1, settings='arrange = "keys"')
    (pdf,) = build(Request(root, tmp_path / "out", keys=("C", "F"))).pdfs
    with pikepdf.open(pdf) as opened, opened.open_outline() as outline:
        names = [str(child.title) for item in outline.root for child in item.children]
    assert names.count("1 Low tide") == 2


def test_addresses_are_printed_beside_their_codes(tmp_path: Path) -> None:
    pytest.importorskip("segno")
    address = "https://example.org/a/very/long/path/with/many/parts/play-along-in-all-twelve-keys.mp3"
    root = write(tmp_path, FOUR, "Low tide", extra=f'[links]\n"Slow" = "{address}"\n')
    (pdf,) = build(Request(root, tmp_path / "out", keys=("C",))).pdfs
    whole = "".join(re.sub(r"[\s\u200b\ufffe\u00ad\u0002]", "", page) for page in texts(pdf))
    assert address.replace("-", "") in whole.replace("-", "")


def test_the_proof_sheet_says_the_tempo_once_a_phrase(tmp_path: Path) -> None:
    root = write(tmp_path, FOUR, "Low tide", extra="tempo = 132\n")
    (pdf,) = build(Request(root, tmp_path / "out", proof_sheet=True)).pdfs
    assert sum(page.count("132 beats a minute") for page in texts(pdf)) == 1


def test_own_staves_can_be_left_out(tmp_path: Path) -> None:
    for settings, there in (("", True), ("own_staves = false\n", False)):
        root = write(tmp_path / settings[:3], FOUR, "Low tide", settings=settings)
        (pdf,) = build(Request(root, tmp_path / f"out{settings[:3]}", keys=("C",))).pdfs
        assert any("Your own" in page for page in texts(pdf)) is there


def test_seven_scales_stand_on_the_first_page_with_the_tempo(tmp_path: Path) -> None:
    root = write(tmp_path, BLUES, "Blues Glass")
    (pdf,) = build(Request(root, tmp_path / "out", keys=("F",))).pdfs
    (first,) = (page for page in texts(pdf) if "level" in page and "The scales" in page)
    assert "Tempo" in first  # not over the leaf, alone
    assert first.count("mixolydian") + first.count("diminished") >= 3
