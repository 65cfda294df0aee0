"""A phrase explained as a reader sees it. What is said of a line is tested in tests/analysis."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.verbs.explain import Explained, explain_file
from shedbook.errors import ReadError

PHRASE = """\
title = "One"
changes = "Cmaj7 | Dm7 | G7"
line = "1/4 c4 f4 f4 c#4 | 1/4 d4 eb5 g#4 f | 1/1 c5"
"""


def explained(folder: Path, edition: str) -> Explained:
    (folder / "phrases").mkdir()
    (folder / "manuscript.toml").write_text('title = "T"\nauthor = "A"\n', encoding="utf-8")
    (folder / "phrases" / "01.toml").write_text(PHRASE, encoding="utf-8")
    (found,) = explain_file(folder, edition=edition)
    assert not isinstance(found, ReadError)
    return found


# Transposing instruments read a whole step (in B flat) or a major sixth (in E flat) higher than it sounds:
# common practice. What the proof-reader says is for the author, and stays in concert pitch.
@pytest.mark.parametrize(
    ("edition", "changes", "first", "said"),
    [
        ("concert", "Cmaj7 | Dm7 | G7", "C4", "C♯ leads up a half step into D, the root of Dm7."),
        ("bass", "Cmaj7 | Dm7 | G7", "C4", "C♯ leads up a half step into D, the root of Dm7."),
        ("bflat", "Dmaj7 | Em7 | A7", "D4", "D♯ leads up a half step into E, the root of Em7."),
        ("tenor saxophone", "Dmaj7 | Em7 | A7", "D4", "D♯ leads up a half step into E, the root of Em7."),
        ("eflat", "Amaj7 | Bm7 | E7", "A4", "A♯ leads up a half step into B, the root of Bm7."),
    ],
)
def test_a_reader_is_told_by_the_names_that_stand_on_the_page(
    tmp_path: Path, edition: str, changes: str, first: str, said: str
) -> None:
    found = explained(tmp_path, edition)
    assert found.changes == changes
    assert found.sentences[0] == said
    notes = found.json["notes"]
    assert isinstance(notes, list)
    assert (notes[0]["pitch"], notes[0]["written"]) == ("C4", first)
    assert any("E♭5 lies an octave too high" in one.message for one in found.findings)
