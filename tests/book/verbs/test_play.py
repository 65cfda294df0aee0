"""`shedbook play`: one phrase as a file or at once, what is refused, and that a refusal changes nothing."""

from __future__ import annotations

import argparse
import io
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path

import mido
import pytest
import soundfile

from shedbook.book.verbs.play import PlayRequest, play
from shedbook.cli.verbs import play as verb
from shedbook.errors import OutputError, ShedbookError, SoundError, UnknownNameError
from shedbook.sound.audio import synthesiser as synth_door
from shedbook.sound.audio import system_player as listen_door
from shedbook.sound.audio.soundfile_door import decode
from shedbook.sound.audio.tables.formats import FORMATS, TAIL_SECONDS
from shedbook.sound.audio.tables.system_players import LISTENERS
from sound.studio import independent_levels, package_font

ENDINGS = [row.ending for row in FORMATS]
PHRASE = """\
title = "A test"
changes = "Dm7 | G7 | Cmaj7 | %"
tempo = 120
line = "1/8 d4 f a c5 e d c a4 | g b d5 f a g f d | 1/4 e g 1/2 c | 1/1 e"
"""


@pytest.fixture
def phrase(tmp_path: Path) -> Path:
    file = tmp_path / "a-test.toml"
    file.write_text(PHRASE)
    return file


