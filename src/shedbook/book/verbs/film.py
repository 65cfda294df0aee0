"""Score videos: the page still, the sounding note marked, in step with a track or the author's recording."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shedbook.book.ground.addresses import filled
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import Words, language_of_words
from shedbook.book.ground.writing import put, refused
from shedbook.book.lessons.film_names import film_names
from shedbook.book.lessons.film_pages import film_pages, shown_on
from shedbook.book.lessons.film_talk import points_of
from shedbook.book.lessons.reader_scores import LINKS, ReaderScore, reader_score
from shedbook.book.lessons.track_moments import track_moments
from shedbook.book.manuscript.choice import chosen_phrases
from shedbook.book.manuscript.file_names import offsets_beside
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.tracks.band import band_order
from shedbook.book.tracks.orders import is_called
from shedbook.book.verbs.cards import pictures_of
from shedbook.book.workshop.naming import content_hash, name_of
from shedbook.book.workshop.output_folder import STORE, claim
from shedbook.book.workshop.versions import fingerprint_of, sound_libraries
from shedbook.errors import ReadError, UnknownNameError
from shedbook.film.captions import (
    Caption,
    Point,
    captions_of,
    chapter_list,
    vtt_captions,
    vtt_chapters,
    without_round,
)
from shedbook.film.card import screen_named
from shedbook.film.encoder_door import FilmTags, encoder_named, library, write_film
from shedbook.film.frames import scenes
from shedbook.film.moments import Moments, Offsets, moments_of_recording, read_offsets, titled
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.soundfile_door import read_recording
from shedbook.sound.audio.synthesiser import Synth, sound_versions, synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.written_score import COUNT_IN, LINE, PLAYER_NAMES
from shedbook.sound.track import Sound, performance_of, samples_of
from shedbook.theory.pitch import NoteName

FPS = 30
RECORD, LIST = "films.json", "videos.json"
_PARTS = {"both": (), "trio": (LINE,), "line": tuple(name for name in PLAYER_NAMES if name != LINE)}
PARTS = tuple(_PARTS)
_FEWEST_ROUNDS, _MOST_ROUNDS = 2, 6


@dataclass(frozen=True, slots=True)
class FilmOrder:
    """Which videos are wanted.

    `phrases` are numbers, none for all; `key` a tonic, "" for each phrase's own. `rounds` is how often the
    phrase is played, 0 for as often as its captions need. With a `recording` and its `offsets` one phrase is
    filmed, in step with the recording; recordings of the manuscript are taken where their offsets lie beside
    them. `title` and `author` as in `CardsOrder`.
    """

    manuscript: Path
    out: Path
    phrases: tuple[str, ...] = ()
    key: str = ""
    edition: str = "concert"
    screen: str = "wide"
    parts: str = "both"
    rounds: int = 0
    tempo_bpm: int | None = None
    fps: int = FPS
    encoder: str = "av1"
    captions: bool = True
    marks: bool = True
    recording: Path | None = None
    offsets: Path | None = None
    title: str | None = None
    author: str | None = None


@dataclass(frozen=True, slots=True)
class Film:
    """A video that is there: its file, its phrase, its length, whether it was made anew, what it plays.

    `unshown` are talking points for which no round was left, as sentences.
    """

    file: Path
    number: int
    seconds: float
    made: bool
    recording: str = ""
    unshown: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Heard:
    """What is heard in a video: its sound, when everything sounds, and whose recording it is."""

    sound: NDArray[np.float32]
    moments: Moments


def make_films(order: FilmOrder, tell: Tell | None = None) -> Iterator[Film]:
    """Make the videos one after the other and yield each as soon as it is there.

    One that has been made from the same things before is left as it is, so that a run that was stopped goes
    on where it ended.

    Raises:
        ReadError: if a phrase, a recording or its offsets cannot be read.
        UnknownNameError: for a phrase, key, edition, screen, encoder or part that is not there.
        RenderError: if PyAV is missing or a video cannot be made.
        SoundError: if nothing that sounds can be made.
        OutputError: if the folder is not ours or cannot be written.
    """
    library()
    screen_named(order.screen)
    encoder_named(order.encoder)
    if order.parts not in _PARTS:
        raise UnknownNameError(f'"{order.parts}" is no choice of parts.', hint=f"Write {', '.join(PARTS)}.")
    manuscript = open_manuscript(order.manuscript)
    sources = chosen_phrases(manuscript.phrases, order.phrases)
    if order.recording is not None and len(sources) != 1:
        raise UnknownNameError(
            "A recording is of one phrase.", hint="Name it with --phrases, such as --phrases 7."
        )
    names = film_names(manuscript)
    claim(order.out)
    record = _Record(order.out)
    for place, source in enumerate(sources):
        if tell is not None:
            tell(Step("films", place, len(sources), source.title))
        yield _film(source, names[source.number], manuscript, order, record)
    record.list_all(names, manuscript)
    if tell is not None:
        tell(Step("films", len(sources), len(sources)))


def _film(source: PhraseSource, name: str, manuscript: Manuscript, order: FilmOrder, record: _Record) -> Film:
    """Make the video of one phrase, if it is not there already."""
    key = order.key or _key_of(order)
    score = reader_score(source, manuscript, key=key, edition=order.edition)
    recording, offsets = _recording_of(source, score, manuscript, order)
    target = order.out / name
    made_of = _made_of(score, manuscript, order, recording, offsets)
    known = record.known(name, made_of)
    if known is not None and target.is_file():
        return Film(target, source.number, known, False, _name(recording), record.unshown(name))
    points = points_of(score.account, score.words) if order.captions else ()
    heard = _recorded(score, recording, offsets) if recording else _played(score, points, manuscript, order)
    seconds = len(heard.sound) / RATE_HZ
    captions = captions_of(points, heard.moments)
    _write(target, score, heard, captions, manuscript, order)
    unshown = tuple(f"{_bar(point.bar)}: {point.text}" for point in without_round(points, captions))
    record.put(name, made_of, (seconds, source, unshown))
    return Film(target, source.number, seconds, True, _name(recording), unshown)


def _bar(number: int) -> str:
    return f"bar {number}" if number else "pick-up"


def _name(path: Path | None) -> str:
    return "" if path is None else path.name


# What is heard.


def _recording_of(
    source: PhraseSource, score: ReaderScore, manuscript: Manuscript, order: FilmOrder
) -> tuple[Path | None, Path | None]:
    """Return the recording of a phrase in its key and the file of its offsets; None where there is none.

    Of several tempos it is the one that is asked for, else the phrase's own, else the first.
    """
    if order.recording is not None:
        beside = offsets_beside(order.recording)
        return order.recording, order.offsets or beside
    own = source.text.phrase().tempo_bpm
    found: dict[int, tuple[Path, Path]] = {}
    for one in manuscript.settings.tracks.recordings:
        file = manuscript.root / one.file
        beside = offsets_beside(file)
        tonic = (
            NoteName.parse(one.tonic).pitch_class if one.tonic else source.text.phrase().key.tonic.pitch_class
        )
        if is_called(source, one.phrase) and tonic == score.key.tonic.pitch_class and beside.is_file():
            found.setdefault(one.tempo_bpm or own, (file, beside))
    if order.tempo_bpm is not None:
        return found.get(order.tempo_bpm, (None, None))
    return found.get(own) or next(iter(found.values()), (None, None))


def _key_of(order: FilmOrder) -> str:
    """Return the tonic that the offsets of a recording name, "" for none: that is what is heard."""
    if order.recording is None:
        return ""
    return _offsets(order.offsets or offsets_beside(order.recording)).key


def _offsets(path: Path) -> Offsets:
    """Read when the notes of a recording sound."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise ReadError(
            f"{path} cannot be read: {error}",
            hint="It says when each note of the recording sounds: name it with --offsets.",
        ) from None
    return read_offsets(text, path.name)


