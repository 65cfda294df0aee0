from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import soundfile

from listen.tones import HIGH_TIDE, LOW_TIDE, RATE, Tone, sound_of, tones_of
from shedbook.book.lessons.session_list import SESSION_LIST, SessionTake, session_json
from shedbook.book.verbs.takes import TakesFound, TakesOrder, takes
from shedbook.book.verbs.takes_report import picture_of, recording_lines, take_lines, takes_json
from shedbook.errors import ReadError, SoundError, UnknownNameError
from shedbook.phrase.line_text import print_line
from shedbook.sound.audio.slate import slate_tones
from shedbook.theory.key import Key


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Two invented phrases."""
    root = tmp_path / "tides"
    (root / "phrases").mkdir(parents=True)
    (root / "manuscript.toml").write_text('title = "Tides"\nauthor = "Invented"\n')
    rows = (("Low tide", LOW_TIDE, "Dm7b5 | G7b9 | Cm6"), ("High tide", HIGH_TIDE, "Dm7 | G7 | Cmaj7"))
    for number, (title, phrase, changes) in enumerate(rows, start=1):
        text = f'title = "{title}"\ntempo = 120\nchanges = "{changes}"\nline = "{print_line(phrase.bars)}"\n'
        (root / "phrases" / f"{number:02}.toml").write_text(text)
    return root


def recorded(path: Path, tones: list[Tone], rate: int = RATE) -> Path:
    soundfile.write(path, sound_of(tones, rate=rate), rate)
    return path


def listened(book: Path, *files: Path, **asked: str) -> TakesFound:
    return takes(TakesOrder(book, files, **asked))  # type: ignore[arg-type]


def said(found: TakesFound) -> str:
    return "\n".join(line for take in found.takes for line in take_lines(take))


def test_a_slip_is_said_with_its_bar_and_beat(book: Path, tmp_path: Path) -> None:
    tones = tones_of(LOW_TIDE)
    tones[9] = (tones[9][0], tones[9][1], tones[9][2] + 1)  # bar 2, beat 1½: D becomes E flat
    found = listened(book, recorded(tmp_path / "take.wav", tones))
    assert "Bar 2, beat 1½: E♭ in place of D." in said(found)
    assert [take.kept for take in found.takes] == [True]
    assert found.takes[0].note_names[:4] == ("F", "Ab", "C", "Eb")


def test_the_better_of_two_takes_is_kept_with_a_reason(book: Path, tmp_path: Path) -> None:
    bad = tones_of(LOW_TIDE)
    bad[4] = (bad[4][0], bad[4][1], bad[4][2] + 2)
    good = tones_of(LOW_TIDE, start=bad[-1][1] + 3)
    found = listened(book, recorded(tmp_path / "takes.wav", [*bad, *good]))
    assert [take.kept for take in found.takes] == [False, True]
    assert "Against it: 1 wrong note" in said(found)


def test_another_phrase_than_was_meant_is_said(book: Path, tmp_path: Path) -> None:
    found = listened(book, recorded(tmp_path / "take.wav", tones_of(HIGH_TIDE)), phrase="1")
    assert "This sounds like phrase 2, “High tide”, and not like phrase 1" in said(found)
    assert not found.takes[0].kept


@pytest.mark.parametrize(
    ("moved", "words"),
    [
        # A part in C sounds a whole step too low on an instrument in B flat (common practice).
        (-2, "a whole step too low: was the part in C read as the B flat part"),
        (2, "a whole step too high: was the part for B flat read on an instrument in C"),
        (3, "a minor third too high: was the part in C read on an instrument in E flat"),
        (-1, "a half step too low."),
    ],
)
def test_another_key_than_was_meant_is_said(book: Path, tmp_path: Path, moved: int, words: str) -> None:
    found = listened(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE, moved=moved)), key="C")
    assert words in said(found)
    assert "?." not in said(found)


def test_a_far_tempo_is_said(book: Path, tmp_path: Path) -> None:
    found = listened(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE, tempo=80)))
    assert "The tempo is about 80, the phrase's 120" in said(found)


def test_a_text_file_with_the_ending_of_a_sound_file_is_refused(book: Path, tmp_path: Path) -> None:
    file = tmp_path / "take.wav"
    file.write_text("This is no sound.\n" * 50)
    with pytest.raises(SoundError, match=r"take\.wav is no recording that can be read") as error:
        listened(book, file)
    assert "WAV" in error.value.hint


def test_an_empty_file_is_called_empty(book: Path, tmp_path: Path) -> None:
    (tmp_path / "take.wav").touch()
    with pytest.raises(SoundError, match="an empty file") as error:
        listened(book, tmp_path / "take.wav")
    assert "Copy it again" in error.value.hint


def test_noise_is_called_noise(book: Path, tmp_path: Path) -> None:
    hiss = np.random.default_rng(1).normal(0, 0.01, 2 * RATE)
    soundfile.write(tmp_path / "hiss.wav", hiss, RATE)
    (words,) = recording_lines(listened(book, tmp_path / "hiss.wav").recordings[0])[1:]
    assert words == "0:00.0 to 0:02.0 is noise: no note is heard in it."


def test_a_file_that_is_not_there_is_named(book: Path, tmp_path: Path) -> None:
    with pytest.raises(SoundError, match="There is no file"):
        listened(book, tmp_path / "nothing.wav")


def test_silence_is_refused_with_its_file(book: Path, tmp_path: Path) -> None:
    soundfile.write(tmp_path / "quiet.wav", np.zeros((RATE, 2)), RATE)
    with pytest.raises(SoundError, match=r"quiet\.wav: The recording is silent"):
        listened(book, tmp_path / "quiet.wav")


def test_of_several_files_those_that_can_be_read_are_listened_to(book: Path, tmp_path: Path) -> None:
    (tmp_path / "text.wav").write_text("no")
    found = listened(book, tmp_path / "text.wav", recorded(tmp_path / "take.wav", tones_of(LOW_TIDE)))
    assert [path.name for path, _ in found.refused] == ["text.wav"]
    assert len(found.takes) == 1


def test_a_phrase_that_is_not_there_is_named(book: Path, tmp_path: Path) -> None:
    with pytest.raises(UnknownNameError, match="no phrase"):
        listened(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE)), phrase="Neap tide")


def test_96_khz_is_heard_alike(book: Path, tmp_path: Path) -> None:
    found = listened(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE), rate=96_000))
    assert "Every note is as written." in said(found)


def test_one_channel_and_two_are_heard_alike(book: Path, tmp_path: Path) -> None:
    sound = sound_of(tones_of(LOW_TIDE))
    soundfile.write(tmp_path / "mono.wav", sound[:, 0], RATE)
    soundfile.write(tmp_path / "left.wav", sound * [1, 0], RATE)
    found = listened(book, tmp_path / "mono.wav", tmp_path / "left.wav")
    assert [take.reading.slips for take in found.takes] == [(), ()]
    assert "2 channels are heard as one" in recording_lines(found.recordings[1])[0]


def test_sound_that_is_cut_off_is_said_and_counts_against_a_take(book: Path, tmp_path: Path) -> None:
    loud = np.clip(sound_of(tones_of(LOW_TIDE)) * 12, -1, 1)
    soundfile.write(tmp_path / "loud.wav", loud, RATE)
    found = listened(book, tmp_path / "loud.wav")
    assert "cut off at full scale" in recording_lines(found.recordings[0])[0]
    assert any("cut off" in one.words for one in found.takes[0].verdict.against)


def test_a_long_recording_is_listened_to_piece_by_piece(book: Path, tmp_path: Path) -> None:
    """Three minutes with two takes far apart; an hour goes the same way, a piece at a time."""
    file = tmp_path / "long.flac"
    with soundfile.SoundFile(file, "w", 16_000, 1) as out:
        for minute in range(3):
            sound = np.zeros(60 * 16_000, np.float32)
            if minute in (0, 2):
                take = sound_of(tones_of(LOW_TIDE), rate=16_000)[:, 0]
                sound[16_000 : 16_000 + len(take)] = take
            out.write(sound)
    found = listened(book, file)
    assert [round(take.reading.start_s) for take in found.takes] == [2, 122]
    assert all(not take.reading.slips for take in found.takes)


def test_a_recording_of_many_hours_is_refused_before_it_is_read(book: Path, tmp_path: Path) -> None:
    file = tmp_path / "day.flac"
    with soundfile.SoundFile(file, "w", 11_025, 1) as out:
        for _ in range(4):
            out.write(np.zeros(3600 * 11_025, np.int16))
    with pytest.raises(SoundError, match=r"lasts 4\.0 hours"):
        listened(book, file)


def test_what_was_heard_is_told_to_programs(book: Path, tmp_path: Path) -> None:
    tones = tones_of(LOW_TIDE)
    tones.pop(5)
    found = takes_json(listened(book, recorded(tmp_path / "take.wav", tones)))
    take = found["takes"][0]
    assert [(slip["kind"], slip["bar"], slip["beat"], slip["written"]) for slip in take["slips"]] == [
        ("missing", 1, "3½", "F")
    ]
    assert take["notes"][5]["at_s"] is None
    assert take["notes"][0]["at_s"] == pytest.approx(tones[0][0], abs=0.02)


def test_the_picture_shows_every_note_and_is_well_formed(book: Path, tmp_path: Path) -> None:
    from lxml import etree  # noqa: PLC0415 - the oracle of this test alone

    tones = tones_of(LOW_TIDE)
    tones[9] = (tones[9][0], tones[9][1], tones[9][2] + 1)
    found = listened(book, recorded(tmp_path / "take.wav", tones))
    root = etree.parse(io.BytesIO(picture_of(found.takes[0]).encode())).getroot()
    boxes = [one for one in root if one.tag.endswith("rect")]
    assert len(boxes) == 1 + 2 * len(tones)
    assert sum(one.tag.endswith("path") for one in root) == 1


def after_slate(path: Path, number: int, tones: list[Tone]) -> Path:
    """Write a recording of a slate and a take half a second after it."""
    slate = slate_tones(number, RATE)
    sound = np.concatenate([np.zeros((RATE, 2)), np.stack([slate, slate], axis=1), sound_of(tones)])
    soundfile.write(path, sound, RATE)
    return path


def with_session(folder: Path) -> Path:
    folder.mkdir(exist_ok=True)
    takes = (
        SessionTake(7, 1, "Low tide", Key.parse("Bb minor"), 96, "media/01-low-tide-bb-minor-96.wav"),
        SessionTake(8, 2, "High tide", Key.parse("C major"), 120, "media/02-high-tide-c-major.wav"),
    )
    (folder / SESSION_LIST).write_text(session_json(takes), encoding="utf-8")
    return folder


LOW_TONES = tones_of(LOW_TIDE, moved=-2, tempo=98, start=0.5)


def test_a_slate_names_phrase_key_and_tempo_by_the_list_beside_it(book: Path, tmp_path: Path) -> None:
    folder = with_session(tmp_path / "session")
    found = listened(book, after_slate(folder / "morning.wav", 7, LOW_TONES))
    (take,) = found.takes
    assert (take.slate, str(take.key), take.filed_bpm, take.amiss) == (7, "Bb minor", 96, ())
    assert take.kept
    lines = recording_lines(found.recordings[0])
    assert lines[1:] == (
        "slate 7 at 0:01.0: phrase 1, “Low tide”, in Bb minor at 96; 1 take after it.",
    )  # fmt: skip
    (told,) = takes_json(found)["recordings"]
    assert (told["slates"][0]["number"], told["slates"][0]["planned"]["tempo"]) == (7, 96)
    assert told["other_pieces"] == []


def test_the_sessions_folder_can_be_named(book: Path, tmp_path: Path) -> None:
    file = after_slate(tmp_path / "morning.wav", 7, LOW_TONES)
    (alone,) = listened(book, file).takes
    assert (alone.slate, alone.planned, alone.filed_bpm) == (7, None, 98)
    (named,) = takes(TakesOrder(book, (file,), session=with_session(tmp_path / "session"))).takes
    assert named.filed_bpm == 96
    with pytest.raises(ReadError, match="cannot be read"):
        takes(TakesOrder(book, (file,), session=tmp_path / "nowhere"))


def test_another_phrase_or_key_than_the_slate_names_is_said_and_not_kept(book: Path, tmp_path: Path) -> None:
    folder = with_session(tmp_path / "session")
    other = listened(book, after_slate(folder / "a.wav", 8, LOW_TONES))
    assert "This sounds like phrase 1, “Low tide”, and not like phrase 2" in said(other)
    key = listened(book, after_slate(folder / "b.wav", 7, tones_of(LOW_TIDE, tempo=96, start=0.5)))
    assert "a whole step too high" in said(key)
    tempo = listened(
        book, after_slate(folder / "c.wav", 7, tones_of(LOW_TIDE, moved=-2, tempo=110, start=0.5))
    )
    assert "The tempo is about 110, the session's 96" in said(tempo)
    assert [take.kept for found in (other, key, tempo) for take in found.takes] == [False, False, True]


def test_a_slate_without_a_take_is_said(book: Path, tmp_path: Path) -> None:
    found = listened(book, after_slate(tmp_path / "a.wav", 9, [(0.5, 0.9, 60.0)]))
    assert "slate 9 at 0:01.0; no take after it." in recording_lines(found.recordings[0])


def test_a_list_beside_a_recording_that_is_none_is_told(book: Path, tmp_path: Path) -> None:
    (tmp_path / SESSION_LIST).write_text("mine", encoding="utf-8")
    found = listened(book, after_slate(tmp_path / "a.wav", 7, LOW_TONES))
    assert found.takes[0].planned is None
    assert any(SESSION_LIST in sentence for sentence in found.unread)


def test_of_each_tempo_one_take_is_kept_and_near_tempos_are_one(book: Path, tmp_path: Path) -> None:
    tempos = (96, 98, 120, 122, 150)
    files = [recorded(tmp_path / f"{one}.wav", tones_of(LOW_TIDE, tempo=one)) for one in tempos]
    kept = [take for take in listened(book, *files).takes if take.kept]
    assert [take.filed_bpm for take in kept] in ([96, 120, 150], [98, 120, 150])
