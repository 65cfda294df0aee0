from __future__ import annotations

import json
import tomllib
from dataclasses import replace as with_other
from pathlib import Path

import numpy as np
import pyloudnorm
import pytest
import soundfile
from mutagen.wave import WAVE

from book.verbs.test_takes import after_slate, book, listened, recorded  # noqa: F401 - the fixture
from book.verbs.test_takes_report import found as made_up  # noqa: F401 - takes without sound
from listen.tones import LOW_TIDE, RATE, sound_of, tones_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.tracks.recordings import check_recordings
from shedbook.book.verbs.keep_takes import KeepOrder, KeptFile, _span, keep_takes, offsets_json
from shedbook.book.verbs.takes import Take, TakesFound
from shedbook.errors import ManuscriptError, OutputError
from shedbook.sound.audio.slate import read_slates, slate_tones


def kept(book: Path, recording: Path, *, replace: bool = False) -> KeptFile:  # noqa: F811
    (one,) = keep_takes(listened(book, recording), KeepOrder(replace=replace))
    return one


def test_a_kept_take_lies_where_the_book_expects_it(book: Path, tmp_path: Path) -> None:  # noqa: F811
    one = kept(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE, start=3.0)))
    assert one.path == book / "media" / "01-low-tide-c-minor.wav"
    manuscript = open_manuscript(book)
    check_recordings(manuscript, manuscript.phrases)
    (recording,) = manuscript.settings.tracks.recordings
    assert (recording.phrase, recording.tonic, recording.tempo_bpm) == ("Low tide", "", 0)


def test_it_is_trimmed_and_as_loud_as_the_book(book: Path, tmp_path: Path) -> None:  # noqa: F811
    """The loudness by pyloudnorm: ITU-R BS.1770."""
    tones = tones_of(LOW_TIDE, start=3.0)
    one = kept(book, recorded(tmp_path / "take.wav", tones))
    samples, rate = soundfile.read(one.path)
    assert rate == 48_000
    assert len(samples) / rate == pytest.approx(tones[-1][1] - tones[0][0] + 0.5 + 0.5, abs=0.25)
    assert pyloudnorm.Meter(rate).integrated_loudness(samples) == pytest.approx(-16, abs=0.3)
    tags = WAVE(one.path).tags
    assert tags is not None
    assert (str(tags["TIT2"]), str(tags["TKEY"]), str(tags["TBPM"])) == ("Low tide", "Cm", "120")


def test_its_offsets_are_those_of_the_file(book: Path, tmp_path: Path) -> None:  # noqa: F811
    tones = tones_of(LOW_TIDE, start=3.0)
    one = kept(book, recorded(tmp_path / "take.wav", tones))
    found = json.loads(one.offsets.read_text())
    assert (found["recording"], found["phrase"], found["key"]) == (one.path.name, "1", "C")
    assert len(found["notes"]) == len(tones)
    for row, tone in zip(found["notes"], tones, strict=True):
        assert row["at_s"] == pytest.approx(tone[0] - one.start_s, abs=0.02)
    assert [(row["bar"], row["beat"]) for row in found["notes"][7:9]] == [(1, "4½"), (2, "1")]
    samples, rate = soundfile.read(one.path)
    first = np.flatnonzero(np.abs(samples).max(axis=1) > 0.05)[0] / rate
    assert found["notes"][0]["at_s"] == pytest.approx(first, abs=0.02)


def test_another_key_and_tempo_are_filed_as_such(book: Path, tmp_path: Path) -> None:  # noqa: F811
    kept(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE, moved=-2, tempo=96)))
    (entry,) = tomllib.loads((book / "manuscript.toml").read_text())["tracks"]["recordings"]
    assert entry["key"] in ("Bb", "A#")
    assert entry["tempo"] == pytest.approx(96, abs=1)


def test_nothing_is_written_over_unless_asked(book: Path, tmp_path: Path) -> None:  # noqa: F811
    recording = recorded(tmp_path / "take.wav", tones_of(LOW_TIDE))
    one = kept(book, recording)
    before, text = one.path.read_bytes(), (book / "manuscript.toml").read_text()
    louder = tmp_path / "other.wav"
    soundfile.write(louder, sound_of(tones_of(LOW_TIDE, tempo=118)), RATE)
    with pytest.raises(OutputError, match="has its recording already"):
        kept(book, louder)
    assert one.path.read_bytes() == before
    kept(book, louder, replace=True)
    assert one.path.read_bytes() != before
    assert (book / "manuscript.toml").read_text() == text


def test_a_file_that_the_book_does_not_name_is_left_alone(book: Path, tmp_path: Path) -> None:  # noqa: F811
    file = book / "media" / "01-low-tide-c-minor.wav"
    file.parent.mkdir()
    file.write_text("mine")
    with pytest.raises(OutputError, match="is there already"):
        kept(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE)))
    assert file.read_text() == "mine"


