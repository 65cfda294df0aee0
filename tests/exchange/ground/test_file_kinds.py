"""Files that are something else than they seem: MIDI inside RIFF is read, others are refused with a mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from exchange.playing import midi_file, track
from shedbook.book.verbs.bring_in import BringInOrder, bring_in
from shedbook.errors import ReadError
from shedbook.exchange.ground.file_kinds import is_abc, midi_inside, refuse_others

# ABC standard 2.1: a tune begins with its number, its header ends with its key (from memory).
TUNE = b"X:1\nT:Low tide\nM:4/4\nL:1/8\nK:Cm\n|: cdef gagf :|\n"


@pytest.mark.parametrize(
    ("data", "abc"),
    [
        (TUNE, True), (b"%abc-2.1\n" + TUNE, True), (b"\xef\xbb\xbf%abc\nK:C\n", True),
        (TUNE.replace(b"\n", b"\r\n"), True), (b"<score>\nX:1\nK:C\n</score>", False),
        (b"X:1\nwords", False), (b"", False), (b"MThd", False),
    ],
)  # fmt: skip
def test_recognised(data: bytes, abc: bool) -> None:
    assert is_abc(data) is abc


def test_refused_with_a_mend_and_nothing_written(tmp_path: Path) -> None:
    file = tmp_path / "tune.abc"
    file.write_bytes(TUNE)
    with pytest.raises(ReadError, match="ABC") as caught:
        bring_in(BringInOrder((file,), tmp_path / "book"))
    assert "MusicXML" in caught.value.hint
    assert not (tmp_path / "book").exists()


# The form of a RIFF file: from memory. Some programs write a length of 0 for the last chunk.
@pytest.mark.parametrize("said", [True, False])
def test_midi_in_a_riff_file(said: bool) -> None:
    inside = midi_file([track([(0, b"\x90\x3c\x40"), (96, b"\x80\x3c\x40")])])
    data = b"RIFF" + (20 + len(inside)).to_bytes(4, "little") + b"RMIDINFO\x03\0\0\0abc\0"
    data += b"data" + (len(inside) if said else 0).to_bytes(4, "little") + inside
    assert midi_inside(data) == inside
    assert midi_inside(inside) == inside


@pytest.mark.parametrize(
    ("data", "said"),
    [(b"%PDF-1.7\n%...", "a PDF"), (b"RIFF\x24\0\0\0WAVEfmt ", "a recording"), (b"\x89PNG\r\n", "a picture")],
)
def test_files_that_hold_no_notes(tmp_path: Path, data: bytes, said: str) -> None:
    with pytest.raises(ReadError, match=f"is {said}"):
        refuse_others(data, "a.musicxml")
    file = tmp_path / "a.musicxml"
    file.write_bytes(data)
    with pytest.raises(ReadError, match=f"is {said}"):
        bring_in(BringInOrder((file,), tmp_path / "book"))
