"""The set of tracks that a manuscript asks for: which there are, their names, and making them once."""

from __future__ import annotations

import sys
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from typing import Any

import mido
import mutagen
import numpy as np
import pytest
import soundfile

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import PhraseSource, PhraseText, read_phrase
from shedbook.book.tracks.orders import Playable, TrackOrder
from shedbook.book.tracks.plan import slug, track_orders
from shedbook.book.tracks.worker import (
    arrangement_order,
    make_track,
    sound_names,
    track_versions,
)
from shedbook.book.workshop.versions import SOUND_LIBRARIES, taken_in
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.errors import ManuscriptError, SoundError
from shedbook.sound.audio import synthesiser as synth_door
from shedbook.sound.audio.soundfile_door import decode
from shedbook.sound.tables.track_kinds import KINDS
from sound.studio import independent_levels

PHRASE = """\
title = "{title}"
changes = "Dm7 G7"
tempo = 120
key = "{key}"
line = "1/8 d4 f a c5 b4 a g f"
"""
SMALL = 'kinds = ["line"]\nformats = ["mid"]\nrounds = 1\n'


def manuscript(
    tmp_path: Path, tracks: str, *, book: str = "", extra: str = "", title: str = "Low tide"
) -> Path:
    root = tmp_path / "book"
    (root / "phrases").mkdir(parents=True, exist_ok=True)
    for number, (called, key) in enumerate(((title, "C"), ("Ebb & flow", "Bb minor")), start=1):
        (root / f"phrases/{number:02d}.toml").write_text(
            PHRASE.format(title=called, key=key) + extra.format(n=number)
        )
    (root / "manuscript.toml").write_text(f'title = "Ten"\nauthor = "A. N. Other"\n{book}[tracks]\n{tracks}')
    return root


def orders(tmp_path: Path, tracks: str, *, cycle: int = 12, **more: str) -> tuple[TrackOrder, ...]:
    opened = open_manuscript(manuscript(tmp_path, tracks, **more))
    cards: list[tuple[PhraseSource, Playable]] = []
    for source in opened.phrases:
        phrase = read_phrase(source)
        keys = tuple(str(key) for key in key_cycle(phrase.key))[:cycle]
        cards.append((source, Playable(phrase.title, str(phrase.key), keys, phrase.tempo_bpm, phrase.feel)))
    return track_orders(opened, cards, tmp_path / "store", tmp_path / "out", track_versions(None))


def test_a_track_hangs_on_the_versions_of_what_makes_its_sound() -> None:
    """importlib.metadata is the standard library's own answer."""
    told = dict(line.split(" ", 1) for line in track_versions(None).splitlines()[1:-1])
    assert told == {library: version(library) for library, _ in SOUND_LIBRARIES}


def test_a_track_hangs_on_what_plays_and_not_on_what_engraves() -> None:
    names = set(taken_in("shedbook.book.tracks.worker"))
    assert {
        "shedbook.sound.score.tables.swing",
        "shedbook.analysis.account",
        "shedbook.theory.chord",
    } <= names
    strangers = ("shedbook.engrave.", "shedbook.exchange", "shedbook.cli")
    assert all(".tables" in name for name in names if name.startswith(strangers))


def test_a_score_does_not_hang_on_what_plays() -> None:
    """`score_fingerprint` leaves these rooms out, so nothing that draws may take from them but tables."""
    left_out = ("shedbook.sound.", "shedbook.exchange", "shedbook.cli")
    named = [name for name in taken_in("shedbook.book.scores.worker") if name.startswith(left_out)]
    tables = [name for name in named if ".tables" in name]
    assert all(name in tables or any(one.startswith(f"{name}.") for one in tables) for name in named)


def test_none_unless_asked_for(tmp_path: Path) -> None:
    assert orders(tmp_path, "") == ()


