"""Exporting a manuscript: every format, keys and editions, and the folder rules."""

from __future__ import annotations

import contextlib
import re
from pathlib import Path

import pytest

from exchange.musicxml_schema import assert_valid
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.bring_in import BringInOrder, bring_in
from shedbook.book.verbs.export import FORMATS, ExportOrder, export
from shedbook.errors import OutputError, ShedbookError, UnknownNameError
from shedbook.exchange.ground.mxl_container import score_of
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.phrase.model import sounding_notes
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"

# The first bytes of each format, by its own standard.
SIGNATURES = {
    "musicxml": b"<?xml", "mxl": b"PK\x03\x04", "midi": b"MThd", "mei": b"<?xml", "svg": b"<svg",
    "png": b"\x89PNG\r\n\x1a\n",
}  # fmt: skip


def one(tmp_path: Path, **more: object) -> list[Path]:
    order = {"manuscript": DEMO, "format": "musicxml", "out": tmp_path / "out", "phrase": "3", **more}
    return list(export(ExportOrder(**order)))  # type: ignore[arg-type]


@pytest.mark.parametrize("name", FORMATS)
def test_formats(tmp_path: Path, name: str) -> None:
    if name == "midi":
        pytest.importorskip("mido")
    (path,) = one(tmp_path, format=name)
    assert path.read_bytes().lstrip().startswith(SIGNATURES[name])
    assert path.stem == "03-gulls-over-the-mole"


def test_a_whole_book_is_one_file_a_phrase(tmp_path: Path) -> None:
    paths = one(tmp_path, phrase="")
    manuscript = open_manuscript(DEMO)
    assert len(paths) == len(manuscript.phrases)
    assert [path.name[:2] for path in paths] == [f"{source.number:02}" for source in manuscript.phrases]
    for path, source in zip(paths, manuscript.phrases, strict=True):
        assert read_musicxml(path.read_bytes(), path.name).phrases == (read_phrase(source),)


def test_keys_and_editions_sound_as_they_should(tmp_path: Path) -> None:
    source = open_manuscript(DEMO).phrases[2]
    own = [note.pitch.midi for note in sounding_notes(read_phrase(source))]
    for path, semitones in zip(
        one(tmp_path, keys=("F", "Bb"), edition="tenor saxophone"), (-5, 0), strict=True
    ):
        text = path.read_text(encoding="utf-8")
        assert "<octave-change>-1</octave-change>" in text
        assert_or_skip(text)
        phrase = read_musicxml(text.encode(), path.name).phrases[0]
        moves = {note.pitch.midi - midi for note, midi in zip(sounding_notes(phrase), own, strict=True)}
        assert len(moves) == 1
        assert (moves.pop() - semitones) % 12 == 0


def test_files_are_named_by_the_concert_key_that_was_asked_for(tmp_path: Path) -> None:
    # B flat readers have concert B as D flat, whose notes lie a whole step over C flat.
    paths = one(tmp_path, keys=("B", "E", "F#"), edition="bflat")
    assert [path.stem.removeprefix("03-gulls-over-the-mole-") for path in paths] == ["b", "e", "f-sharp"]


@pytest.mark.parametrize(("tonic", "written_fifths"), [("B", None), ("E", None), ("F#", None), ("B", -5)])
def test_a_part_for_a_transposing_reader_comes_back_by_the_concert_keys_name(
    tmp_path: Path, tonic: str, written_fifths: int | None
) -> None:
    # Db for B flat readers lies a whole step over Cb, and the author's key is B.
    (path,) = one(tmp_path, keys=(tonic,), edition="bflat")
    text = path.read_text(encoding="utf-8")
    if written_fifths is not None:  # as another program writes it: nothing of ours, but a key signature
        text = re.sub(r"(?s)<miscellaneous>.*</miscellaneous>", "", text)
        text = text.replace("<fifths>0</fifths>", f"<fifths>{written_fifths}</fifths>")
    (phrase,) = read_musicxml(text.encode(), path.name).phrases
    assert phrase.changes[0].chord.root == Key.parse(tonic).tonic + degree_interval("4")
    assert phrase.key.tonic.pitch_class == Key.parse(tonic).tonic.pitch_class
    assert abs(phrase.key.signature) <= 6
    assert not any("bb" in str(note.pitch.name) for note in sounding_notes(phrase))


def test_mei_says_chords_and_transposition(tmp_path: Path) -> None:
    (path,) = one(tmp_path, format="mei", edition="alto saxophone")
    text = path.read_text(encoding="utf-8")
    assert 'trans.diat="-5" trans.semi="-9"' in text
    assert "<title>Gulls over the mole</title>" in text
    assert ">C7#11<" in text  # E flat, a major sixth higher