def _recorded(score: ReaderScore, recording: Path, offsets: Path | None) -> _Heard:
    """Return a recording of the author's with its times."""
    assert offsets is not None
    found = _offsets(offsets)
    sound = read_recording(recording)
    moments = moments_of_recording(score.sounding, found, len(sound) / RATE_HZ)
    return _Heard(sound, _named(moments, score.words))


def _played(score: ReaderScore, points: Sequence[Point], manuscript: Manuscript, order: FilmOrder) -> _Heard:
    """Return a track of the band with its times, in as many rounds as its captions need."""
    own = manuscript.settings.tracks.sound
    font = manuscript.root / own.sound_font if own.sound_font else None
    synth: Synth = synth_for(font)
    asked = replace(band_order(own), rounds=order.rounds or _FEWEST_ROUNDS, tempo_bpm=order.tempo_bpm)
    while True:
        performance = performance_of(score.sounding, asked, font=synth.font)
        moments = track_moments(score.sounding, performance)
        enough = order.rounds or asked.rounds >= _MOST_ROUNDS
        if enough or len(captions_of(points, moments)) == len(points):
            break
        asked = replace(asked, rounds=asked.rounds + 1)
    sound = Sound(font, own.loudness, own.sides, _PARTS[order.parts])
    samples = samples_of(performance, synth, sound)
    return _Heard(levelled(samples, own.loudness).samples, _named(moments, score.words))


def _named(moments: Moments, words: Words) -> Moments:
    titles = {COUNT_IN: words("video.count-in")}
    titles |= {
        one.title: words("video.round", n=one.title) for one in moments.chapters if one.title.isdecimal()
    }
    return titled(moments, titles)


# The files.


