"""The table [tracks] of manuscript.toml."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from shedbook.book.manuscript.settings.tracks import (
    RECORDING_FIELDS,
    TRACK_FIELDS,
    Recording,
    SoundSettings,
    TrackSettings,
    read_tracks,
)
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.errors import ManuscriptError
from shedbook.phrase.tables.fields import FieldRow

EVERY_KEY: dict[str, object] = {
    "kinds": ["Play-along", "tuning", "tuning"],
    "phrases": [3, "Low tide"],
    "formats": "mp3 .flac",
    "keys": "C F Bb",
    "tempos": [160, 80, 80],
    "rounds": 6,
    "count_in": 0,
    "loudness": -18.5,
    "sides": True,
    "sound_font": "fonts/mine.sf2",
    "line_instrument": "Alto  Saxophone",
    "comping_instrument": "guitar",
    "bass_instrument": "Electric bass",
    "bass": "Two",
    "drums": "brushes",
    "click": "2 and 4",
    "minutes": 4,
    "count": "both",
    "ramp": "50% to 100% by 10%",
    "seed": 7,
    "recordings": [{"phrase": 3, "file": "media/x.wav", "key": "Bb", "tempo": 120}],
}


def test_every_key() -> None:
    assert set(EVERY_KEY) == {row.name for row in TRACK_FIELDS}
    assert {name for name in EVERY_KEY["recordings"][0]} == {row.name for row in RECORDING_FIELDS}  # type: ignore[index]
    assert read_tracks(EVERY_KEY) == TrackSettings(
        kinds=("play-along", "tuning"),
        phrases=("3", "Low tide"),
        formats=("mp3", "flac"),
        keys=("C", "F", "Bb"),
        tempos=(80, 160),
        ramp="50% to 100% by 10%",
        sound=SoundSettings(
            rounds=6,
            count_in=0,
            loudness=-18.5,
            sides=True,
            sound_font="fonts/mine.sf2",
            line_instrument="alto saxophone",
            comping_instrument="guitar",
            bass_instrument="electric bass",
            bass="two",
            drums="brushes",
            click="2 and 4",
            minutes=4.0,
            count="both",
            seed=7,
        ),
        recordings=(Recording(phrase="3", file="media/x.wav", tonic="Bb", tempo_bpm=120),),
    )


def test_nothing_is_made_unless_asked_for() -> None:
    """So that a build stays quick."""
    assert read_tracks({}) == TrackSettings()
    assert settings_from_fields({}).tracks.kinds == ()


def test_defaults_are_those_of_the_table() -> None:
    defaults = {row.name: row.default for row in TRACK_FIELDS}
    made = TrackSettings()
    assert defaults["formats"] == " ".join(made.formats)
    assert defaults["keys"] == made.keys
    assert defaults["tempos"] == made.tempos
    assert defaults["rounds"] == str(made.sound.rounds)
    assert float(defaults["loudness"]) == made.sound.loudness
    assert defaults["line_instrument"] == made.sound.line_instrument
    assert defaults["bass"] == made.sound.bass
    assert defaults["drums"] == made.sound.drums
    assert defaults["click"] == made.sound.click
    assert defaults["count"] == made.sound.count
    assert defaults["ramp"] == made.ramp
    assert defaults["seed"] == str(made.sound.seed)


@pytest.mark.parametrize(
    ("name", "value", "read"),
    [("keys", "ALL", "all"), ("keys", "home", "home"), ("tempos", "ladder", "ladder"),
     ("tempos", "own", "own"), ("phrases", "Low tide", ("Low tide",)), ("phrases", 2, ("2",)),
     ("loudness", -20, -20.0), ("count_in", 2, 2), ("tempos", "60%  to 100% by 10%", "60% to 100% by 10%"),
     ("tempos", "80 to 140 by 10", "80 to 140 by 10"), ("minutes", 2.5, 2.5),
     ("kinds", "alone", ("bass-alone", "piano-alone", "drums-alone")),
     ("kinds", "stems", ("stem-line", "stem-bass", "stem-piano", "stem-drums")),
     ("ramp", "80 to 120  by 10", "80 to 120 by 10"), ("count", "Spoken", "spoken")],
)  # fmt: skip
def test_other_ways_to_write_a_value(name: str, value: object, read: object) -> None:
    settings = read_tracks({name: value})
    assert getattr(settings.sound if hasattr(settings.sound, name) else settings, name) == read


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [({"rounds": 0}, 1, 32), ({"count_in": -1}, 0, 4), ({"seed": -1}, 0, 1_000_000)],
)
def test_an_example_is_one_that_may_be_written(written: dict[str, int], low: int, high: int) -> None:
    with pytest.raises(ManuscriptError) as caught:
        read_tracks(written)
    assert f"from {low} to {high}" in caught.value.hint
    assert low <= int(caught.value.hint.rpartition("= ")[2]) <= high


@pytest.mark.parametrize(
    ("name", "least", "most", "below", "above"),
    [
        ("loudness", -40, -8, -40.1, -7.9),
        ("minutes", 0.5, 30, 0.4, 30.5),
        ("rounds", 1, 32, 0, 33),
        ("count_in", 0, 4, -1, 5),
        ("tempos", "1% to 200% by 50%", "100% to 200% by 25%", "0% to 90% by 10%", "100% to 201% by 25%"),
        ("ramp", "40 to 41 by 1", "200 to 400 by 20", "90 to 90 by 5", "200 to 401 by 20"),
        ("tempos", "69 to 100 by 1", "31 to 62 by 1", "67 to 100 by 1", "30 to 62 by 1"),
    ],
)
def test_the_least_and_the_most_can_be_written_and_nothing_beyond(
    name: str, least: object, most: object, below: object, above: object
) -> None:
    for value in (least, most):
        read_tracks({name: value})
    for value in (below, above):
        with pytest.raises(ManuscriptError):
            read_tracks({name: value})


REFUSED = [
    ("all", "must be a table"),
    ({"kind": ["line"]}, '"kind" is not a key'),
    ({"kinds": ["playalong"]}, "is not a kind of track"),
    ({"formats": ["mp4"]}, "is not a format"),
    ({"formats": 3}, "must be a list"),
    ({"phrases": [["x"]]}, "text"),
    ({"phrases": [True]}, "text"),
    ({"keys": "C H"}, '"H" is not the name of a key'),
    ({"keys": "B#"}, '"B#" is not the name of a key'),
    ({"keys": []}, "names no key"),
    ({"tempos": [10]}, "is 10"),
    ({"tempos": []}, "names no tempo"),
    ({"tempos": "slow"}, "is not a choice of tempos"),
    ({"tempos": "100 to 80 by 5"}, "no ladder"),
    ({"tempos": "80 to 100 by 0"}, "no ladder"),
    ({"minutes": 0}, "is 0"),
    ({"minutes": "four"}, "must be a number"),
    ({"click": "3"}, "not a kind of click"),
    ({"bass": "walking"}, "not a way to play"),
    ({"drums": "bongos"}, "not a kind of drums"),
    ({"rounds": 0}, "is 0"),
    ({"rounds": True}, "must be a whole number"),
    ({"loudness": -3}, "too loud"),
    ({"loudness": -50.5}, "too soft"),
    ({"loudness": "loud"}, "must be a number"),
    ({"sides": "yes"}, "must be true or false"),
    ({"line_instrument": "kazoo"}, "not an instrument"),
    ({"formats": ["mp3"], "kinds": ["loop"]}, "needs"),
    ({"recordings": ["x.wav"]}, "list of tables"),
    ({"recordings": [{"phrase": 1}]}, 'needs "file"'),
    ({"recordings": [{"phrase": 1, "file": "x.wav", "key": "X"}]}, "is not the name of a key"),
    ({"recordings": [{"phrase": 1, "file": "x.wav", "temp": 1}]}, "is not a key of a recording"),
]


@pytest.mark.parametrize(("value", "said"), REFUSED)
def test_what_cannot_be_used_is_an_error_that_says_what_can(value: object, said: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        read_tracks(value)
    assert said in caught.value.message
    assert caught.value.message.startswith("[tracks] ")
    assert caught.value.hint
    field = caught.value.field
    assert (
        field == "tracks" if not isinstance(value, dict) else field.startswith(f"tracks.{next(iter(value))}")
    )


@pytest.mark.parametrize("row", [*TRACK_FIELDS, *RECORDING_FIELDS], ids=lambda row: row.name)
def test_every_key_stands_in_the_documents(row: FieldRow) -> None:
    page = (Path(__file__).parents[4] / "docs/sound.md").read_text(encoding="utf-8")
    without = "must stand" if row.needed else row.default or "nothing"
    assert f"| `{row.name}` | {row.form} | {without} | {row.meaning} |" in page


def test_the_example_in_the_documents_can_be_read() -> None:
    page = (Path(__file__).parents[4] / "docs/sound.md").read_text(encoding="utf-8")
    (example,) = re.findall(r"```toml\n(\[tracks\].*?)```", page, re.DOTALL)
    assert read_tracks(tomllib.loads(example)["tracks"]).recordings[0].phrase == "Undertow"
