"""Bringing files into a manuscript: numbers, nothing written over, nothing half done."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from exchange.scores import DOUBLE_BAR, harmony, note, score
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.bring_in import BringInOrder, BroughtIn, bring_in, split_of
from shedbook.errors import ManuscriptError, OutputError, ReadError, UnknownNameError

TITLE = "<movement-title>{}</movement-title>"
LICK = score(harmony("G", "dominant") + note("B4"), head=TITLE.format("Low tide"))
MIDI_NOTES = [
    (240 * at + off, bytes((status, 60 + step, 80)))
    for at, step in enumerate((0, 2, 4, 5, 7, 9, 11, 12))
    for off, status in ((0, 0x90), (240, 0x80))
]
TWO = score(note("C4") + DOUBLE_BAR, note("D4"), head=TITLE.format("Long one"))


def put(tmp_path: Path, name: str, data: bytes) -> Path:
    path = tmp_path / name
    path.write_bytes(data)
    return path


def into(tmp_path: Path, *files: Path, **more: object) -> BroughtIn:
    return bring_in(BringInOrder(tuple(files), tmp_path / "book", **more))  # type: ignore[arg-type]


def test_a_new_folder_becomes_a_manuscript(tmp_path: Path) -> None:
    brought = into(tmp_path, put(tmp_path, "a.musicxml", LICK))
    manuscript = open_manuscript(tmp_path / "book")
    assert manuscript.title == "book"
    assert [source.file for source in manuscript.phrases] == ["phrases/01-low-tide.toml"]
    assert read_phrase(manuscript.phrases[0]) == brought.phrases[0].phrase


def test_the_next_free_number_is_taken_and_nothing_written_over(tmp_path: Path) -> None:
    file = put(tmp_path, "a.musicxml", LICK)
    into(tmp_path, file)
    first = tmp_path / "book" / "phrases" / "01-low-tide.toml"
    first.write_text(first.read_text() + "# mine\n")
    (tmp_path / "book" / "phrases" / "07-gap.toml").write_text(first.read_text())
    brought = into(tmp_path, file, put(tmp_path, "b.musicxml", TWO))
    assert [new.path.name for new in brought.phrases] == [
        "08-low-tide.toml", "09-long-one-1.toml", "10-long-one-2.toml",
    ]  # fmt: skip
    assert first.read_text().endswith("# mine\n")
    open_manuscript(tmp_path / "book")


def test_a_preview_writes_nothing(tmp_path: Path) -> None:
    brought = into(tmp_path, put(tmp_path, "a.musicxml", LICK), preview=True)
    assert brought.phrases[0].text.startswith('title = "Low tide"')
    assert not (tmp_path / "book").exists()


def test_one_file_that_cannot_be_read_is_named_and_the_rest_is_read(tmp_path: Path) -> None:
    good, bad = put(tmp_path, "a.musicxml", LICK), put(tmp_path, "b.musicxml", LICK[:200])
    brought = into(tmp_path, bad, good, tmp_path / "missing.mid")
    assert [new.path.name for new in brought.phrases] == ["01-low-tide.toml"]
    assert [one.path.name for one in brought.refused] == ["b.musicxml", "missing.mid"]
    assert "ends in the middle" in brought.refused[0].error.message
    assert len(open_manuscript(tmp_path / "book").phrases) == 1


def test_all_or_nothing_writes_nothing_where_one_file_cannot_be_read(tmp_path: Path) -> None:
    good, bad = put(tmp_path, "a.musicxml", LICK), put(tmp_path, "b.musicxml", LICK[:200])
    brought = into(tmp_path, good, bad, all_or_nothing=True)
    assert not brought.phrases
    assert [one.path.name for one in brought.refused] == ["b.musicxml"]
    assert not (tmp_path / "book").exists()


def test_the_only_file_raises_its_error(tmp_path: Path) -> None:
    with pytest.raises(ReadError, match="ends in the middle"):
        into(tmp_path, put(tmp_path, "b.musicxml", LICK[:200]))


class Heard:
    """A listener that keeps what it hears, and whether the book was there when it heard it."""

    def __init__(self, book: Path) -> None:
        self.book, self.read, self.warnings = book, [""], [("", 0)]

    def reading(self, done: int, of: int, path: Path) -> None:
        self.read.append(f"{done} of {of}: {path.name}")

    def warned(self, notice: str) -> None:
        self.warnings.append((notice, len(list((self.book / "phrases").glob("*.toml")))))


def test_the_same_music_again_is_said_before_it_is_written(tmp_path: Path) -> None:
    file = put(tmp_path, "a.musicxml", LICK)
    into(tmp_path, file)
    heard = Heard(tmp_path / "book")
    bring_in(BringInOrder((file,), tmp_path / "book"), heard)
    assert heard.read[1:] == ["0 of 1: a.musicxml"]
    assert heard.warnings[1:] == [('"Low tide" is in the manuscript already, as phrases/01-low-tide.toml', 1)]


def test_two_new_files_with_one_music_are_said_to_be_alike(tmp_path: Path) -> None:
    files = put(tmp_path, "a.musicxml", LICK), put(tmp_path, "b.musicxml", LICK)
    heard = Heard(tmp_path / "book")
    bring_in(BringInOrder(files, tmp_path / "book"), heard)
    said = '"Low tide" has the same notes and chords as 01-low-tide.toml, which is new too'
    assert heard.warnings[1:] == [(said, 0)]


def test_a_full_disk_is_told_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("shedbook.book.verbs.bring_in.put", full)
    with pytest.raises(OutputError) as caught:
        into(tmp_path, put(tmp_path, "a.musicxml", LICK), put(tmp_path, "b.musicxml", TWO))
    assert caught.value.message.count("The disk is full") == 1
    assert "full" not in caught.value.hint
    assert not (tmp_path / "book").exists()


def test_a_folder_that_is_no_manuscript_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "letter.txt").write_text("mine")
    with pytest.raises(OutputError, match="nothing was written"):
        into(tmp_path, put(tmp_path, "a.musicxml", LICK))


def test_a_folder_of_phrases_that_leads_elsewhere_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "manuscript.toml").write_text("")
    (tmp_path / "book" / "phrases").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(ManuscriptError, match="leads out"):
        into(tmp_path, put(tmp_path, "a.musicxml", LICK))
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_the_books_own_metre_does_not_change_a_phrase(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "manuscript.toml").write_text('metre = "3/4"\ntempo = 90\nfeel = "bossa"\n')
    brought = into(tmp_path, put(tmp_path, "a.musicxml", LICK))
    source = open_manuscript(tmp_path / "book").phrases[0]
    assert read_phrase(source) == brought.phrases[0].phrase


def test_an_id_that_is_taken_is_not_given_again(tmp_path: Path) -> None:
    own = TITLE.format("Low tide") + (
        '<identification><miscellaneous><miscellaneous-field name="shedbook-id">tide'
        "</miscellaneous-field></miscellaneous></identification>"
    )
    file = put(tmp_path, "a.musicxml", score(note("C4"), head=own))
    brought = into(tmp_path, file, file)
    assert [new.phrase.id for new in brought.phrases] == ["tide", ""]
    assert any("taken" in notice for notice in brought.notices)
    open_manuscript(tmp_path / "book")


def test_a_listed_manuscript_says_that_the_list_must_grow(tmp_path: Path) -> None:
    file = put(tmp_path, "a.musicxml", LICK)
    into(tmp_path, file)
    (tmp_path / "book" / "manuscript.toml").write_text('phrases = ["01-low-tide.toml"]\n')
    assert any("list" in notice for notice in into(tmp_path, file).notices)


def test_a_score_without_a_title_takes_that_of_its_file(tmp_path: Path) -> None:
    brought = into(tmp_path, put(tmp_path, "Second ferry.musicxml", score(note("C4"))))
    assert brought.phrases[0].phrase.title == "Second ferry"


@pytest.mark.parametrize("data", [b"", b" \n"])
def test_an_empty_file(tmp_path: Path, data: bytes) -> None:
    with pytest.raises(ReadError, match="empty"):
        into(tmp_path, put(tmp_path, "a.musicxml", data))


@pytest.mark.parametrize("name", ["missing.musicxml", "."])
def test_no_file(tmp_path: Path, name: str) -> None:
    with pytest.raises(ReadError):
        into(tmp_path, tmp_path / name)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", {"double-bars", "rehearsal-marks"}),
        ("none", set()),
        ("all", {"double-bars", "rehearsal-marks", "system-breaks", "rests"}),
        ("rests, double-bars", {"rests", "double-bars"}),
    ],
)
def test_where_to_divide(text: str, found: set[str]) -> None:
    assert split_of(text) == found


def test_an_unknown_way_to_divide() -> None:
    with pytest.raises(UnknownNameError, match="cannot be divided"):
        split_of("everywhere")


def test_a_midi_file_goes_to_its_own_reader(tmp_path: Path) -> None:
    # Standard MIDI Files 1.0: a header (format 0, one track, 96 ticks) and a track with one whole note.
    track = b"\x00\x90\x3c\x40\x83\x00\x80\x3c\x40\x00\xff\x2f\x00"
    data = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x00\x60MTrk" + len(track).to_bytes(4, "big") + track
    brought = into(tmp_path, put(tmp_path, "played.mid", data), changes="C6")
    assert brought.phrases[0].phrase.title == "played"
    assert brought.phrases[0].phrase.changes[0].chord.text == "C6"
