"""A recording session: the takes in order with their rests, a sheet to print, guide tracks, slates."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shedbook.book.ground.progress import Step, Tell
from shedbook.book.ground.words import Words, language_of_words
from shedbook.book.ground.writing import put, refused
from shedbook.book.lessons.pages_data import SheetPages, SheetRow
from shedbook.book.lessons.reader_scores import ReaderScore, reader_score
from shedbook.book.lessons.session_list import SESSION_LIST, SessionTake, session_json
from shedbook.book.manuscript.choice import chosen_phrases, chosen_tonics
from shedbook.book.manuscript.file_names import file_words, recording_name
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.pages.typst_door import sheet_pdf
from shedbook.book.workshop.output_folder import STORE, claim
from shedbook.errors import ReadError, SoundError
from shedbook.lesson.session import Rest, Session, Take, effort_of, session
from shedbook.lesson.timing import played_seconds
from shedbook.sound.arranging.order import Order
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.slate import slate_tones
from shedbook.sound.audio.soundfile_door import encode, read_recording
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.audio.voice_door import speech_of, voice_there
from shedbook.sound.guide import guide_track
from shedbook.theory.key import Key

SHEET = "takes.pdf"
GUIDES, SLATES = "guides", "slates"
_MOST_TAKES = 400
_PAUSE_S = 0.4
_NO_INSTRUMENT = 84
"""Up to which note a line is easy where no instrument is named: C6, the top of what most horns play (common
practice)."""


@dataclass(frozen=True, slots=True)
class SessionOrder:
    """What is recorded: phrases by number, keys by tonic, tempos; none for all, for its own, for its own.

    `instrument` is the player's. `rounds` is how often the phrase is played in a take. Without `sounding`
    there are neither guides nor slates.
    """

    manuscript: Path
    out: Path
    phrases: tuple[str, ...] = ()
    keys: tuple[str, ...] = ()
    tempos: tuple[int, ...] = ()
    instrument: str = "concert"
    rounds: int = 1
    sounding: bool = True


@dataclass(frozen=True, slots=True)
class SessionMade:
    """The session, the files in order, and what else is to be told."""

    session: Session
    files: tuple[Path, ...]
    said: tuple[str, ...]


def make_session(order: SessionOrder, tell: Tell | None = None) -> SessionMade:
    """Write what a recording session needs.

    Raises:
        ReadError: if a phrase cannot be read, or there are more takes than anybody plays.
        UnknownNameError: for a phrase, key or instrument that is not there.
        SoundError: if no guide can sound.
        OutputError: if the folder is not ours or cannot be written.
    """
    chosen_tonics(order.keys)
    manuscript = open_manuscript(order.manuscript)
    scores: dict[tuple[int, str], ReaderScore] = {}
    for source in chosen_phrases(manuscript.phrases, order.phrases):
        for key in order.keys or ("",):
            score = reader_score(source, manuscript, key=key, edition=order.instrument)
            scores[source.number, str(score.key)] = score
    takes = [
        take
        for place, score in enumerate(scores.values())
        for take in _takes(score, order, place % max(1, len(order.keys)))
    ]
    if len(takes) > _MOST_TAKES:
        raise ReadError(
            f"{len(takes)} takes are more than one session can hold.",
            hint="Name fewer phrases, keys or tempos.",
        )
    found = session(takes)
    claim(order.out)
    said: list[str] = []
    files = [SHEET, SESSION_LIST]
    _put(order.out, SHEET, sheet_pdf("takes.typ", _sheet(found, manuscript, scores)))
    _put(order.out, SESSION_LIST, session_json(_list(found, manuscript)).encode())
    if order.sounding:
        voice = voice_there()
        if not voice:
            said.append("Slates sound and are not spoken: espeak-ng is not installed.")
        for take in found.takes:
            if tell is not None:
                tell(Step("takes", take.number, len(found.takes), take.title))
            score = scores[take.phrase, take.key]
            for name, content in _sounds(take, score, manuscript, order, voice):
                _put(order.out, name, content)
                files.append(name)
    return SessionMade(found, tuple(order.out / name for name in files), tuple(said))


def _put(out: Path, name: str, content: bytes) -> None:
    with refused(out):
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        put(out / name, content, out / STORE / "unfinished")


def _takes(score: ReaderScore, order: SessionOrder, place: int) -> Iterator[Take]:
    """Yield a take of a phrase in a key for each tempo."""
    instrument = score.edition.instrument
    highest = _NO_INSTRUMENT
    if instrument is not None:
        highest = score.edition.bands.comfortable.high.midi - score.edition.transposition.semitones
    for tempo in order.tempos or (score.sounding.tempo_bpm,):
        effort = effort_of(score.sounding, tempo, highest, times=order.rounds)
        seconds = played_seconds(score.sounding, times=order.rounds) * score.sounding.tempo_bpm / tempo
        yield Take(
            0, score.number, score.source.title, str(score.key), str(score.written.key), tempo,
            round(effort, 1), round(seconds, 1), place,
        )  # fmt: skip


def recorded_as(take: Take, manuscript: Manuscript) -> str:
    """Return where the kept recording of a take belongs, from the manuscript's folder."""
    source = next(one for one in manuscript.phrases if one.number == take.phrase)
    own = take.tempo_bpm == source.text.phrase().tempo_bpm
    return recording_name(take.phrase, take.title, take.key, 0 if own else take.tempo_bpm)


