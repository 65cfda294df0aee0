"""One score as a picture file."""

import re
from pathlib import Path

import pytest
from PIL import Image

from book.builds import run, write_manuscript
from shedbook.book.verbs.show import PPI, drawn, show
from shedbook.errors import OutputError, UnknownNameError

MM_AN_INCH = 25.4


@pytest.fixture(scope="module")
def phrase(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_manuscript(tmp_path_factory.mktemp("show") / "tides") / "phrases" / "01.toml"


def test_a_png_is_the_score_at_its_size_on_white(phrase: Path, tmp_path: Path) -> None:
    out = tmp_path / "new" / "score.png"
    show(phrase, out)
    drawing = drawn(phrase)
    with Image.open(out) as picture:
        width, height = picture.size
        corner = picture.convert("RGBA").getpixel((0, 0))
        darkest = min(picture.convert("L").tobytes())
    assert width == pytest.approx(drawing.width_mm / MM_AN_INCH * PPI, abs=2)
    assert height == pytest.approx(drawing.height_mm / MM_AN_INCH * PPI, abs=2)
    assert corner == (255, 255, 255, 255)
    assert darkest < 60
    assert [path.name for path in out.parent.iterdir()] == ["score.png"]


def test_an_svg_in_another_key(phrase: Path, tmp_path: Path) -> None:
    show(phrase, tmp_path / "c.svg")
    show(phrase, tmp_path / "e.SVG", key="E")
    home, other = ((tmp_path / name).read_text(encoding="utf-8") for name in ("c.svg", "e.SVG"))
    assert re.match(r"<svg [^>]*width=", home)
    assert home != other


def test_an_edition_has_its_own_clef_and_its_readers_key(phrase: Path) -> None:
    bass, alto, asked = (
        drawn(phrase, edition="bass"),
        drawn(phrase, edition="alto sax"),
        drawn(phrase, edition="alto sax", key="Eb"),
    )
    assert "E062" in bass.svg  # the F clef of SMuFL
    assert "E050" in alto.svg  # the G clef
    assert drawn(phrase) not in (bass, alto)
    assert asked != alto
    with pytest.raises(UnknownNameError, match='no edition "alto trumpet"'):
        drawn(phrase, edition="alto trumpet")


def test_a_phrase_of_a_manuscript_by_number_or_title(phrase: Path) -> None:
    book = phrase.parents[1]
    assert drawn(book, phrase="2") == drawn(book, phrase="half past the pier")
    assert drawn(book, phrase="2") != drawn(book)


def test_an_existing_picture_is_replaced_and_other_files_are_kept(phrase: Path, tmp_path: Path) -> None:
    (tmp_path / "score.svg").write_text("old", encoding="utf-8")
    (tmp_path / "other").write_text("mine", encoding="utf-8")
    show(phrase, tmp_path / "score.svg")
    assert (tmp_path / "score.svg").read_text(encoding="utf-8").startswith("<svg")
    assert (tmp_path / "other").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", ["score", "score.pdf", "score.jpg"])
def test_only_png_and_svg(phrase: Path, tmp_path: Path, name: str) -> None:
    with pytest.raises(OutputError, match=r"neither a \.png nor a \.svg"):
        show(phrase, tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_where_nothing_can_be_written(phrase: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    with pytest.raises(OutputError, match="cannot be written"):
        show(phrase, tmp_path / "file" / "score.svg")
    (tmp_path / "folder.svg").mkdir()
    with pytest.raises(OutputError, match="cannot be written"):
        show(phrase, tmp_path / "folder.svg")


@pytest.mark.parametrize(("options", "message"), [({"key": "H"}, "tonic"), ({"phrase": "High"}, "no phrase")])
def test_what_is_not_there(phrase: Path, tmp_path: Path, options: dict[str, str], message: str) -> None:
    with pytest.raises(UnknownNameError, match=message):
        show(phrase, tmp_path / "score.svg", **options)


def test_the_command_prints_where_the_picture_is(phrase: Path, tmp_path: Path) -> None:
    done = run("show", phrase, "--key", "Bb", "--out", tmp_path / "score.svg")
    assert (done.returncode, done.stdout) == (0, f"{tmp_path / 'score.svg'}\n")
    assert (tmp_path / "score.svg").is_file()