def assert_or_skip(text: str) -> None:
    with contextlib.suppress(pytest.skip.Exception):
        assert_valid(text)


def test_compressed_holds_the_same_score(tmp_path: Path) -> None:
    (plain,), (packed,) = one(tmp_path), one(tmp_path, format="mxl")
    assert score_of(packed.read_bytes(), "x") == plain.read_bytes()


def test_a_second_export_goes_into_the_same_folder_and_gives_the_same_bytes(tmp_path: Path) -> None:
    (path,) = one(tmp_path)
    before = path.read_bytes()
    assert one(tmp_path) == [path]
    assert path.read_bytes() == before


def test_a_folder_with_other_files_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "letter.txt").write_text("mine")
    with pytest.raises(OutputError, match="did not put there"):
        one(tmp_path)
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["letter.txt"]


@pytest.mark.parametrize(
    "wrong",
    [
        {"format": "docx"},
        {"keys": ("H",)},
        {"keys": ("F#", "Gb")},
        {"edition": "kazoo choir"},
        {"phrase": "99"},
    ],
)
def test_names_that_do_not_exist(tmp_path: Path, wrong: dict[str, object]) -> None:
    with pytest.raises(UnknownNameError):
        one(tmp_path, **wrong)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("name", "hint"), [("musicxm", 'Did you mean "musicxml"?'), ("words", "Formats are musicxml, mxl, ")]
)
def test_what_is_no_format_is_told_what_is(tmp_path: Path, name: str, hint: str) -> None:
    with pytest.raises(UnknownNameError, match="is not a format") as caught:
        one(tmp_path, format=name)
    assert caught.value.hint.startswith(hint)


def test_nothing_is_written_when_a_phrase_cannot_be_read(tmp_path: Path) -> None:
    book = tmp_path / "book" / "phrases"
    book.mkdir(parents=True)
    (tmp_path / "book" / "manuscript.toml").write_text("")
    (book / "01.toml").write_text('changes = "C"\nline = "1/1 c4"\n')
    (book / "02.toml").write_text('changes = "C"\nline = "1/2 c4"\n')
    with pytest.raises(ShedbookError):
        one(tmp_path, manuscript=tmp_path / "book", phrase="")
    assert not (tmp_path / "out").exists()


def test_a_file_that_was_changed_since_is_not_written_over(tmp_path: Path) -> None:
    first, *others = one(tmp_path, phrase="")
    before = {path: path.read_bytes() for path in others}
    first.write_text("my own fingerings")
    with pytest.raises(OutputError, match=rf"changed since .*: {first.name}; nothing was written"):
        one(tmp_path, phrase="", edition="bflat")
    assert first.read_text() == "my own fingerings"
    assert {path: path.read_bytes() for path in others} == before
    first.rename(tmp_path / "mine.musicxml")
    assert one(tmp_path, phrase="", edition="bflat")[0] == first


def test_what_the_author_changed_in_the_book_is_exported_again(tmp_path: Path) -> None:
    (plain,) = one(tmp_path)
    before = plain.read_bytes()
    assert one(tmp_path, keys=("F",)) == [plain]
    assert plain.read_bytes() != before
    assert one(tmp_path) == [plain]
    assert plain.read_bytes() == before


def test_links_come_along_and_back(tmp_path: Path) -> None:
    book = tmp_path / "book" / "phrases"
    book.mkdir(parents=True)
    (tmp_path / "book" / "manuscript.toml").write_text("")
    (book / "01.toml").write_text(
        'title = "L"\nchanges = "C"\nline = "1/1 c4"\n[links]\n"My \\"track\\"" = "https://example.org/a"\n'
    )
    (path,) = one(tmp_path, manuscript=tmp_path / "book", phrase="")
    bring_in(BringInOrder((path,), tmp_path / "copy"))
    (source,) = open_manuscript(tmp_path / "copy").phrases
    assert source.fields["links"] == {'My "track"': "https://example.org/a"}


def test_damaged_links_are_named(tmp_path: Path) -> None:
    (path,) = one(tmp_path)
    field = '<miscellaneous-field name="shedbook-links">{"a": "ftp://x"}</miscellaneous-field>'
    text = path.read_text(encoding="utf-8").replace("<miscellaneous>", f"<miscellaneous>{field}")
    imported = read_musicxml(text.encode(), "x.musicxml")
    assert imported.pieces[0].links == ()
    assert [str(remark) for remark in imported.report.remarks] == [
        "the links cannot be read and are left out."
    ]
