"""ABC notation is recognised and refused with a mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.bring_in import BringInOrder, bring_in
from shedbook.errors import ReadError
from shedbook.exchange.ground.file_kinds import is_abc

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
