"""What is said of tracks before they are made, against what is then made.

Tolerances (our own): the length to a hundredth of a second, WAV and FLAC files to a third of their size, MP3
and Opus to 40 percent: how dense a band plays is not known beforehand. Time is not tested: it is the
machine's.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
import soundfile

from book.tracks.test_worker import orders
from shedbook.book.tracks.forecast import Forecast, forecast, in_words, track_seconds
from shedbook.book.tracks.worker import make_track

TRACKS = """\
kinds = ["demonstration", "bar-loop", "ramp", "call-and-answer"]
formats = ["wav", "flac", "mp3", "opus"]
phrases = [1]
rounds = 1
"""
TOLERANCE = {"wav": 0.02, "flac": 0.35, "mp3": 0.4, "opus": 0.4}


def test_length_and_size(tmp_path: Path) -> None:
    made, told = dict.fromkeys(TOLERANCE, 0), dict.fromkeys(TOLERANCE, 0.0)
    for order in orders(tmp_path, TRACKS)[:3]:
        done = make_track(order)
        assert done.errors == ()
        for name in done.files:
            path = Path(order.folder, name)
            form = path.suffix[1:]
            made[form] += path.stat().st_size
            told[form] += forecast([[replace(order, formats=(form,))]]).size
            if form == "wav":
                assert soundfile.info(path).duration == pytest.approx(track_seconds(order), abs=0.01)
    for form, tolerance in TOLERANCE.items():
        assert told[form] == pytest.approx(made[form], rel=tolerance), form


def test_a_second_kind_of_the_same_rendering_takes_less(tmp_path: Path) -> None:
    both = orders(tmp_path, 'kinds = ["play-along", "no-bass"]\nphrases = [1]\nformats = "wav"\n')
    apart = forecast([[one] for one in both])
    together = forecast([both])
    assert together.work < apart.work
    assert (together.tracks, together.seconds, together.size) == (2, apart.seconds, apart.size)


def test_it_is_said_where_it_takes_long_and_called_an_estimate() -> None:
    assert in_words(Forecast(9, 600, 1e7, 59), 1) == ""
    said = in_words(Forecast(432, 16560, 3.4e8, 1140), 2)
    assert said == "432 tracks to make: about 4.6 hours of sound, 340 MB, 10 min with 2 at work (an estimate)"
