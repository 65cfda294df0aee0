"""Tracks are made with the book: once, as far as they have changed, and never half."""

import os
import shutil
import signal
import subprocess
import time
from pathlib import Path
from typing import NamedTuple

import mutagen
import numpy as np
import pytest
import soundfile

from book.builds import command, run, run_apart, write_manuscript, write_phrase
from shedbook.book.ground.progress import Step
from shedbook.book.manuscript.request import Request
from shedbook.book.tracks.make import _play_all
from shedbook.book.tracks.plan import FOLDER
from shedbook.book.verbs.build import Built, build
from shedbook.book.workshop.output_folder import MARKER, STORE
from shedbook.book.workshop.store import Store
from shedbook.errors import ManuscriptError, UnknownNameError
from shedbook.sound.audio import sound_fonts as fonts
from shedbook.sound.tables.track_kinds import KINDS

TRACKS = '[tracks]\nkinds = ["line", "click"]\nformats = "{formats}"\nrounds = 1\n{more}'
STEMS = (
    "001-01-3-132-low-tide-c-minor-line-alone", "001-01-4-132-low-tide-c-minor-line-with-click",
    "002-01-3-120-half-past-the-pier-c-major-line-alone",
    "002-01-4-120-half-past-the-pier-c-major-line-with-click",
    "003-01-3-096-salt-and-rope-c-major-line-alone",
    "003-01-4-096-salt-and-rope-c-major-line-with-click",
)  # fmt: skip


class Book(NamedTuple):
    folder: Path
    out: Path

    def build(self, **options: object) -> Built:
        return build(Request(self.folder, self.out, **options))  # type: ignore[arg-type]

    def ask(self, formats: str = "mid", more: str = "") -> None:
        """Write manuscript.toml anew with other tracks."""
        text = TRACKS.format(formats=formats, more=more)
        (self.folder / "manuscript.toml").write_text(
            f'title = "Tidal studies"\nauthor = "A. Writer"\n{text}', encoding="utf-8"
        )

    @property
    def tracks(self) -> dict[str, bytes]:
        return {path.name: path.read_bytes() for path in sorted((self.out / FOLDER).iterdir())}

    @property
    def dates(self) -> dict[str, int]:
        return {path.name: path.stat().st_mtime_ns for path in (self.out / FOLDER).iterdir()}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """A book with MIDI tracks that has been built once; tests read it and change nothing."""
    folder = tmp_path_factory.mktemp("built")
    book = Book(write_manuscript(folder / "tides"), folder / "out")
    book.ask()
    book.build()
    return book


@pytest.fixture
def book(built: Book, tmp_path: Path) -> Book:
    """The same book, to be changed."""
    shutil.copytree(built.folder, tmp_path / "tides")
    shutil.copytree(built.out, tmp_path / "out")
    return Book(tmp_path / "tides", tmp_path / "out")


def names(*stems: str, ending: str = "mid") -> list[str]:
    return [f"{stem}.{ending}" for stem in stems]


# What is made, and made again.


def test_tracks_lie_beside_the_book(built: Book) -> None:
    assert sorted(path.name for path in built.out.iterdir()) == sorted(
        [MARKER, STORE, FOLDER, "tides-concert.pdf"]
    )
    assert list(built.tracks) == names(*STEMS)
    assert all(content.startswith(b"MThd") for content in built.tracks.values())


def test_a_book_without_the_table_has_no_tracks(tmp_path: Path) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    assert book.build(keys=("C",)).tracks == ()
    assert not (book.out / FOLDER).exists()


def test_a_second_build_makes_none(book: Book) -> None:
    before = book.dates
    again = book.build()
    assert again.jobs_run == 0
    assert [path.name for path in again.tracks] == names(*STEMS)
    assert book.dates == before