def test_every_kind_at_every_tempo_in_every_key(tmp_path: Path) -> None:
    tracks = 'kinds = ["demonstration", "play-along", "twelve-keys"]\nkeys = "all"\ntempos = "ladder"\n'
    found = orders(tmp_path, tracks)
    assert len(found) == 2 * (2 * 12 + 1) * 3
    assert {order.given.tempo_bpm for order in found} == {72, 96, 120}
    assert [order.number for order in found] == list(range(1, len(found) + 1))
    assert {order.of for order in found} == {len(found)}


def test_names_sort_by_phrase_key_kind_and_tempo(tmp_path: Path) -> None:
    tracks = 'kinds = ["play-along", "line", "tuning"]\nkeys = "Bb C"\ntempos = [80, 120]\n'
    found = [order.stem for order in orders(tmp_path, tracks)]
    assert found == sorted(found)
    assert found[:5] == [
        "000-00-0-000-tuning-note-a4",
        "001-01-2-080-low-tide-c-major-play-along",
        "001-01-2-120-low-tide-c-major-play-along",
        "001-01-3-080-low-tide-c-major-line-alone",
        "001-01-3-120-low-tide-c-major-line-alone",
    ]
    assert len(set(found)) == len(found) == 17


def test_a_name_stays_whatever_keys_have_tracks(tmp_path: Path) -> None:
    """The place of a key is that in the book's order: C F Bb Eb …, and of another phrase its own."""
    stems = {
        keys: {order.stem for order in orders(tmp_path, f'kinds = ["line"]\nkeys = "{keys}"\n')}
        for keys in ("home", "C", "Eb C", "all")
    }
    assert stems["home"] & stems["C"] == {"001-01-3-120-low-tide-c-major-line-alone"}
    assert "001-04-3-120-low-tide-e-flat-major-line-alone" in stems["Eb C"]
    assert stems["C"] < stems["Eb C"] < stems["all"]


def test_a_key_outside_the_order_of_the_book_has_a_place_of_its_own(tmp_path: Path) -> None:
    alone = orders(tmp_path, 'kinds = ["line"]\nkeys = "Db"\n', cycle=3)
    more = orders(tmp_path, 'kinds = ["line"]\nkeys = "D C Db"\n', cycle=3)
    assert {order.stem for order in alone} < {order.stem for order in more}
    assert len({order.stem for order in more}) == 6


def test_all_keys_in_a_row_come_behind_the_single_keys(tmp_path: Path) -> None:
    found = orders(
        tmp_path, 'kinds = ["demonstration", "twelve-keys", "loop"]\nkeys = "all"\nformats = "wav"\n'
    )
    own = [order.given.kind for order in found if order.stem.startswith("001-")]
    assert own[0] == "demonstration"
    assert own[-1] == "twelve-keys"


def test_the_twelve_keys_are_said_in_the_title(tmp_path: Path) -> None:
    first = orders(tmp_path, 'kinds = ["twelve-keys"]\n')[0]
    assert first.title.startswith("Low tide: all keys in a row, C, F, B flat, E flat")
    assert len(first.given.keys) == 12


def test_the_tempos_and_feels_of_the_book_are_taken(tmp_path: Path) -> None:
    found = orders(tmp_path, SMALL, book='tempos = [90, 60]\nfeels = ["swing", "bossa"]\n')
    assert [(order.given.tempo_bpm, order.given.feel) for order in found[:4]] == [
        (60, "bossa"), (60, "swing"), (90, "bossa"), (90, "swing"),
    ]  # fmt: skip
    assert len({order.stem for order in found}) == 8
    assert [order.title for order in found[:2]] == [
        "Low tide: line alone, C major, bossa, 60", "Low tide: line alone, C major, swing, 60",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "name"),
    [("Low tide", "low-tide"), ("a/b\\c:*?", "a-b-c"), ("Nebel über Ä", "nebel-über-ä"), ("…", "track"),
     ("x" * 99, "x" * 48), ("..", "track")],
)  # fmt: skip
def test_titles_as_names_of_files(text: str, name: str) -> None:
    assert slug(text) == name


