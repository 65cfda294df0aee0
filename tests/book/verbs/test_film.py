"""`shedbook film`: videos read back; marks against the times of the notes, on the screen and in the sound."""

from __future__ import annotations

import json
import shutil
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from other_ears import onset_times
from shedbook.book.lessons.film_talk import points_of
from shedbook.book.lessons.reader_scores import reader_score
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.verbs import film as room
from shedbook.book.verbs.film import FilmOrder, make_films
from shedbook.cli.main import main
from shedbook.errors import UnknownNameError
from shedbook.film.encoder_door import film_facts, pictures_in, sound_in
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes
from shedbook.sound.arranging.order import Order
from shedbook.sound.track import performance_of
from sound.studio import package_font

pytest.importorskip("av")

LINE = "1/8 d4 f a c5 e d c a4 | 1/4 g 1/8 - 1/8+1/4 b 1/8 d5 f"
FIELDS = {"title": "A test", "changes": "Dm7 | G7", "tempo": 100, "line": LINE}
FPS = 30


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("film") / "book"
    (folder / "phrases").mkdir(parents=True)
    shutil.copy(package_font().path, folder / "font.sf2")
    (folder / "manuscript.toml").write_text(
        'title = "Tests"\nauthor = "Somebody"\nvideos_address = "https://example.org/watch/{nn}.mp4"\n'
        '[tracks]\nsound_font = "font.sf2"\n', encoding="utf-8",
    )  # fmt: skip
    rows = "\n".join(f"{name} = {json.dumps(value)}" for name, value in FIELDS.items())
    (folder / "phrases/01.toml").write_text(rows + "\n", encoding="utf-8")
    return folder


def marked(path: Path) -> list[tuple[float, float] | None]:
    """Return for every frame where its mark stands: the middle of the tinted columns and of its rows."""
    found: list[tuple[float, float] | None] = []
    for _, picture in pictures_in(path):
        every_other = picture[::2, ::2].astype(np.int16)
        yellow = every_other[..., 0] - every_other[..., 2] > 60
        columns = 2 * np.flatnonzero(yellow.sum(axis=0) > 10)
        rows = 2 * np.flatnonzero(yellow.sum(axis=1) > 5)
        there = yellow.sum() > 500  # what an encoder leaves of a mark is a quarter of a hundred or so
        found.append((float(columns.mean()), float(rows.mean())) if there else None)
    return found


def onsets_of(marks: Sequence[tuple[float, float] | None]) -> list[int]:
    """Return the frames on which a mark comes that was not there before."""
    found = []
    for place, mark in enumerate(marks):
        before = marks[place - 1] if place else None
        moved = before is None or (
            mark is not None and abs(mark[0] - before[0]) + abs(mark[1] - before[1]) > 12
        )
        if mark is not None and moved:
            found.append(place)
    return found


