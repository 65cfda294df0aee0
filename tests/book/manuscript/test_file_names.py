"""What the files of phrases are called [the project's design]."""

from pathlib import Path

import pytest

from shedbook.book.manuscript.file_names import file_words, next_number, offsets_beside, recording_name


@pytest.mark.parametrize(
    ("title", "words"),
    [
        ("Low tide", "low-tide"),
        ("Über die Brücke", "uber-die-brucke"),
        ("C# & Db!", "c-sharp-db"),
        ("…", "phrase"),
        ("../../etc/passwd", "etc-passwd"),
        ("The pilot's warning", "the-pilots-warning"),
        ("x" * 99, "x" * 60),
    ],
)
def test_file_names(title: str, words: str) -> None:
    assert file_words(title) == words


def test_the_next_free_number(tmp_path: Path) -> None:
    assert next_number(tmp_path / "missing") == (1, 2)
    for name in ("07-a.toml", "112-b.toml", "notes.txt"):
        (tmp_path / name).write_text("")
    assert next_number(tmp_path) == (113, 3)


def test_recordings_of_two_tempos_and_two_keys_never_collide() -> None:
    names = {
        recording_name(3, "Low tide", key, tempo)
        for key in ("B major", "Bb major", "B minor", "C# major", "C major")
        for tempo in (0, 96, 120)
    }
    assert len(names) == 15
    assert "media/03-low-tide-bb-major-96.wav" in names
    assert recording_name(3, "Low tide", "C major", ending=".flac") == "media/03-low-tide-c-major.flac"


def test_the_offsets_lie_beside_their_recording() -> None:
    assert offsets_beside(Path("media/low-tide.wav")) == Path("media/low-tide.notes.json")