def test_a_long_title_is_cut_and_what_kind_of_track_it_is_stays(tmp_path: Path) -> None:
    """A name is at most 48 letters long behind its numbers, and says key and kind whatever the title."""
    tracks = 'kinds = ["line", "call-and-answer"]\nkeys = "Eb"\nphrases = [1]\n'
    stems = [one.stem for one in orders(tmp_path, tracks, title="The long way home and what was left of it")]
    assert stems == [
        "001-04-3-120-the-long-way-home-and-wh-e-flat-major-line-alone",
        "001-04-5-120-the-long-way-home-a-e-flat-major-call-and-answer",
    ]
    assert all(len(stem) - len("001-04-3-120-") <= 48 for stem in stems)


@pytest.mark.parametrize(
    ("tempos", "found"),
    [
        ('"own"', [120]),
        ('"60% to 100% by 20%"', [72, 96, 120]),
        ('"100 to 140 by 25"', [100, 125, 140]),
        ("[90, 60]", [60, 90]),
    ],
)
def test_tempos_are_those_that_are_asked_for(tmp_path: Path, tempos: str, found: list[int]) -> None:
    made = orders(tmp_path, f'kinds = ["line"]\nphrases = [1]\ntempos = {tempos}\n')
    assert [one.given.tempo_bpm for one in made] == found


def test_a_track_is_made_once(tmp_path: Path) -> None:
    order = orders(tmp_path, 'kinds = ["line"]\nformats = ["mp3", "flac", "mid"]\nrounds = 1\n')[0]
    done = make_track(order)
    assert done.errors == ()
    assert done.jobs_run == 3
    assert sorted(done.files) == sorted(f"{order.stem}.{name}" for name in ("mp3", "flac", "mid"))
    assert done.played_with
    folder = Path(order.folder)
    for name, levels in (done.levels or {}).items():
        lufs, peak = independent_levels(decode((folder / f"{order.stem}.{name}").read_bytes()))
        assert lufs == pytest.approx(levels[0], abs=0.1)
        assert peak < -0.9
    before = {path: path.stat().st_mtime_ns for path in folder.iterdir()}
    again = make_track(order)
    assert again.jobs_run == 0
    assert again.files == done.files
    assert {path: path.stat().st_mtime_ns for path in folder.iterdir()} == before


def test_a_new_number_or_album_makes_no_new_sound(tmp_path: Path) -> None:
    order = orders(tmp_path, 'kinds = ["line"]\nformats = ["flac"]\nrounds = 1\n')[0]
    make_track(order)
    renamed = replace(order, number=9, of=12, album="Eleven")
    assert make_track(renamed).jobs_run == 0
    with soundfile.SoundFile(Path(order.folder, f"{order.stem}.flac")) as file:
        assert (file.album, file.tracknumber, file.artist) == ("Eleven", "9", "A. N. Other")


@pytest.mark.skipif(sys.platform == "win32", reason="there tracks are copies")
@pytest.mark.parametrize("form", ["mp3", "flac", "wav", "opus"])
def test_a_tag_edit_never_comes_out_of_the_store(tmp_path: Path, form: str) -> None:
    """mutagen edits as players do. What it may write reaches no other track: the hash finds it out."""
    order = orders(tmp_path, f'kinds = ["line"]\nformats = ["{form}"]\nrounds = 1\n')[0]
    make_track(order)
    path = Path(order.folder, f"{order.stem}.{form}")
    before = path.read_bytes()
    assert sum(one.stat().st_nlink for one in (tmp_path / "store").rglob("*.sound")) in (1, 2)
    found = mutagen.File(path)
    if found.tags is not None and form in ("mp3", "wav"):
        found.tags.delall("TIT2")
    else:
        found["title"] = "Mine"
    try:
        found.save()
    except mutagen.MutagenError:  # read-only, and we are not the superuser
        path.chmod(0o644)
        found.save()
    assert path.read_bytes() != before
    put_back = make_track(replace(order, folder=str(tmp_path / "elsewhere")))
    assert (tmp_path / "elsewhere" / path.name).read_bytes() == before
    assert put_back.errors == ()