def _write(
    target: Path,
    score: ReaderScore,
    heard: _Heard,
    captions: Sequence[Caption],
    manuscript: Manuscript,
    order: FilmOrder,
) -> None:
    """Write the video and the texts beside it, each whole or not at all."""
    row = screen_named(order.screen)
    said = (
        score.source.title if order.title is None else order.title,
        score.facts,
        manuscript.settings.author if order.author is None else order.author,
    )
    words, language = score.words, language_of_words(manuscript.settings.language)
    bars = [
        (bar.number, words.sentence(words.form("bar" if bar.number else "bar.pick-up", n=bar.number)))
        for bar in score.written.bars
    ]
    pictures = pictures_of(score, row, LINKS if order.marks else "", captions=True)
    pages = film_pages(row, pictures, said, [one.text for one in captions], bars, language)
    frames = max(1, round(len(heard.sound) / RATE_HZ * order.fps))
    shown = shown_on(heard.moments, captions, pages, order.fps, frames)
    tags = FilmTags(score.source.title, manuscript.settings.author, manuscript.title)
    unfinished = target.parent / STORE / "unfinished" / f".{os.getpid()}-{target.name}"
    with refused(target):
        try:
            write_film(
                unfinished, scenes(pages.easel(), shown), heard.sound, (row.width, row.height), order.fps,
                encoder_named(order.encoder), tags, heard.moments.chapters,
            )  # fmt: skip
            for ending, text in _texts(heard.moments, captions):
                put(target.with_suffix(ending), text.encode(), unfinished.parent)
            unfinished.replace(target)
        finally:
            unfinished.unlink(missing_ok=True)


def _texts(moments: Moments, captions: Sequence[Caption]) -> Iterator[tuple[str, str]]:
    if captions:
        yield ".captions.vtt", vtt_captions(captions)
    yield ".chapters.vtt", vtt_chapters(moments.chapters, moments.seconds)
    yield ".chapters.txt", chapter_list(moments.chapters)


def _made_of(
    score: ReaderScore, manuscript: Manuscript, order: FilmOrder, recording: Path | None, offsets: Path | None
) -> str:
    """Return the hash of everything on which a video depends."""
    settings = manuscript.settings
    sounds = [
        content_hash(path.read_bytes())
        for path in (recording, offsets)
        if path is not None and path.is_file()
    ]
    own = replace(order, manuscript=Path(), out=Path(), phrases=(), recording=None, offsets=None)
    font = settings.tracks.sound.sound_font
    versions = (
        fingerprint_of(__name__), sound_libraries(), library().__version__,
        sound_versions(manuscript.root / font if font else None),
    )  # fmt: skip
    given = (
        json.dumps(dict(score.source.text.fields), default=str, sort_keys=True),
        [str(value) for value in (own, settings.tracks.sound, settings.pages.words, settings.language)],
        [settings.title, settings.author, score.facts, str(settings.courtesy), *sounds],
    )
    return name_of("film", given, "\n".join(versions))


class _Record:
    """Which videos of a folder were made, of what; kept in its store, and written after each video."""

    def __init__(self, out: Path) -> None:
        self._out, self._path = out, out / STORE / RECORD
        try:
            found = json.loads(self._path.read_text(encoding="utf-8"))
            self._rows: dict[str, list[object]] = dict(found) if isinstance(found, dict) else {}
        except (OSError, ValueError):
            self._rows = {}

    def known(self, name: str, made_of: str) -> float | None:
        """Return the length of a video that was made of these things; None where it was not."""
        row = self._rows.get(name, [])
        return float(str(row[1])) if len(row) == 5 and row[0] == made_of else None

    def unshown(self, name: str) -> tuple[str, ...]:
        """Return the talking points that a video does not show."""
        row = self._rows.get(name, [])
        return tuple(map(str, row[4])) if len(row) == 5 and isinstance(row[4], list) else ()

    def put(self, name: str, made_of: str, film: tuple[float, PhraseSource, Sequence[str]]) -> None:
        """Remember a video: its length, its phrase, what it does not show."""
        seconds, source, unshown = film
        self._rows[name] = [made_of, round(seconds, 3), source.number, source.title, list(unshown)]
        text = json.dumps(self._rows, ensure_ascii=False, indent=0, sort_keys=True)
        with refused(self._out):
            put(self._path, text.encode(), self._out / STORE / "unfinished")

    def list_all(self, names: dict[int, str], manuscript: Manuscript) -> None:
        """Write the list of all videos that are there, in the order of the book, with their addresses."""
        address = manuscript.settings.shop.videos_address
        largest = max(names)
        rows = []
        for source in manuscript.phrases:
            name = names[source.number]
            row = self._rows.get(name)
            if row is not None and (self._out / name).is_file():
                rows.append({
                    "phrase": source.number, "title": source.title, "file": name, "seconds": row[1],
                    "address": filled(address, source.number, largest),
                })  # fmt: skip
        text = json.dumps(rows, ensure_ascii=False, indent=2) + "\n"
        with refused(self._out):
            put(self._out / LIST, text.encode(), self._out / STORE / "unfinished")