@pytest.fixture(scope="module")
def film(book: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("out")
    order = FilmOrder(book, out, screen="square", parts="line", rounds=1, captions=False, marks=False)
    (made,) = list(make_films(order))
    assert made.made
    return made.file


@pytest.fixture(scope="module")
def marks_of_film(film: Path) -> list[int]:
    """The frames of the film on which a mark comes."""
    return onsets_of(marked(film))


def test_marks_come_within_a_frame_of_the_notes(marks_of_film: list[int]) -> None:
    """The times are those of the performance; each mark is found again in the decoded pictures."""
    phrase = phrase_from_fields(FIELDS)
    performance = performance_of(phrase, Order(rounds=1))
    line = next(part for part in performance.parts if part.player == "line")
    starts = [performance.seconds_at(note.start) for note in line.notes]
    found = marks_of_film
    assert len(found) == len(starts) == len(sounding_notes(phrase))
    for frame, start in zip(found, starts, strict=True):
        assert abs(frame / FPS - start) <= 1 / FPS


def test_marks_come_with_the_sound(film: Path, marks_of_film: list[int]) -> None:
    """Onsets by librosa, which takes the attack of a clarinet for later than its start: 20 to 60 ms."""
    sound = sound_in(film).mean(axis=1)
    heard = onset_times(sound, 48_000)
    late = []
    for frame in marks_of_film:
        near = heard[np.abs(heard - frame / FPS) < 0.15]
        if len(near):
            late.append(float(near[np.abs(near - frame / FPS).argmin()] - frame / FPS))
    assert len(late) >= 8
    assert -1 / FPS <= float(np.median(late)) <= 0.08


def test_length_rate_and_chapters(film: Path) -> None:
    """Picture and sound are as long as each other; the numbers are read from the file."""
    facts = film_facts(film)
    assert (facts.width, facts.height, int(facts.fps)) == (1080, 1080, FPS)
    assert facts.seconds == pytest.approx(facts.sound_seconds, abs=0.05)
    assert facts.frames == round(facts.seconds * FPS)
    assert [one.title for one in facts.chapters] == ["Count-in", "Round 1"]
    assert (facts.picture, facts.sound) == ("libdav1d", "opus")


def test_it_is_called_as_the_link_in_the_book_expects(film: Path) -> None:
    assert film.name == "01.mp4"
    listed = json.loads((film.parent / "videos.json").read_text(encoding="utf-8"))
    assert [(row["phrase"], row["file"], row["address"]) for row in listed] == [
        (1, "01.mp4", "https://example.org/watch/01.mp4")
    ]
    assert sorted(path.name for path in film.parent.glob("01.*")) == [
        "01.chapters.txt", "01.chapters.vtt", "01.mp4",
    ]  # fmt: skip


def test_what_was_made_of_the_same_things_is_not_made_again(book: Path, film: Path) -> None:
    order = FilmOrder(book, film.parent, screen="square", parts="line", rounds=1, captions=False, marks=False)
    before = film.stat().st_mtime_ns
    (again,) = list(make_films(order))
    assert not again.made
    assert film.stat().st_mtime_ns == before


def recording(folder: Path) -> tuple[Path, list[float]]:
    """Return an uneven recording of the phrase, played twice: a sine for each note; and when each begins."""
    phrase = phrase_from_fields(FIELDS)
    rng = np.random.default_rng(3)
    sound = np.zeros(48_000 * 14, np.float32)
    rows, starts = [], []
    for begin, quarter in ((1.0, 0.58), (7.3, 0.62)):
        for note in sounding_notes(phrase):
            at = begin + quarter * float(note.start) + float(rng.uniform(-0.02, 0.02))
            first = round(at * 48_000)
            time = np.arange(round(0.9 * quarter * float(note.quarters) * 48_000)) / 48_000
            frequency = 440 * 2 ** ((note.pitch.midi - 69) / 12)
            sound[first : first + len(time)] += 0.3 * np.sin(2 * np.pi * frequency * time)
            rows.append({"bar": note.bar, "beat": float(note.beat), "at_s": round(at, 4)})
            starts.append(at)
    path = folder / "take.wav"
    soundfile.write(path, sound, 48_000)
    text = json.dumps({"recording": "take.wav", "phrase": "1", "key": "C", "notes": rows})
    path.with_suffix(".notes.json").write_text(text, encoding="utf-8")
    return path, starts


def test_a_recording_of_the_authors_is_followed(book: Path, tmp_path: Path) -> None:
    path, starts = recording(tmp_path)
    out = tmp_path / "out"
    arguments = ["--recording", str(path), "--screen", "square", "--no-captions", "--no-marks"]
    assert main(["film", str(book), "--phrases", "1", "--out", str(out), *arguments]) == 0
    found = onsets_of(marked(out / "01.mp4"))
    assert len(found) == len(starts)
    assert max(abs(frame / FPS - start) for frame, start in zip(found, starts, strict=True)) <= 1 / FPS
    assert film_facts(out / "01.mp4").seconds == pytest.approx(14.0, abs=0.05)


def test_a_recording_is_shown_in_the_key_in_which_it_was_heard(book: Path, tmp_path: Path) -> None:
    path, _ = recording(tmp_path)
    notes = path.with_suffix(".notes.json")
    notes.write_text(notes.read_text(encoding="utf-8").replace('"key": "C"', '"key": "Eb"'), encoding="utf-8")
    order = FilmOrder(book, tmp_path, ("1",), recording=path)
    assert room._key_of(order) == "Eb"
    assert room._key_of(replace(order, recording=None)) == ""


def test_recordings_of_the_manuscript_are_taken_where_their_offsets_lie(book: Path, tmp_path: Path) -> None:
    own = tmp_path / "book"
    shutil.copytree(book, own)
    (own / "media").mkdir()
    path, _ = recording(own / "media")
    with (own / "manuscript.toml").open("a", encoding="utf-8") as file:
        file.write('\n[[tracks.recordings]]\nphrase = 1\nfile = "media/take.wav"\n')
    out = tmp_path / "out"
    order = FilmOrder(own, out, screen="square", captions=False, marks=False, fps=10)
    (made,) = list(make_films(order))
    assert made.recording == "take.wav"
    assert made.seconds == pytest.approx(14.0)
    path.with_suffix(".notes.json").unlink()
    (made,) = list(make_films(replace(order, rounds=1, parts="line")))
    assert (made.recording, made.made) == ("", True)


def test_of_two_tempos_the_film_takes_the_one_asked_for(book: Path, tmp_path: Path) -> None:
    own = tmp_path / "book"
    shutil.copytree(book, own)
    (own / "media").mkdir()
    path, _ = recording(own / "media")
    for name in ("fast", "faster"):
        for ending in (".wav", ".notes.json"):
            shutil.copy(path.with_suffix(ending), path.with_name(name + ending))
    with (own / "manuscript.toml").open("a", encoding="utf-8") as file:
        for name, tempo in (("faster", "tempo = 180\n"), ("fast", "tempo = 140\n"), ("take", "")):
            file.write(f'\n[[tracks.recordings]]\nphrase = 1\n{tempo}file = "media/{name}.wav"\n')
    manuscript = open_manuscript(own)
    score = reader_score(manuscript.phrases[0], manuscript)

    def taken(tempo: int | None) -> str:
        order = FilmOrder(own, tmp_path, tempo_bpm=tempo)
        file, _ = room._recording_of(manuscript.phrases[0], score, manuscript, order)
        return "" if file is None else file.stem

    assert [taken(tempo) for tempo in (None, 100, 140, 180, 160)] == ["take", "take", "fast", "faster", ""]


def test_without_its_offsets_a_recording_is_refused(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "take.wav"
    soundfile.write(path, np.zeros(48_000), 48_000)
    out = tmp_path / "out"
    assert main(["film", str(book), "--phrases", "1", "--out", str(out), "--recording", str(path)]) == 1
    assert "--offsets" in capsys.readouterr().err
    assert not list(out.glob("*.mp4"))


def test_talking_points_without_a_round_are_told(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A recording at thrice the tempo has no room to read; what is shown and what is told is all there is."""
    own = tmp_path / "quick"
    own.mkdir()
    path, _ = recording(own)
    notes = path.with_suffix(".notes.json")
    found = json.loads(notes.read_text(encoding="utf-8"))
    half = len(found["notes"]) // 2
    found["notes"] = [{**row, "at_s": round(1 + (row["at_s"] - 1) / 3, 4)} for row in found["notes"][:half]]
    notes.write_text(json.dumps(found), encoding="utf-8")
    sound, rate = soundfile.read(path)
    soundfile.write(path, sound[: 3 * rate], rate)
    out = tmp_path / "out"
    arguments = ["film", str(book), "--phrases", "1", "--out", str(out), "--recording", str(path)]
    for _ in range(2):  # made, then as it was: told both times
        assert main([*arguments, "--screen", "square", "--fps", "10"]) == 0
        told = capsys.readouterr().err
        assert "no round in this video" in told
        left = [line for line in told.splitlines() if line.startswith("  bar ")]
        shown = out / "01.captions.vtt"
        cues = shown.read_text(encoding="utf-8").count("-->") if shown.is_file() else 0
        manuscript = open_manuscript(book)
        score = reader_score(manuscript.phrases[0], manuscript)
        assert left
        assert len(left) + cues == len(points_of(score.account, score.words))


@pytest.mark.parametrize(
    ("arguments", "says"),
    [(["--screen", "tall"], "not a kind of card"), (["--encoder", "av2"], "not an encoder"),
     (["--phrases", "4"], "no phrase"), (["--key", "H"], "not the tonic")],
)  # fmt: skip
def test_what_is_not_there_is_refused(
    book: Path, tmp_path: Path, arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["film", str(book), "--out", str(tmp_path / "out"), *arguments]) == 1
    assert says in capsys.readouterr().err
    assert not list(tmp_path.glob("out/*.mp4"))


def test_a_stop_leaves_nothing_half_written(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(path: Path, *_: object) -> None:
        path.write_bytes(b"half a video")
        raise KeyboardInterrupt

    monkeypatch.setattr(room, "write_film", stopped)
    out = tmp_path / "out"
    order = FilmOrder(book, out, screen="square", parts="line", rounds=1)
    with pytest.raises(KeyboardInterrupt):
        list(make_films(order))
    assert [path.name for path in out.iterdir() if not path.name.startswith(".")] == []
    assert list((out / ".store/unfinished").iterdir()) == []


def test_a_recording_is_of_one_phrase_and_videos_are_of_all(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def begun(*_: object) -> None:
        raise KeyboardInterrupt

    two = tmp_path / "two"
    shutil.copytree(book, two)
    shutil.copy(two / "phrases/01.toml", two / "phrases/02.toml")
    order = FilmOrder(two, tmp_path / "out", screen="square", parts="line", rounds=1)
    with pytest.raises(UnknownNameError, match="of one phrase"):
        list(make_films(replace(order, recording=tmp_path / "take.wav")))
    monkeypatch.setattr(room, "film_names", begun)
    with pytest.raises(KeyboardInterrupt):  # nothing was refused
        list(make_films(order))