def test_an_edited_phrase_makes_its_own_tracks_again(book: Book) -> None:
    before = book.dates
    write_phrase(book.folder, 2, line="1/8 b4 g d5 f e d b4 g | 1/1 g4")
    steps: list[Step] = []
    build(Request(book.folder, book.out), steps.append)
    assert [step for step in steps if step.phase == "tracks"] == [Step("tracks", 1, 2), Step("tracks", 2, 2)]
    assert {name for name, date in book.dates.items() if before[name] != date} == set(names(*STEMS[4:]))


def test_a_commentary_makes_no_track_again(book: Book) -> None:
    before = book.dates
    write_phrase(book.folder, 2, extra='links = { here = "https://example.org" }\n')
    assert book.build().jobs_run > 0
    assert book.dates == before


def test_tracks_that_the_book_no_longer_has_are_taken_away_and_others_stay(book: Book) -> None:
    own = book.out / FOLDER / "my-own.mid"
    own.write_bytes(b"mine")
    changed = book.out / FOLDER / names(*STEMS)[5]
    changed.write_bytes(b"also mine")
    book.ask(more='phrases = [1, "half past the pier"]\n')
    done = book.build()
    assert [path.name for path in done.tracks] == names(*STEMS[:4])
    assert sorted(book.tracks) == sorted([*names(*STEMS[:4]), changed.name, own.name])
    assert changed.read_bytes() == b"also mine"


def test_a_book_that_has_no_tracks_any_more_keeps_none_but_the_author_s(book: Book) -> None:
    own = book.out / FOLDER / "my-own.mid"
    own.write_bytes(b"mine")
    changed = book.out / FOLDER / names(*STEMS)[5]
    changed.write_bytes(b"also mine")
    (book.folder / "manuscript.toml").write_text('title = "Tidal studies"\nauthor = "A. Writer"\n')
    assert book.build(tracks=("none",)).tracks == ()
    assert set(book.tracks) == {*names(*STEMS), own.name}
    assert book.build().tracks == ()
    assert book.tracks == {own.name: b"mine", changed.name: b"also mine"}


def test_the_folder_of_tracks_goes_with_the_last_of_them(book: Book) -> None:
    (book.folder / "manuscript.toml").write_text('title = "Tidal studies"\nauthor = "A. Writer"\n')
    book.build()
    assert not (book.out / FOLDER).exists()
    book.ask()
    assert [path.name for path in book.build().tracks] == names(*STEMS)


def test_a_track_that_was_taken_away_or_changed_is_put_back(book: Book, built: Book) -> None:
    first, second = (book.out / FOLDER / name for name in names(*STEMS[:2]))
    first.unlink()
    second.write_bytes(b"MThd")
    assert book.build().jobs_run == 0
    assert book.tracks == built.tracks


def test_same_manuscript_same_bytes(book: Book, built: Book) -> None:
    shutil.rmtree(book.out)
    book.build(jobs=1)
    assert book.tracks == built.tracks


# Part of a book.


def test_part_of_a_book_leaves_the_numbers_alone(tmp_path: Path) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 2), tmp_path / "out")
    book.ask("mp3", 'keys = "all"\n')
    done = book.build(phrases=("2",), keys=("F",), tracks=("line",))
    (track,) = done.tracks
    assert track.name == "002-02-3-120-half-past-the-pier-f-major-line-alone.mp3"
    # Two phrases in twelve keys, two kinds each.
    tags = mutagen.File(track)
    assert str(tags["TRCK"]) == "27/48"
    assert str(tags["TBPM"]) == "120"


def test_a_part_takes_nothing_away(book: Book) -> None:
    before = book.tracks
    book.build(phrases=("2",))
    book.build(keys=("Eb",), tracks=("none",))
    book.build(sample=1)
    assert book.tracks == before


@pytest.mark.parametrize(("asked", "count"), [(("none",), 0), (("Play-along",), 3), (("tuning", "line"), 4)])
def test_other_tracks_can_be_asked_for(book: Book, asked: tuple[str, ...], count: int) -> None:
    assert len(book.build(tracks=asked).tracks) == count
    assert set(names(*STEMS)) <= set(book.tracks)