@pytest.mark.skipif(sys.platform == "win32", reason="there tracks are copies")
def test_the_bytes_are_there_once(tmp_path: Path) -> None:
    order = orders(tmp_path, 'kinds = ["line"]\nformats = ["mp3", "flac"]\nrounds = 1\n')[0]
    make_track(order)
    kept = {one.stat().st_ino for one in (tmp_path / "store").rglob("*.sound")}
    laid = {one.stat().st_ino for one in Path(order.folder).iterdir()}
    assert kept == laid or not kept & laid  # links, or clones where the file system has them


def test_stems_laid_over_one_another_are_the_whole(tmp_path: Path) -> None:
    """The loudness of their sum is the one asked for, less what peaks need; libebur128 says so."""
    four = orders(tmp_path, 'kinds = ["stems"]\nphrases = [1]\nformats = ["wav"]\nrounds = 1\n')
    assert [order.given.kind for order in four] == ["stem-line", "stem-bass", "stem-piano", "stem-drums"]
    sounds = []
    for order in four:
        assert make_track(order).errors == ()
        sounds.append(decode(Path(order.folder, f"{order.stem}.wav").read_bytes()))
    whole = np.sum(sounds, axis=0)
    lufs, peak = independent_levels(whole)
    assert -22 < lufs <= -15.9
    assert peak <= -1.0
    assert lufs == pytest.approx(-16, abs=0.2) or peak >= -1.3
    alone = [independent_levels(sound)[0] for sound in sounds]
    assert max(alone) < lufs


def test_a_track_for_each_bar_and_each_crossing(tmp_path: Path) -> None:
    tracks = 'kinds = ["bar-loop", "link-loop"]\nphrases = [1]\nformats = ["wav"]\nrounds = 2\n'
    found = orders(tmp_path, tracks)
    # The phrase is one bar over two chords: its only crossing is inside it.
    assert [order.given.bars for order in found] == [(1, 1), (1, 1)]
    assert found[0].stem == "001-01-f-120-low-tide-c-major-loop-of-bar-1"
    assert found[0].title == "Low tide: loop of bar 1, C major, 120"
    done = make_track(found[0])
    assert soundfile.info(Path(found[0].folder, done.files[0])).frames == 2 * 2 * 48_000


def test_a_track_that_grows_faster(tmp_path: Path) -> None:
    tracks = 'kinds = ["ramp"]\nphrases = [1]\nformats = ["mid", "mp3"]\nramp = "50% to 100% by 25%"\n'
    (order,) = orders(tmp_path, tracks)
    assert order.given.ramp == (60, 90, 120)
    assert order.title.endswith("60 to 120")
    done = make_track(order)
    file = mido.MidiFile(Path(order.folder, f"{order.stem}.mid"))
    tempos = [round(mido.tempo2bpm(one.tempo)) for one in file.tracks[0] if one.type == "set_tempo"]
    assert tempos == [60, 90, 120]
    tags = mutagen.File(Path(order.folder, f"{order.stem}.mp3")).tags
    titles = [str(chapter.sub_frames["TIT2"]) for chapter in tags.getall("CHAP")]
    assert titles == ["60 beats a minute", "90 beats a minute", "120 beats a minute"]
    assert done.errors == ()


def test_a_track_that_was_taken_away_is_put_back(tmp_path: Path) -> None:
    order = orders(tmp_path, SMALL)[0]
    make_track(order)
    path = Path(order.folder, f"{order.stem}.mid")
    content = path.read_bytes()
    path.unlink()
    assert make_track(order).jobs_run == 0
    assert path.read_bytes() == content


def named(order: TrackOrder, form: str = "mid") -> str:
    """Return the name in the store of a track's sound."""
    return sound_names(order)[form]


CHANGES = [
    pytest.param({"tempo_bpm": 90}, id="tempo"),
    pytest.param({"keys": ("D major",)}, id="key"),
    pytest.param({"feel": "bossa"}, id="feel"),
    pytest.param({"kind": "click"}, id="kind"),
]


@pytest.mark.parametrize("change", CHANGES)
def test_what_changes_the_sound_changes_the_job(tmp_path: Path, change: dict[str, Any]) -> None:
    order = orders(tmp_path, SMALL)[0]
    assert named(replace(order, given=replace(order.given, **change))) != named(order)