# The sheet.


def _sheet(found: Session, manuscript: Manuscript, scores: dict[tuple[int, str], ReaderScore]) -> SheetPages:
    settings = manuscript.settings
    words = next(iter(scores.values())).words
    columns = (
        "session.take", "", "session.phrase", "session.key", "session.tempo", "session.effort",
        "session.tries", "session.keep", "session.file",
    )  # fmt: skip
    return SheetPages(
        title=words("session.title", book=manuscript.title),
        author=settings.author,
        language=language_of_words(settings.language),
        says=(words("session.says"), words("session.time", minutes=found.minutes)),
        columns=tuple(words(row) if row else "" for row in columns),
        rows=tuple(_row(step, manuscript, words) for step in found.steps),
    )


def _row(step: Take | Rest, manuscript: Manuscript, words: Words) -> SheetRow:
    if isinstance(step, Rest):
        row = "session.rest.long" if step.long else "session.rest"
        return SheetRow((words.sentence(words(row, minutes=step.minutes)),))
    key = words.whole_key(step.read)
    if step.read != step.key:
        key = f"{key} ({words('key.concert', tonic=words.key(step.key)[0])})"
    file = recorded_as(step, manuscript).rpartition("/")[2]
    return SheetRow(
        (
            str(step.number), str(step.phrase), step.title, key, str(step.tempo_bpm), f"{step.effort:g}",
            "[][][]", "[]", file,
        )
    )  # fmt: skip


def _list(found: Session, manuscript: Manuscript) -> tuple[SessionTake, ...]:
    """Return the takes for whoever reads the recordings afterwards."""
    return tuple(
        SessionTake(
            take.number, take.phrase, take.title, Key.parse(take.key), take.tempo_bpm,
            recorded_as(take, manuscript),
        )
        for take in found.takes
    )  # fmt: skip


# What sounds.


def _sounds(
    take: Take, score: ReaderScore, manuscript: Manuscript, order: SessionOrder, voice: str
) -> Iterator[tuple[str, bytes]]:
    """Yield the guide and the slate of a take."""
    own = manuscript.settings.tracks.sound
    synth = synth_for(manuscript.root / own.sound_font if own.sound_font else None)
    asked = Order(
        rounds=order.rounds,
        tempo_bpm=take.tempo_bpm,
        count_in=2,
        seed=own.seed,
        bass_instrument=own.bass_instrument,
        comping_instrument=own.comping_instrument,
    )
    stem = (
        f"{take.number:03}-{file_words(take.title)}-{file_words(take.key.partition(' ')[0])}-{take.tempo_bpm}"
    )
    yield f"{GUIDES}/{stem}.flac", encode(guide_track(score.sounding, asked, synth), format_of(".flac"))
    text = score.words(
        "session.slate", n=take.number, title=take.title, key=score.words.voiced_key(take.key),
        tempo=take.tempo_bpm,
    )  # fmt: skip
    slate = _slate(take.number, text, voice, language_of_words(manuscript.settings.language))
    yield f"{SLATES}/{take.number:03}.wav", encode(slate, format_of(".wav"))


def _slate(number: int, text: str, voice: str, language: str) -> NDArray[np.float32]:
    """Return the slate of a take: its tones, and where something speaks its words."""
    pieces = [slate_tones(number, RATE_HZ)]
    if voice:
        spoken = read_recording(io.BytesIO(speech_of(voice, text, language)))[:, 0]
        peak = float(np.abs(spoken).max())
        if peak <= 0:
            raise SoundError("The program that speaks says nothing.")
        pieces += [np.zeros(round(_PAUSE_S * RATE_HZ), np.float32), spoken * np.float32(0.5 / peak)]
    mono = np.concatenate(pieces)
    return np.stack([mono, mono], axis=1)