def test_all_tracks(tmp_path: Path) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    book.ask()
    # Four bars and three crossings between them have loops; of no key are the one through all and the tuning.
    in_a_key = sum(not row.excerpt and not row.all_keys for row in KINDS) + 4 + 3
    assert len(book.build(keys=("C",), tracks=("all",)).tracks) == in_a_key
    assert len(book.build(tracks=("all",)).tracks) == in_a_key + 2


def test_a_kind_that_nobody_knows_is_named(built: Book, tmp_path: Path) -> None:
    with pytest.raises(UnknownNameError, match="playalong") as caught:
        Book(built.folder, tmp_path / "out").build(tracks=("playalong",))
    assert "play-along" in caught.value.hint


def test_a_phrase_that_is_not_there_is_named(book: Book) -> None:
    book.ask(more="phrases = [9]\n")
    with pytest.raises(ManuscriptError, match='no phrase "9"'):
        book.build()


# What is not text: recordings and fonts.


def with_recording(tmp_path: Path, hertz: float = 330) -> Book:
    folder = tmp_path / "tides"
    book = Book(folder if folder.exists() else write_manuscript(folder, 1), tmp_path / "out")
    (folder / "media").mkdir(exist_ok=True)
    wave = 0.1 * np.sin(2 * np.pi * hertz * np.arange(48_000) / 48_000)
    soundfile.write(folder / "media/own.wav", wave, 48_000)
    (folder / "manuscript.toml").write_text(
        'title = "Tidal studies"\nauthor = "A. Writer"\n[tracks]\n'
        'kinds = ["demonstration"]\nformats = "flac"\n'
        '[[tracks.recordings]]\nphrase = 1\nfile = "media/own.wav"\n',
        encoding="utf-8",
    )
    return book


def test_another_recording_is_noticed(tmp_path: Path) -> None:
    book = with_recording(tmp_path)
    first = book.build(keys=("C",))
    assert first.played_with == ("the author's own recording",)
    assert book.build(keys=("C",)).jobs_run == 0
    before = book.tracks
    with_recording(tmp_path, 440)
    assert book.build(keys=("C",)).jobs_run == 1
    assert book.tracks != before


UNUSED = [
    pytest.param('key = "D"\n', 9, id="a key without a track"),
    pytest.param("tempo = 90\n", 9, id="a tempo without a track"),
    pytest.param("[[tracks.recordings]]\nphrase = 1\nfile = 'media/own.wav'\n", 10, id="a second one"),
]


@pytest.mark.parametrize(("more", "line"), UNUSED)
def test_a_recording_that_replaces_no_track_is_said(tmp_path: Path, more: str, line: int) -> None:
    book = with_recording(tmp_path)
    with (book.folder / "manuscript.toml").open("a") as file:
        file.write(more)
    for _ in range(2):  # a build that finds nothing to do says it too
        done = run("build", book.folder, "--out", book.out, "--keys", "C")
        assert done.returncode == 0
        assert 'The recording "media/own.wav" takes the place of no track.' in done.stderr
        assert "Its demonstrations are in C minor, at 132 beats a minute." in done.stderr
        assert f"manuscript.toml:{line}:" in done.stderr
    checked = run("check", book.folder)
    assert checked.returncode == 0
    assert f"manuscript.toml:{line}:" in checked.stdout
    assert "warning (unused-recording)" in checked.stdout
    assert "Its demonstrations are in C minor, at 132 beats a minute." in checked.stdout


