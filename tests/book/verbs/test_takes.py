from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import soundfile

from listen.tones import HIGH_TIDE, LOW_TIDE, RATE, Tone, sound_of, tones_of
from shedbook.book.verbs.takes import TakesFound, TakesOrder, takes
from shedbook.book.verbs.takes_report import picture_of, recording_lines, take_lines, takes_json
from shedbook.errors import SoundError, UnknownNameError
from shedbook.phrase.line_text import print_line


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


def test_a_far_tempo_is_said(book: Path, tmp_path: Path) -> None:
    found = listened(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE, tempo=80)))
    assert "The tempo is about 80, the phrase's 120" in said(found)


def test_a_text_file_with_the_ending_of_a_sound_file_is_refused(book: Path, tmp_path: Path) -> None:
    file = tmp_path / "take.wav"
    file.write_text("This is no sound.\n" * 50)
    with pytest.raises(SoundError, match=r"take\.wav is no recording that can be read") as error:
        listened(book, file)
    assert "WAV" in error.value.hint


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
