"""From the recording session to the film: what one verb writes, the next one reads.

The book and what is played are invented. What is checked is known from outside: the seconds at which the
tones were put into the recording, and the frames on which a mark stands in the decoded video.
"""

from __future__ import annotations

import json
import shutil
import tomllib
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest
import soundfile
from numpy.typing import NDArray

from listen.tones import HIGH_TIDE, LOW_TIDE, RATE, Tone, sound_of, tones_of
from shedbook.cli.main import main
from shedbook.phrase.line_text import print_line
from sound.studio import package_font

OWN, FAST = 120, 144
FPS = 30


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two invented phrases."""
    root = tmp_path_factory.mktemp("lesson") / "tides"
    (root / "phrases").mkdir(parents=True)
    shutil.copy(package_font().path, root / "font.sf2")
    (root / "manuscript.toml").write_text(
        'title = "Tides"\nauthor = "Invented"\n[tracks]\nsound_font = "font.sf2"\n', encoding="utf-8"
    )
    rows = (("Low tide", LOW_TIDE, "Dm7b5 | G7b9 | Cm6"), ("High tide", HIGH_TIDE, "Dm7 | G7 | Cmaj7"))
    for number, (title, phrase, changes) in enumerate(rows, start=1):
        text = (
            f'title = "{title}"\ntempo = {OWN}\nchanges = "{changes}"\nline = "{print_line(phrase.bars)}"\n'
        )
        (root / "phrases" / f"{number:02}.toml").write_text(text, encoding="utf-8")
    return root


@pytest.fixture(scope="module")
def session(book: Path) -> Path:
    out = book.parent / "session"
    arguments = ["--phrases", "1", "--tempos", f"{OWN},{FAST}"]
    assert main(["session", str(book), "--out", str(out), *arguments]) == 0
    return out


def slate(session: Path, number: int) -> NDArray[np.float32]:
    samples, rate = soundfile.read(session / f"slates/{number:03}.wav", dtype="float32")
    assert rate == RATE
    return np.asarray(samples, np.float32) * np.float32(0.6)


def recorded(session: Path, path: Path, takes: Sequence[tuple[int, Sequence[Tone], float]]) -> list[float]:
    """Write one recording of takes, each its slate, so many seconds of room, and the tones; return where
    the tones of each begin."""
    pieces, begins, passed = [], [], 0
    dice = np.random.default_rng(5)
    for number, tones, apart in takes:
        for piece in (slate(session, number), np.zeros((round(apart * RATE), 2), np.float32)):
            pieces.append(piece)
            passed += len(piece)
        begins.append(passed / RATE + tones[0][0])
        pieces += [sound_of(tones), np.zeros((3 * RATE, 2), np.float32)]
        passed += len(pieces[-1]) + len(pieces[-2])
    sound = np.concatenate(pieces)
    sound += dice.normal(0, 0.0003, sound.shape).astype(np.float32)
    soundfile.write(path, sound, RATE)
    return begins


def first_sound(path: Path) -> float:
    samples, rate = soundfile.read(path)
    return float(np.flatnonzero(np.abs(samples).max(axis=1) > 0.05)[0] / rate)


@pytest.fixture(scope="module")
def kept(book: Path, session: Path) -> Path:
    """The book with the two takes of its session kept."""
    takes = [(1, tones_of(LOW_TIDE, start=0.05), 0.5), (2, tones_of(LOW_TIDE, tempo=FAST, start=0.05), 0.5)]
    recorded(session, session / "morning.wav", takes)
    assert main(["takes", str(book), str(session / "morning.wav"), "--keep"]) == 0
    return book


def test_the_kept_takes_are_called_what_the_sheet_says(kept: Path, session: Path) -> None:
    """Two tempos of one key do not collide: the second has its tempo in its name and in manuscript.toml."""
    listed = json.loads((session / "takes.json").read_text(encoding="utf-8"))
    assert [row["file"] for row in listed] == [
        "media/01-low-tide-c-minor.wav", f"media/01-low-tide-c-minor-{FAST}.wav",
    ]  # fmt: skip
    assert all((kept / row["file"]).is_file() for row in listed)
    entries = tomllib.loads((kept / "manuscript.toml").read_text(encoding="utf-8"))["tracks"]["recordings"]
    assert [(one["file"], one.get("tempo")) for one in entries] == [
        (listed[0]["file"], None), (listed[1]["file"], FAST),
    ]  # fmt: skip
    assert main(["check", str(kept), "--quiet"]) == 0


@pytest.mark.parametrize(
    ("tempo", "name"), [(None, "01-low-tide-c-minor"), (FAST, f"01-low-tide-c-minor-{FAST}")]
)
def test_the_mark_stands_within_a_frame_of_the_note(
    kept: Path, tmp_path: Path, tempo: int | None, name: str
) -> None:
    pytest.importorskip("av")
    from book.verbs.test_film import marked, onsets_of  # noqa: PLC0415 - it needs av
    from shedbook.book.verbs.film import FilmOrder, make_films  # noqa: PLC0415

    order = FilmOrder(
        kept, tmp_path, ("1",), screen="square", captions=False, marks=False, tempo_bpm=tempo, fps=FPS
    )
    (film,) = list(make_films(order))
    assert film.recording == f"{name}.wav"
    tones = tones_of(LOW_TIDE, tempo=tempo or OWN)
    sounds_at = first_sound(kept / "media" / film.recording)
    found = onsets_of(marked(film.file))
    assert len(found) == len(tones)
    late = [
        frame / FPS - (sounds_at + tone[0] - tones[0][0]) for frame, tone in zip(found, tones, strict=True)
    ]
    assert max(map(abs, late)) <= 1 / FPS
