"""`shedbook lesson`: the text, the PDF read back with pypdf, and edits that are kept."""

from __future__ import annotations

import shutil
from pathlib import Path

import pdfua
import pikepdf
import pytest
from pypdf import PdfReader

from shedbook.cli.main import main

DEMO = Path(__file__).parents[3] / "examples/tidewater"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a book of four phrases of the demo."""
    folder = tmp_path / "book"
    (folder / "phrases").mkdir(parents=True)
    shutil.copy(DEMO / "manuscript.toml", folder)
    for name in ("07-the-pilots-warning", "12-down-the-chimney", "39-four-buoys"):
        shutil.copy(DEMO / f"phrases/{name}.toml", folder / "phrases")
    text = (folder / "manuscript.toml").read_text(encoding="utf-8")
    (folder / "manuscript.toml").write_text(text.partition("[tracks]")[0], encoding="utf-8")
    return folder


def run(book: Path, out: Path, *arguments: str) -> int:
    return main(["lesson", str(book), "--out", str(out), *arguments])


def words_of(text: str) -> list[str]:
    return text.replace("-\n", "-").split()


def test_text_and_pdf_say_the_same(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run(book, out, "--instrument", "tenor saxophone") == 0
    text = (out / "lesson.txt").read_text(encoding="utf-8")
    reader = PdfReader(out / "lesson.pdf")
    printed = " ".join(words_of(" ".join(page.extract_text() for page in reader.pages)))
    for line in ("The chords and their scales", "Closing", "The same for tenor saxophone"):
        assert line in " ".join(words_of(text))
        assert line in printed
    assert reader.metadata is not None
    assert reader.metadata.title == "Lesson: Tidewater"
    report = pdfua.validate(str(out / "lesson.pdf"))
    assert [f"{one.rule_id}: {one.message}" for one in report.findings] == []
    catalogue = reader.trailer["/Root"]
    assert catalogue["/MarkInfo"]["/Marked"]  # type: ignore[index]
    assert str(catalogue["/Lang"]).startswith("en")  # type: ignore[index]


def test_the_notes_for_the_player_are_a_whole_step_up_on_a_tenor(book: Path, tmp_path: Path) -> None:
    """A tenor saxophone in B flat reads a major second above (common practice)."""
    out = tmp_path / "out"
    assert run(book, out, "--phrases", "1", "--instrument", "tenor saxophone") == 0
    text = " ".join(words_of((out / "lesson.txt").read_text(encoding="utf-8")))
    assert "as they sound: E A♭ C E♭ D♭ B♭ G♭ B♭ | A♭ G C D." in text
    assert "tenor saxophone: F♯ B♭ D F E♭ C A♭ C | B♭ A D E." in text
    with pikepdf.open(out / "lesson.pdf") as pdf:
        tags = [str(one.S) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/S" in one]
    assert tags.count("/Figure") == 2  # the score as it sounds, and the player's


def test_edits_are_kept_and_what_changed_beneath_is_said(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert run(book, out) == 0
    first = (out / "lesson.txt").read_text(encoding="utf-8")
    assert "In bar 2, A♭ (♭3)." in first
    mine = first.replace("In bar 2, A♭ (♭3).", "And there you are, at home.")
    (out / "lesson.txt").write_text(mine, encoding="utf-8")
    capsys.readouterr()

    assert run(book, out) == 0
    assert "And there you are, at home." in (out / "lesson.txt").read_text(encoding="utf-8")
    said = capsys.readouterr().err
    assert "kept in 1 place" in said
    assert "beneath" not in said

    phrase = book / "phrases/07-the-pilots-warning.toml"
    phrase.write_text(phrase.read_text(encoding="utf-8").replace("1/4. ab4", "1/4. c5"), encoding="utf-8")
    phrase.write_text(
        phrase.read_text(encoding="utf-8").replace("1/8 g - c5", "1/8 g4 - c5"), encoding="utf-8"
    )
    assert run(book, out) == 0
    text = (out / "lesson.txt").read_text(encoding="utf-8")
    assert "And there you are, at home." in text
    assert "E A♭ C E♭ D♭ B♭ G♭ B♭ | C G C D" in " ".join(words_of(text))
    said = capsys.readouterr().err
    assert "Under “1. The pilot's warning · On the strong beats”" in said
    assert "before: In bar 2, A♭ (♭3)." in said
    assert "now:    In bar 2, C (5)." in said
    printed = " ".join(
        words_of(" ".join(page.extract_text() for page in PdfReader(out / "lesson.pdf").pages))
    )
    assert "And there you are, at home." in printed


def test_without_its_record_everything_that_is_there_is_the_authors(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run(book, out) == 0
    text = (out / "lesson.txt").read_text(encoding="utf-8").replace("Opening", "Good evening")
    (out / "lesson.txt").write_text(text, encoding="utf-8")
    (out / ".store/lesson.json").write_text("{", encoding="utf-8")
    assert run(book, out) == 0
    assert "Good evening" in (out / "lesson.txt").read_text(encoding="utf-8")


def test_a_text_that_cannot_be_read_is_left_alone(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert run(book, out, "--phrases", "1") == 0
    text = (out / "lesson.txt").read_text(encoding="utf-8")
    wrong = ((b"\xff\xfe\x00bad", "lesson.txt is not a text in UTF-8."), (b"x" * 2_000_001, "is too long"))
    for content, said in wrong:
        (out / "lesson.txt").write_bytes(content)
        assert run(book, out, "--phrases", "1") == 1
        assert said in capsys.readouterr().err
        assert (out / "lesson.txt").read_bytes() == content
    (out / "lesson.txt").unlink()
    (out / "lesson.txt").mkdir()
    assert run(book, out, "--phrases", "1") == 1
    assert "lesson.txt cannot be read" in capsys.readouterr().err
    (out / "lesson.txt").rmdir()
    assert run(book, out, "--phrases", "1") == 0
    assert (out / "lesson.txt").read_text(encoding="utf-8") == text


def test_the_same_manuscript_gives_the_same_bytes(book: Path, tmp_path: Path) -> None:
    for name in ("a", "b"):
        assert run(book, tmp_path / name) == 0
    for file in ("lesson.txt", "lesson.pdf"):
        assert (tmp_path / "a" / file).read_bytes() == (tmp_path / "b" / file).read_bytes()


@pytest.mark.parametrize("tag", ["de", "fr", "es", "pt"])
def test_a_plan_in_the_books_language(book: Path, tmp_path: Path, tag: str) -> None:
    toml = book / "manuscript.toml"
    toml.write_text(f'language = "{tag}"\n' + toml.read_text(encoding="utf-8"), encoding="utf-8")
    out = tmp_path / "out"
    assert run(book, out) == 0
    text = (out / "lesson.txt").read_text(encoding="utf-8")
    for english in ("Opening", "Over ", "To practise", "Running time", "Show the card"):
        assert english not in text
    catalogue = PdfReader(out / "lesson.pdf").trailer["/Root"]
    assert str(catalogue["/Lang"]).startswith(tag)  # type: ignore[index]