def test_other_versions_are_another_job(tmp_path: Path) -> None:
    order = orders(tmp_path, SMALL)[0]
    assert named(replace(order, versions="other")) != named(order)


@pytest.mark.parametrize("extra", ['id = "tide-{n}"\n', 'scales = "dorian, altered"\n'])
def test_what_is_heard_of_a_phrase_is_in_its_job(tmp_path: Path, extra: str) -> None:
    (order, *_) = orders(tmp_path, SMALL)
    (other, *_) = orders(tmp_path / "other", SMALL, extra=extra)
    assert named(other) != named(order)


@pytest.mark.parametrize("field", ["line", "changes", "id", "title"])
def test_another_text_is_another_job(tmp_path: Path, field: str) -> None:
    """By its id, else its title, the band knows a phrase from others and plays otherwise."""
    order = orders(tmp_path, SMALL)[0]
    text = order.given.text
    assert text is not None
    other = PhraseText({**text.fields, field: "other"})
    assert named(replace(order, given=replace(order.given, text=other))) != named(order)


@pytest.mark.parametrize(
    "change", [{"rounds": 2}, {"loudness": -18.0}, {"seed": 1}, {"sides": True}, {"count_in": 2}]
)
def test_settings_that_change_the_sound_change_the_job(tmp_path: Path, change: dict[str, Any]) -> None:
    order = orders(tmp_path, SMALL)[0]
    sound = replace(order.given.sound, **change)
    assert named(replace(order, given=replace(order.given, sound=sound))) != named(order)


def test_what_leaves_the_sound_alone_leaves_the_job(tmp_path: Path) -> None:
    order = orders(tmp_path, SMALL)[0]
    (said, *_) = orders(
        tmp_path / "said", SMALL, extra='commentary = "Hm."\nfold = true\n[links]\nx = "https://e.org"\n'
    )
    assert said.source is not None
    assert said.source.fields["commentary"] == "Hm."
    assert named(replace(said, number=5, title="Other", album="Ten")) == named(order)


@pytest.mark.parametrize(("count", "another"), [("struck", False), ("spoken", True), ("both", True)])
def test_the_language_of_the_book_is_in_the_job_where_a_voice_counts(
    tmp_path: Path, count: str, another: bool
) -> None:
    tracks = f'{SMALL}count = "{count}"\n'
    english, german = (
        orders(tmp_path, tracks, book=f'language = "{language}"\n')[0] for language in ("en", "de")
    )
    assert german.given.language == ("de" if another else "")
    assert (named(english) != named(german)) is another


def test_a_loop_is_made_only_where_its_end_joins_its_beginning(tmp_path: Path) -> None:
    order = orders(tmp_path, 'kinds = ["loop"]\nformats = ["mp3", "flac"]\nrounds = 2\n')[0]
    done = make_track(order)
    assert list(done.files) == [f"{order.stem}.flac"]
    bars = soundfile.info(Path(order.folder, f"{order.stem}.flac")).frames / 48_000 / 2.0
    assert bars == pytest.approx(round(bars), abs=0.001)


TRIO = {"acoustic bass", "piano", "drums"}
PLAYED = {
    "play-along": TRIO, "loop": TRIO, "ramp": TRIO,
    "line": {"clarinet", "count"}, "click": {"clarinet", "count"},
    "no-bass": TRIO - {"acoustic bass"}, "no-piano": TRIO - {"piano"}, "no-drums": TRIO - {"drums"},
    "bass-alone": {"acoustic bass"}, "piano-alone": {"piano"}, "drums-alone": {"drums"},
    "stem-line": {"clarinet"}, "stem-bass": {"acoustic bass"}, "stem-piano": {"piano"},
    "stem-drums": {"drums"},
}  # fmt: skip
"""Who plays in a kind of track, where it is not everybody. Source: what each is called."""