@pytest.fixture
def mute(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take both synthesisers away."""
    synth_door._kept.cache_clear()
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    monkeypatch.setitem(sys.modules, "midirenderer", None)


def run(*arguments: str) -> int:
    parser = argparse.ArgumentParser()
    verb.add_arguments(parser)
    return verb.run(parser.parse_args(arguments))


@pytest.mark.parametrize("ending", ENDINGS)
def test_every_ending(phrase: Path, tmp_path: Path, ending: str, capsys: pytest.CaptureFixture[str]) -> None:
    """One bar counted in, four bars, one of ending, at 120: 12 s; then the tail."""
    out = tmp_path / f"new/folder/x{ending}"
    assert run(str(phrase), "--out", str(out)) == 0
    said = capsys.readouterr()
    assert said.out == f"{out}\n"
    assert said.err.startswith("12.0 s")
    if ending == ".mid":
        assert mido.MidiFile(out).length == pytest.approx(12.0)
        return
    assert "LUFS" in said.err
    assert " with " in said.err
    seconds = soundfile.info(out).frames / soundfile.info(out).samplerate
    assert seconds == pytest.approx(12 + TAIL_SECONDS, abs=0.06 if ending == ".mp3" else 0.005)
    lufs, peak = independent_levels(decode(out.read_bytes()))
    assert lufs == pytest.approx(-16, abs=0.2)
    assert peak <= -0.9


def channels(path: Path) -> set[int]:
    return {
        message.channel
        for track in mido.MidiFile(path).tracks
        for message in track
        if message.type == "note_on"
    }


@pytest.mark.parametrize(
    ("parts", "expected", "seconds"),
    [("both", {0, 1, 2, 9}, 12.0), ("trio", {1, 2, 9}, 12.0), ("line", {0, 9}, 10.0)],
)
def test_parts_are_channels(
    phrase: Path, tmp_path: Path, parts: str, expected: set[int], seconds: float
) -> None:
    """A channel a player; the line alone is counted in by the drummer's sticks, and has no ending."""
    out = tmp_path / "x.mid"
    run(str(phrase), "--parts", parts, "--out", str(out))
    assert channels(out) == expected
    assert mido.MidiFile(out).length == pytest.approx(seconds)


def test_key_tempo_and_rounds(phrase: Path, tmp_path: Path) -> None:
    """In E flat at 60, twice: one, eight and one bar of 4 s."""
    out = tmp_path / "x.mid"
    assert run(str(phrase), "--key", "Eb", "--tempo", "60", "--rounds", "2", "--out", str(out)) == 0
    file = mido.MidiFile(out)
    assert file.length == pytest.approx(40.0)
    line = [message.note for message in file.tracks[1] if message.type == "note_on"]
    assert line[:4] == [65, 68, 72, 75]  # d4 f a c5, a minor third higher
    assert len(line) == 2 * 20


@pytest.mark.parametrize("wanted", ["2", "the second"])
def test_a_phrase_of_several(tmp_path: Path, wanted: str) -> None:
    tables = PHRASE.replace("A test", "The first"), PHRASE.replace("A test", "The second")
    (tmp_path / "two.toml").write_text("".join(f"[[phrase]]\n{table}" for table in tables))
    play(PlayRequest(tmp_path / "two.toml", tmp_path / "x.mid", phrase=wanted))
    assert mido.MidiFile(tmp_path / "x.mid").tracks[0].name == "The second"


def test_the_manuscript_s_own_wishes_hold(phrase: Path, tmp_path: Path) -> None:
    """Title of the book, author, loudness, SoundFont and instruments come from manuscript.toml."""
    book = tmp_path / "book"
    (book / "phrases").mkdir(parents=True)
    shutil.copy(phrase, book / "phrases/01.toml")
    shutil.copy(package_font().path, book / "mine.sf2")
    (book / "manuscript.toml").write_text(
        'title = "Ten"\nauthor = "A. N. Other"\n'
        '[tracks]\nloudness = -20\nsound_font = "mine.sf2"\nline_instrument = "trumpet"\n'
    )
    played = play(PlayRequest(book, tmp_path / "x.flac"))
    assert "mine" in played.played_with
    content = (tmp_path / "x.flac").read_bytes()
    assert independent_levels(decode(content))[0] == pytest.approx(-20, abs=0.2)
    with soundfile.SoundFile(io.BytesIO(content)) as file:
        assert (file.album, file.artist, file.title) == ("Ten", "A. N. Other", "A test in C major")
        assert "mine" in file.comment
    play(PlayRequest(book, tmp_path / "x.mid"))
    programs = [
        message.program
        for message in mido.MidiFile(tmp_path / "x.mid").tracks[1]
        if message.type == "program_change"
    ]
    assert programs == [56]


def test_the_same_bytes_each_time(phrase: Path, tmp_path: Path) -> None:
    for name in ("one.opus", "two.opus"):
        play(PlayRequest(phrase, tmp_path / name))
    assert (tmp_path / "one.opus").read_bytes() == (tmp_path / "two.opus").read_bytes()


REFUSED = [
    pytest.param({"out": "x.mp4"}, OutputError, ".mp3", id="an unknown ending"),
    pytest.param({"out": "x"}, OutputError, "ending", id="no ending"),
    pytest.param({"out": "folder.mp3"}, OutputError, "is a folder", id="a folder"),
    pytest.param({"out": "."}, OutputError, "is a folder", id="a folder without an ending"),
    pytest.param({"out": "old.mp3/x.mp3"}, OutputError, "cannot be written", id="a file for a folder"),
    pytest.param({"key": "H"}, UnknownNameError, "tonic", id="no key"),
    pytest.param({"phrase": "9"}, UnknownNameError, "no phrase", id="no such phrase"),
    pytest.param({"tempo_bpm": 0}, ShedbookError, "tempo", id="no tempo"),
    pytest.param({"tempo_bpm": 1000}, ShedbookError, "tempo", id="too fast"),
    pytest.param({"rounds": 0}, ShedbookError, "rounds", id="no round"),
    pytest.param({"rounds": 1000}, ShedbookError, "rounds", id="too many rounds"),
    pytest.param({"file": "missing.toml"}, ShedbookError, "no file", id="no phrase file"),
    pytest.param({"font": "missing.sf2"}, SoundError, "cannot be read", id="no font"),
    pytest.param({"font": "missing.sf2"}, SoundError, "leave --font out", id="no font: what to do"),
]  # fmt: skip


@pytest.mark.parametrize(("wrong", "error", "said"), REFUSED)
def test_what_is_refused_changes_nothing(
    phrase: Path, tmp_path: Path, wrong: dict[str, object], error: type[ShedbookError], said: str
) -> None:
    (tmp_path / "old.mp3").write_bytes(b"old")
    (tmp_path / "old.mid").write_bytes(b"old")
    (tmp_path / "folder.mp3").mkdir()
    asked: dict[str, object] = {"file": phrase, "out": tmp_path / "old.mp3"}
    for name, value in wrong.items():
        asked[name] = tmp_path / value if name in ("file", "out", "font") else value  # type: ignore[operator]
    with pytest.raises(error) as caught:
        play(PlayRequest(**asked))  # type: ignore[arg-type]
    assert said in f"{caught.value.message} {caught.value.hint}"
    assert {path.name for path in tmp_path.iterdir()} == {"a-test.toml", "old.mp3", "old.mid", "folder.mp3"}
    assert (tmp_path / "old.mp3").read_bytes() == (tmp_path / "old.mid").read_bytes() == b"old"


def test_a_phrase_that_cannot_be_read_is_refused_with_its_place(phrase: Path, tmp_path: Path) -> None:
    phrase.write_text(PHRASE.replace("1/4 e g", "1/4 e h"))
    with pytest.raises(ShedbookError) as caught:
        play(PlayRequest(phrase, tmp_path / "x.mp3"))
    assert "bar 3" in str(getattr(caught.value, "place", ""))


@pytest.mark.usefixtures("mute")
def test_without_a_synthesiser_midi_is_made_and_said(phrase: Path, tmp_path: Path) -> None:
    with pytest.raises(SoundError) as caught:
        play(PlayRequest(phrase, tmp_path / "x.mp3"))
    assert str(tmp_path / "x.mid") in caught.value.message
    assert "apt-get install" in caught.value.hint
    assert mido.MidiFile(tmp_path / "x.mid").length == pytest.approx(12.0)
    assert not (tmp_path / "x.mp3").exists()


@pytest.mark.usefixtures("mute")
def test_midi_needs_no_synthesiser(phrase: Path, tmp_path: Path) -> None:
    assert play(PlayRequest(phrase, tmp_path / "x.mid")).played_with == ""


def test_where_nothing_plays_sound_it_is_said_what_to_do(
    phrase: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", "")
    monkeypatch.setattr(sys, "platform", "linux")
    with pytest.raises(SoundError) as caught:
        play(PlayRequest(phrase))
    assert "--out" in caught.value.hint


def program(folder: Path, body: str) -> None:
    """Write a program that stands in for the system's own."""
    path = folder / "aplay"
    path.write_text(f"#!/bin/sh\n{body}\n")
    path.chmod(0o755)


@pytest.mark.skipif(sys.platform == "win32", reason="a shell script stands in for the program")
def test_without_a_file_it_is_played(phrase: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    program(tmp_path, f"cat > {tmp_path}/heard.wav")
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    monkeypatch.setattr(listen_door, "LISTENERS", [row for row in LISTENERS if row.program == "aplay"])
    assert run(str(phrase)) == 0
    assert soundfile.info(tmp_path / "heard.wav").duration == pytest.approx(12 + TAIL_SECONDS, abs=0.005)


@pytest.mark.skipif(sys.platform == "win32", reason="a shell script stands in for the program")
def test_a_device_that_cannot_be_opened_is_an_error(
    phrase: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program(tmp_path, "echo no card 0 >&2; exit 1")
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    monkeypatch.setattr(listen_door, "LISTENERS", [row for row in LISTENERS if row.program == "aplay"])
    with pytest.raises(SoundError, match="no card 0"):
        play(PlayRequest(phrase))


@pytest.mark.skipif(sys.platform == "win32", reason="a shell script stands in for the program")
def test_the_next_program_hears_all_of_it(
    phrase: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that takes a piece and gives up, then one that can only play a file."""
    program(tmp_path, "head -c 50000 > /dev/null; exit 1")
    last = tmp_path / "pw-play"
    last.write_text(f'#!/bin/sh\ncp "$1" {tmp_path}/heard.wav\n')
    last.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    rows = [row for row in LISTENERS if row.program in ("aplay", "pw-play")]
    monkeypatch.setattr(listen_door, "LISTENERS", rows)
    assert run(str(phrase)) == 0
    assert soundfile.info(tmp_path / "heard.wav").duration == pytest.approx(12 + TAIL_SECONDS, abs=0.005)


def test_the_first_sound_comes_before_the_rest_is_made(phrase: Path) -> None:
    """What hears gets a small piece; a loop goes round and round."""
    heard: list[tuple[int, int]] = []

    def hear(pieces: Iterable[bytes], frames: int) -> None:
        heard.append((len(next(iter(pieces))), frames))

    played = play(PlayRequest(phrase), hear)
    assert heard[0][0] <= 9600 * 4
    assert heard[0][1] == round((12 + TAIL_SECONDS) * 48_000)
    assert played.levels is None
    play(PlayRequest(phrase, loop=True), hear)
    assert heard[1][0] <= 9600 * 4
    assert heard[1][1] == 75 * 8 * 48_000


def test_some_bars_a_ramp_a_length_a_player_alone(phrase: Path, tmp_path: Path) -> None:
    def played(*more: str) -> mido.MidiFile:
        out = tmp_path / "x.mid"
        assert run(str(phrase), "--out", str(out), "--count-in", "0", *more) == 0
        return mido.MidiFile(out)

    assert played("--bars", "2", "--loop").length == pytest.approx(2)
    assert played("--bars", "2-3").length == pytest.approx(2 + 2 + 2)
    assert played("--ramp", "50% to 100% by 25%").length == pytest.approx(16 + 16 * 60 / 90 + 8 + 2, abs=0.01)
    assert played("--minutes", "1").length == pytest.approx(60, abs=5)
    assert [track.name for track in played("--alone", "bass").tracks[1:]] == ["acoustic bass"]
    names = [track.name for track in played("--line-instrument", "flute", "--comping-instrument", "organ",
                                            "--bass-instrument", "fretless bass").tracks[1:]]  # fmt: skip
    assert names == ["flute", "fretless bass", "organ", "drums"]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--loop", "--ramp", "50% to 100% by 25%"), "one tempo"),
        (("--ramp", "fast"), "no ladder of tempos"),
        (("--bars", "two"), "names no bars"),
        (("--bars", "4-5"), "has no bars 4 to 5"),
        (("--alone", "bass", "--without", "drums"), "leaves the others out"),
        (("--line-instrument", "kazoo"), "kazoo"),
    ],
)
def test_what_cannot_be_asked_for(phrase: Path, tmp_path: Path, more: tuple[str, ...], said: str) -> None:
    with pytest.raises(ShedbookError, match=said):
        run(str(phrase), "--out", str(tmp_path / "x.mid"), *more)


def test_a_voice_that_is_not_there_is_told_and_the_count_struck(
    phrase: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("shedbook.book.verbs.play.voice_there", lambda: "")
    assert run(str(phrase), "--out", str(tmp_path / "x.wav"), "--count", "spoken") == 0
    assert "struck, not spoken: espeak-ng is not installed" in capsys.readouterr().err
    assert run(str(phrase), "--out", str(tmp_path / "x.mid"), "--count", "both") == 0
    assert "a MIDI file cannot speak" in capsys.readouterr().err


def test_what_the_manuscript_can_say_can_be_asked_for(phrase: Path, tmp_path: Path) -> None:
    """Feel, seed, loop, answers, players left out, kinds of clicks: heard in the MIDI file."""

    def played(*more: str) -> mido.MidiFile:
        out = tmp_path / "x.mid"
        assert run(str(phrase), "--out", str(out), *more) == 0
        return mido.MidiFile(out)

    def names(file: mido.MidiFile) -> list[str]:
        return [track.name for track in file.tracks[1:]]

    plain = played()
    assert names(played("--without", "bass", "--without", "piano")) == ["clarinet", "drums"]
    assert "electric bass" in names(played("--feel", "funk"))
    assert played("--loop").length == pytest.approx(8)
    assert played("--answers").length == pytest.approx(plain.length + 8)
    assert played("--count-in", "2").length == pytest.approx(plain.length + 2)
    clicks = played("--parts", "line", "--click", "2 and 4", "--count-in", "0").tracks[-1]
    assert sum(message.type == "note_on" for message in clicks) == 8
    assert [m.bytes() for m in played("--seed", "3").tracks[2] if not m.is_meta] != [
        m.bytes() for m in plain.tracks[2] if not m.is_meta
    ]
    with pytest.raises(ShedbookError, match="A loop cannot be MP3"):
        run(str(phrase), "--out", str(tmp_path / "x.mp3"), "--loop")
