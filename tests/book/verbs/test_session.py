"""`shedbook session`: the sheet read back, guides and slates against the list. Source: our own design."""

from __future__ import annotations

import json
import shutil
import sys
from pathlib import Path

import numpy as np
import pdfua
import pytest
import soundfile
from pypdf import PdfReader

from shedbook.book.ground.progress import Step
from shedbook.book.verbs import session as room
from shedbook.book.verbs.session import SessionOrder, make_session
from shedbook.cli.main import main
from shedbook.sound.audio.slate import read_slates
from shedbook.sound.audio.tables.voices import PROGRAM
from sound.studio import package_font

PHRASE = """\
title = "A test"
changes = "Dm7 | G7"
tempo = 120
line = "1/8 d4 f a c5 e d c a4 | g b d5 f a g f d"
"""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    folder = tmp_path / "book"
    (folder / "phrases").mkdir(parents=True)
    shutil.copy(package_font().path, folder / "font.sf2")
    (folder / "manuscript.toml").write_text(
        'title = "Tests"\n[tracks]\nsound_font = "font.sf2"\n', encoding="utf-8"
    )
    (folder / "phrases/01.toml").write_text(PHRASE, encoding="utf-8")
    (folder / "phrases/02.toml").write_text(PHRASE.replace("A test", "Another"), encoding="utf-8")
    return folder


def test_everything_for_a_session(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    arguments = ["--keys", "F Bb", "--tempos", "140,100", "--instrument", "tenor saxophone"]
    assert main(["session", str(book), "--out", str(out), "--phrases", "1", *arguments]) == 0
    takes = json.loads((out / "takes.json").read_text(encoding="utf-8"))
    order = [(take["take"], take["tempo"], take["key"]) for take in takes]
    keys = [key for _, _, key in order[:2]]
    assert [key.partition(" ")[0] for key in keys] == ["F", "Bb"]
    assert order == [(1, 100, keys[0]), (2, 100, keys[1]), (3, 140, keys[0]), (4, 140, keys[1])]
    assert takes[0]["file"] == "media/01-a-test-f-major-100.wav"
    sheet = " ".join(" ".join(page.extract_text() for page in PdfReader(out / "takes.pdf").pages).split())
    for said in ("Recording session: Tests", "01-a-test-f-major-100.wav", "(concert F)", "doctor", "agreed"):
        assert said in sheet
    assert not pdfua.validate(str(out / "takes.pdf")).findings
    assert [path.name for path in sorted((out / "guides").iterdir())] == [
        "001-a-test-f-100.flac", "002-a-test-bb-100.flac", "003-a-test-f-140.flac", "004-a-test-bb-140.flac",
    ]  # fmt: skip
    for number in range(1, 5):
        samples, rate = soundfile.read(out / f"slates/{number:03}.wav")
        assert [one.number for one in read_slates(samples, rate)] == [number]
    slow, fast = (soundfile.info(out / f"guides/{name}").duration for name in
                  ("001-a-test-f-100.flac", "003-a-test-f-140.flac"))  # fmt: skip
    assert slow > 1.3 * fast - 1


@pytest.mark.skipif(sys.platform == "win32", reason="a shell script stands in for the program")
def test_a_slate_is_spoken_in_the_books_language_where_something_speaks(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A program stands in for the system's: it says everything as a tone of 440 Hz."""
    tone = 0.5 * np.sin(2 * np.pi * 440 * np.arange(22_050) / 22_050)
    soundfile.write(tmp_path / "word.wav", tone, 22_050)
    program = tmp_path / PROGRAM
    program.write_text(f'#!/bin/sh\necho "$@" >> {tmp_path}/asked\ncat {tmp_path}/word.wav\n')
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    text = (book / "manuscript.toml").read_text(encoding="utf-8")
    (book / "manuscript.toml").write_text(f'language = "de"\n{text}', encoding="utf-8")
    out = tmp_path / "out"
    assert main(["session", str(book), "--out", str(out), "--phrases", "1"]) == 0
    asked = (tmp_path / "asked").read_text(encoding="utf-8")
    assert "-v de" in asked
    assert "Aufnahme 1: A test, C-Dur, 120." in asked
    samples, rate = soundfile.read(out / "slates/001.wav")
    (slate,) = read_slates(samples, rate)
    spoken = samples[round((slate.end_s + 0.5) * rate) :, 0]
    spectrum = np.abs(np.fft.rfft(spoken[: rate // 2]))
    assert abs(int(spectrum.argmax()) * 2 - 440) < 6


def test_the_files_of_the_sheet_are_where_recordings_are_expected(book: Path, tmp_path: Path) -> None:
    """A recording put there and named in manuscript.toml takes the place of a demonstration."""
    out = tmp_path / "out"
    assert main(["session", str(book), "--out", str(out), "--sheet-only"]) == 0
    take = json.loads((out / "takes.json").read_text(encoding="utf-8"))[0]
    (book / "media").mkdir()
    soundfile.write(book / take["file"], [0.1] * 48_000, 48_000)
    text = (book / "manuscript.toml").read_text(encoding="utf-8")
    text += 'kinds = ["demonstration"]\nformats = ["wav"]\n'
    text += f"[[tracks.recordings]]\nphrase = {take['phrase']}\ntempo = {take['tempo']}\n"
    text += f'file = "{take["file"]}"\n'
    (book / "manuscript.toml").write_text(text, encoding="utf-8")
    assert main(["check", str(book), "--quiet"]) == 0


@pytest.mark.parametrize(
    ("arguments", "says"),
    [(["--keys", "Db C#"], "same key"), (["--keys", "H"], "not the tonic"), (["--phrases", "9"], "no phrase"),
     (["--instrument", "kazoo"], "no edition")],
)  # fmt: skip
def test_what_is_not_there_is_refused(
    book: Path, tmp_path: Path, arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["session", str(book), "--out", str(out), *arguments]) == 1
    assert says in capsys.readouterr().err
    assert not out.exists()


def test_each_take_is_told_as_it_is_made(book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "_sounds", lambda *_: iter(()))
    monkeypatch.setattr(room, "sheet_pdf", lambda *_: b"%PDF")
    order = SessionOrder(book, tmp_path / "out", keys=("F", "Bb"))
    steps: list[Step] = []
    made = make_session(order, steps.append)
    assert [(step.phase, step.done, step.of, step.said) for step in steps] == [
        ("takes", number, 4, take.title) for number, take in enumerate(made.session.takes, 1)
    ]
    assert make_session(order).files == made.files  # nobody needs to listen