def test_a_recording_of_what_is_not_demonstrated_is_said(tmp_path: Path) -> None:
    book = with_recording(tmp_path)
    path = book.folder / "manuscript.toml"
    path.write_text(path.read_text().replace('"demonstration"', '"line"'))
    (finding,) = (one for one in book.build(keys=("C",)).findings if one.rule == "unused-recording")
    assert "no demonstration" in finding.mend


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("phrase = 1", 'phrase = "Lowtide"', 7, 'There is no phrase "Lowtide"'),
        ("media/own.wav", "media/none.wav", 8, '"media/none.wav" is not there'),
        ("media/own.wav", "../own.wav", 8, "../own.wav"),
        ('kinds = ["demonstration"]', 'kinds = "demonstration"\nphrases = [9]', 5, 'no phrase "9"'),
    ],
)
def test_a_recording_that_leads_nowhere_is_an_error_with_its_place(
    tmp_path: Path, old: str, new: str, line: int, said: str
) -> None:
    book = with_recording(tmp_path)
    path = book.folder / "manuscript.toml"
    path.write_text(path.read_text().replace(old, new))
    done = run("build", book.folder, "--out", book.out, "--keys", "C")
    assert done.returncode == 1
    assert said in done.stderr
    assert f"manuscript.toml:{line}:" in done.stderr
    checked = run("check", book.folder)
    assert checked.returncode == 1
    assert said in checked.stdout
    assert f"manuscript.toml:{line}:" in checked.stdout


@pytest.mark.parametrize(
    ("tracks", "line"),
    [
        ("rounds = 0\n", 6), ("count_in = -1\n", 6), ("seed = 'x'\n", 6), ("nothing = 1\n", 6),
        ("[[tracks.recordings]]\nphrase = 1\nfile = 'media/own.wav'\nkey = 'H'\n", 9),
        ("[[tracks.recordings]]\nphrase = 1\nfile = 'media/own.wav'\n"
         "[[tracks.recordings]]\nphrase = 1\nfile = 'media/own.wav'\ntempo = 3\n", 12),
    ],
)  # fmt: skip
def test_an_error_of_tracks_points_to_the_line_of_its_key(tmp_path: Path, tracks: str, line: int) -> None:
    book = with_recording(tmp_path)
    path = book.folder / "manuscript.toml"
    path.write_text("\n".join(path.read_text().splitlines()[:5]) + f"\n{tracks}")
    done = run("check", book.folder)
    assert done.returncode == 1
    assert f"manuscript.toml:{line}:" in done.stderr


def test_another_font_is_noticed(tmp_path: Path) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    font = next(path for path in fonts.font_places()[::-1] if path.is_file())
    own = book.folder / "own.sf2"
    shutil.copyfile(font, own)
    book.ask("flac", 'sound_font = "own.sf2"\n')
    first = book.build(keys=("C",))
    assert "own" in first.played_with[0]
    assert book.build(keys=("C",)).jobs_run == 0
    own.write_bytes(own.read_bytes() + bytes(100))
    assert book.build(keys=("C",)).jobs_run == 2
    os.utime(own)
    assert book.build(keys=("C",)).jobs_run == 0  # looked at, but it is the same font


# When nothing sounds.