def test_a_list_in_another_form_is_not_broken(book: Path, tmp_path: Path) -> None:  # noqa: F811
    settings = book / "manuscript.toml"
    settings.write_text(settings.read_text() + "[tracks]\nrecordings = []\n")
    with pytest.raises(ManuscriptError, match="a list of its own form"):
        kept(book, recorded(tmp_path / "take.wav", tones_of(LOW_TIDE)))
    assert not (book / "media").exists()


def test_two_tempos_of_one_key_do_not_collide(book: Path, tmp_path: Path) -> None:  # noqa: F811
    files = [recorded(tmp_path / f"{one}.wav", tones_of(LOW_TIDE, tempo=one)) for one in (120, 150)]
    both = keep_takes(listened(book, *files), KeepOrder())
    names = sorted(one.path.name for one in both)
    assert names == ["01-low-tide-c-minor-150.wav", "01-low-tide-c-minor.wav"]
    again = recorded(tmp_path / "again.wav", tones_of(LOW_TIDE, tempo=152))
    with pytest.raises(OutputError, match="c-minor-150"):
        kept(book, again)  # near enough to be another try at the same tempo
    other = kept(book, recorded(tmp_path / "slow.wav", tones_of(LOW_TIDE, tempo=90)))
    assert other.path.name == "01-low-tide-c-minor-90.wav"
    assert len(open_manuscript(book).settings.tracks.recordings) == 3


def test_no_slate_sounds_in_what_is_kept(book: Path, tmp_path: Path) -> None:  # noqa: F811
    """One ends a quarter of a second before the first note, one begins half a second after the last."""
    tones = tones_of(LOW_TIDE, start=0.25)
    file = after_slate(tmp_path / "take.wav", 7, tones)
    sound, rate = soundfile.read(file)
    sound = sound[: round((1 + len(slate_tones(7, RATE)) / RATE + tones[-1][1] + 0.5) * rate)]
    slate = slate_tones(8, RATE)
    soundfile.write(file, np.concatenate([sound, np.stack([slate, slate], axis=1)]), rate)
    one = kept(book, file)
    samples, rate = soundfile.read(one.path)
    assert read_slates(samples, rate) == ()
    first = np.flatnonzero(np.abs(samples).max(axis=1) > 0.02)[0] / rate
    last = np.flatnonzero(np.abs(samples).max(axis=1) > 0.02)[-1] / rate
    assert first > 0.1  # nothing sounds before the first note
    assert last - first == pytest.approx(tones[-1][1] - tones[0][0], abs=0.06)


def test_offsets_can_be_read_by_people_too(made_up: TakesFound) -> None:  # noqa: F811
    """Without a phrase's id its number stands there; a note that is missing has no time."""
    text = offsets_json(made_up.takes[1], "prüfung.wav", 0.5)
    head, notes = text.split(' "notes": [\n')
    assert head == '{\n "recording": "prüfung.wav",\n "phrase": "1",\n "key": "Bb",\n'
    assert notes.startswith('  {\n   "bar": 1,\n   "beat": "1",\n   "at_s": 0.5\n  },\n')
    rows = json.loads(text)["notes"]
    assert [row["at_s"] for row in rows[:7]] == [0.5, 0.625, 0.75, 0.875, 1.0, None, 1.25]
    assert text.endswith(" ]\n}\n")


@pytest.mark.parametrize(
    ("before", "after", "since", "until", "span"),
    [
        (None, None, 0.0, 99.0, (9.5, 21.2)),  # half a second of silence before, a bit more for what rings
        (9.0, 22.0, 0.0, 99.0, (9.5, 21.2)),
        (9.7, 20.5, 0.0, 99.0, (9.85, 20.35)),  # of its neighbours nothing
        (9.95, 20.1, 0.0, 99.0, (10.0, 20.0)),  # of itself everything
        (None, None, 9.8, 20.2, (9.8, 20.2)),  # of a slate nothing
        (9.7, 20.5, 9.6, 20.6, (9.85, 20.35)),
    ],
)
def test_what_of_a_recording_is_kept(
    made_up: TakesFound,  # noqa: F811
    before: float | None, after: float | None, since: float, until: float, span: tuple[float, float],
) -> None:  # fmt: skip
    take = made_up.takes[0]

    def at(number: int, start: float, end: float) -> Take:
        reading = with_other(take.reading, start_s=start, end_s=end, since_s=since, until_s=until)
        return with_other(take, number=number, reading=reading)

    own = at(2, 10.0, 20.0)
    others = [at(1, 5.0, before)] if before else []
    others += [at(3, after, 30.0)] if after else []
    elsewhere = with_other(at(4, 9.9, 9.99), recording=Path("another.wav"))
    assert _span(own, [own, *others, elsewhere]) == pytest.approx(span)
    early = at(5, 0.2, 1.0)
    early = with_other(early, reading=with_other(early.reading, since_s=0.0))
    assert _span(early, [early])[0] == 0  # nothing comes before the recording