@pytest.mark.parametrize("row", KINDS, ids=lambda row: row.name)
def test_every_kind_can_be_made(tmp_path: Path, row: Any) -> None:
    order = orders(tmp_path, f'kinds = ["{row.name}"]\nformats = ["mid"]\nrounds = 2\n')[0]
    done = make_track(order)
    assert done.errors == ()
    file = mido.MidiFile(Path(order.folder, f"{order.stem}.mid"))
    notes = sum(message.type == "note_on" for track in file.tracks for message in track)
    assert notes > 8
    assert {track.name for track in file.tracks[1:]} == PLAYED.get(row.name, TRIO | {"clarinet"})
    assert arrangement_order(order).rounds == (4 if row.answers else 2)


def test_the_tuning_note_is_a_track(tmp_path: Path) -> None:
    (order,) = orders(tmp_path, 'kinds = ["tuning"]\nformats = ["mid"]\n')
    assert make_track(order).errors == ()
    file = mido.MidiFile(Path(order.folder, f"{order.stem}.mid"))
    assert [message.note for track in file.tracks for message in track if message.type == "note_on"] == [69]


# Recordings.


def recorded(tmp_path: Path, *, file: str = "media/own.wav", extra: str = "") -> tuple[TrackOrder, ...]:
    root = manuscript(tmp_path, "")
    (root / "media").mkdir(exist_ok=True)
    time_s = np.arange(2 * 44_100) / 44_100
    soundfile.write(root / "media/own.wav", 0.05 * np.sin(2 * np.pi * 330 * time_s), 44_100)
    return orders(
        tmp_path,
        'kinds = ["demonstration", "play-along"]\nformats = ["flac"]\nrounds = 1\n'
        f'[[tracks.recordings]]\nphrase = "low tide"\nfile = "{file}"\n{extra}',
    )


def test_a_recording_takes_the_place_of_the_demonstration(tmp_path: Path) -> None:
    found = recorded(tmp_path)
    assert [bool(order.recording) for order in found] == [True, False, False, False]
    done = make_track(found[0])
    samples = decode(Path(found[0].folder, f"{found[0].stem}.flac").read_bytes())
    assert len(samples) == 2 * 48_000
    assert np.argmax(np.abs(np.fft.rfft(samples[:48_000, 0]))) == 330
    assert independent_levels(samples)[0] == pytest.approx(-16, abs=0.2)
    assert done.played_with == "the author's own recording"


@pytest.mark.parametrize(
    ("extra", "taken"),
    [
        ('key = "C"\ntempo = 120\n', True),
        ('key = "D"\n', False),
        ("tempo = 90\n", False),
        ('key = "D#"\n', False),
        ("tempo = 120\n", True),
    ],
)
def test_a_recording_is_of_one_key_and_tempo(tmp_path: Path, extra: str, taken: bool) -> None:
    assert bool(recorded(tmp_path, extra=extra)[0].recording) is taken


def test_another_recording_is_another_job(tmp_path: Path) -> None:
    order = recorded(tmp_path)[0]
    before = named(order, "flac")
    soundfile.write(order.recording, np.zeros((4410, 1)), 44_100)
    assert named(order, "flac") != before


@pytest.mark.parametrize("file", ["media/missing.wav", "../own.wav", "/etc/hostname"])
def test_a_recording_that_is_not_in_the_manuscript_is_an_error(tmp_path: Path, file: str) -> None:
    with pytest.raises(ManuscriptError):
        recorded(tmp_path, file=file)


def test_a_recording_that_cannot_be_read_is_an_error_and_midi_is_made(tmp_path: Path) -> None:
    order = recorded(tmp_path)[0]
    Path(order.recording).write_bytes(b"no sound")
    done = make_track(order)
    assert [type(error) for error in done.errors] == [SoundError]
    assert list(done.files) == [f"{order.stem}.mid"]


def test_without_a_synthesiser_midi_is_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    synth_door._kept.cache_clear()
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    monkeypatch.setitem(sys.modules, "midirenderer", None)
    order = orders(tmp_path, 'kinds = ["line"]\nformats = ["mp3"]\nrounds = 1\n')[0]
    done = make_track(order)
    assert list(done.files) == [f"{order.stem}.mid"]
    assert "apt-get install" in done.errors[0].hint