def test_without_a_synthesiser_there_is_midi_and_a_warning(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    book.ask("flac")
    build_it = ("build", book.folder, "--out", book.out, "--keys", "C")
    assert run(*build_it).returncode == 0
    sounding = book.tracks
    write_phrase(book.folder, 0, line="1/8 g4 ab c5 eb d f ab g | 1/1 f4 | 1/2 eb4 g | 1/1 c5")
    for name in ("fluidsynth", "midirenderer"):
        (tmp_path / "none").mkdir(exist_ok=True)
        (tmp_path / "none" / f"{name}.py").write_text('raise ImportError("not here")\n', encoding="utf-8")
    with monkeypatch.context() as patch:
        patch.setenv("PYTHONPATH", str(tmp_path / "none"))
        for _ in range(2):  # it is tried again each time
            done = run_apart(*build_it)
            assert done.returncode == 0
            assert '2 tracks, the first of them "Low tide: line alone' in done.stderr
            assert "apt-get install" in done.stderr
            # What sounded before is left where it was.
            assert {name: book.tracks[name] for name in sounding} == sounding
            assert set(book.tracks) == {*names(*STEMS[:2]), *sounding}
    assert "apt-get" not in run(*build_it).stderr
    assert book.tracks.keys() == sounding.keys()
    assert book.tracks != sounding


@pytest.mark.parametrize(
    ("content", "said"), [(b"no font", "own.sf2 is no SoundFont"), (None, "own.sf2 cannot be read")]
)
@pytest.mark.parametrize("verb", ["check", "build"])
def test_a_sound_font_that_is_not_there_is_an_error(
    tmp_path: Path, verb: str, content: bytes | None, said: str
) -> None:
    """With file and line, and no MIDI in the place of audio."""
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    if content is not None:
        (book.folder / "own.sf2").write_bytes(content)
    book.ask("flac", 'sound_font = "own.sf2"\n')
    more = ("--out", book.out, "--keys", "C") if verb == "build" else ()
    done = run(verb, book.folder, *more)
    assert done.returncode == 1
    assert said in done.stdout + done.stderr
    assert "manuscript.toml:" in done.stdout + done.stderr
    assert not book.out.exists() or not (book.out / FOLDER).exists()


def test_the_command_says_what_the_tracks_were_played_with(tmp_path: Path) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1), tmp_path / "out")
    book.ask("flac")
    for _ in range(2):
        done = run("build", book.folder, "--out", book.out, "--keys", "C", "--tracks", "click")
        assert f"1 track in {book.out / FOLDER}. Sound: " in done.stderr
    assert "nothing had changed" in done.stderr


def test_a_track_that_ends_its_worker_costs_the_others_nothing(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.rmtree(book.out)
    monkeypatch.setattr("shedbook.book.tracks.make._play_all", _ends_at_the_click)
    done = book.build(phrases=("1-2",), jobs=1)
    assert [path.name for path in done.tracks] == names(STEMS[0], STEMS[2])
    (warning,) = done.warnings
    assert "ended the program" in warning.message
    monkeypatch.undo()
    assert [path.name for path in book.build(phrases=("1-2",)).tracks] == names(*STEMS[:4])


def _ends_at_the_click(calls: tuple[object, ...]) -> object:
    if any(call.order.given.kind == "click" for call in calls):  # type: ignore[attr-defined]
        os._exit(3)
    return _play_all(calls)  # type: ignore[arg-type]


# Stopping.


@pytest.mark.parametrize(
    ("number", "status"),  # SIGTERM goes the way of SIGINT, and test_build.py sends it too
    [(signal.SIGINT, 130), (signal.SIGKILL, -signal.SIGKILL)],
)
def test_a_stopped_build_leaves_no_track_half_written_and_goes_on(
    tmp_path: Path, number: int, status: int
) -> None:
    book = Book(write_manuscript(tmp_path / "tides"), tmp_path / "out")
    book.ask("flac")
    process = subprocess.Popen(
        command("build", book.folder, "--out", book.out, "--keys", "C", "--jobs", "1"),
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    for _ in range(24_000):  # two minutes on a busy machine
        if (book.out / FOLDER).is_dir() and list((book.out / FOLDER).glob("*.flac")):
            break
        time.sleep(0.005)
    os.kill(process.pid, number)
    _, errors = process.communicate(timeout=30)
    assert process.returncode == status
    assert "Traceback" not in errors
    there = book.tracks
    assert 1 <= len(there) < 6
    for name in there:
        soundfile.read(book.out / FOLDER / name)  # raises if it is cut short
    store = Store(book.out / STORE)
    for path in (store.folder / "sound").iterdir():
        soundfile.read(path)

    done = book.build(keys=("C",))
    assert done.jobs_run <= 6 - len(there)
    assert {name: book.tracks[name] for name in there} == there
    assert list(book.tracks) == names(*STEMS, ending="flac")
    assert list((store.folder / "unfinished").iterdir()) == []
