"""What workers run to make tracks: a phrase in, a file in each format out.

The store holds every track as it lies in its place, and shares its bytes with it. A new number or title
makes no new sound: the tags are written anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shedbook.book.ground.writing import refused
from shedbook.book.manuscript.source import locate
from shedbook.book.tracks.band import band_order
from shedbook.book.tracks.orders import SoundInput, TrackOrder
from shedbook.book.workshop.naming import content_hash, name_of
from shedbook.book.workshop.sharing import share
from shedbook.book.workshop.store import Store
from shedbook.book.workshop.versions import fingerprint_of, sound_libraries
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import ReadError, ShedbookError, SoundError
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.arranging.lengths import rounds_for
from shedbook.sound.audio.file_tags import Chapter, Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.heard_classes import heard_classes
from shedbook.sound.audio.loudness import Levels
from shedbook.sound.audio.quick_loudness import energies_of
from shedbook.sound.audio.rendering import audio_file
from shedbook.sound.audio.soundfile_door import read_recording
from shedbook.sound.audio.synthesiser import sound_versions, synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ, FormatRow
from shedbook.sound.audio.voice_door import voice_there, voice_version
from shedbook.sound.score.performance import Performance
from shedbook.sound.tables.clicks import STRUCK
from shedbook.sound.tables.track_kinds import KINDS, TUNING
from shedbook.sound.track import (
    Sound,
    chapters_of,
    midi_track,
    performance_of,
    played_with,
    samples_of,
    stem_audio,
)
from shedbook.sound.tuning_note import in_tune, tuning_note
from shedbook.theory.key import Key

KIND, FACTS = "sound", "card"
"""How the store calls the sound of a track, and what was measured of it."""

_MIDI = "mid"


@dataclass(frozen=True, slots=True)
class SoundFacts:
    """What was measured of the sound of a track; None for silence, and for MIDI.

    `chapters` are start and end in seconds, title and key, "" for none, of each part of a track that goes
    through several keys or tempos. `sha256` is the hash of the file in the store, `heard` the pitch classes
    that sound in each half second (`audio.heard_classes`), "" for MIDI and for a recording.
    """

    seconds: float
    lufs: float | None
    peak_dbtp: float | None
    played_with: str
    chapters: tuple[tuple[float, float, str, str], ...] = ()
    sha256: str = ""
    heard: str = ""


Made = tuple[bytes, SoundFacts]
"""The sound of a track in one format, and what was measured of it."""
_OWN_RECORDING = "the author's own recording"


@dataclass(frozen=True, slots=True)
class TrackDone:
    """What became of an order.

    `files` are their names; `played_with` says what the sound was made with, `levels` LUFS and dBTP by
    format.
    """

    files: tuple[str, ...]
    jobs_run: int
    played_with: str = ""
    levels: Mapping[str, tuple[float, float]] | None = None
    errors: tuple[ShedbookError, ...] = ()


def track_versions(font: Path | None) -> str:
    """Return what besides the manuscript decides how a track sounds: our files, libraries, synth, font."""
    return "\n".join((fingerprint_of(__name__), sound_libraries(), sound_versions(font)))


def sound_names(order: TrackOrder) -> dict[str, str]:
    """Return the names in the store of the sound of a track, by format.

    Raises:
        OSError: if the author's own recording cannot be read.
    """
    given = order.given
    if order.recording:
        given = replace(given, recording=content_hash(Path(order.recording).read_bytes()))
    place = "" if given.sound.count == STRUCK else voice_there()
    spoken = voice_version(place) if place else ""
    return {name: name_of("sound", (given, name, spoken), order.versions) for name in formats_of(order)}


def formats_of(order: TrackOrder) -> tuple[str, ...]:
    """Return the formats of a track: a loop has only those in which its end joins its beginning."""
    if not _row(order.given.kind, "loop"):
        return order.formats
    return tuple(name for name in order.formats if format_of(f".{name}").lossless)


def _row(kind: str, flag: str) -> bool:
    """Whether a kind of track has a flag of the table."""
    return any(row.name == kind and getattr(row, flag) for row in KINDS)


def make_track(order: TrackOrder) -> TrackDone:
    """Make a track, as far as its sound is missing, and put it in its place in every format.

    Where nothing that sounds can be made, MIDI is made all the same, and the error is given back.
    """
    store = Store(Path(order.store))
    inner = [store.folder / name for name in (KIND, FACTS, "unfinished")]
    with refused(Path(order.folder)):
        for folder in (*inner, Path(order.folder)):
            folder.mkdir(parents=True, exist_ok=True)
    try:
        names = sound_names(order)
        there = {form: found for form, name in names.items() if (found := _kept(store, name)) is not None}
        missing = [form for form in names if form not in there]
        made, errors = _sounds(order, missing) if missing else ({}, ())
    except (ShedbookError, OSError) as error:
        return TrackDone((), 0, errors=(_placed(order, error),))
    if errors and _MIDI not in names:
        names |= {_MIDI: name_of("instead", tuple(names.values()), order.versions)}
    return _in_place(order, store, names, there | made, len(made), errors)


def _kept(store: Store, name: str) -> Made | None:
    """Return a track that the store has whole, with the tags that it had when it was put there."""
    facts = store.read_value(SoundFacts, FACTS, name)
    content = None if facts is None else store.read_plain(KIND, name, facts.sha256)
    return None if facts is None or content is None else (content, facts)


def _placed(order: TrackOrder, error: ShedbookError | OSError) -> ShedbookError:
    """Return an error that says which track it belongs to."""
    if isinstance(error, OSError):
        return SoundError(f'"{order.title}" could not be made: {error}')
    return error


def _in_place(
    order: TrackOrder,
    store: Store,
    names: Mapping[str, str],
    tracks: Mapping[str, Made],
    jobs_run: int,
    errors: tuple[ShedbookError, ...],
) -> TrackDone:
    """Write the tags, keep the files, and share them with their places, where they are not there already."""
    files: list[str] = []
    levels: dict[str, tuple[float, float]] = {}
    sound = ""
    for form, (content, facts) in tracks.items():
        sound = facts.played_with or sound
        if facts.lufs is not None and facts.peak_dbtp is not None:
            levels[form] = (facts.lufs, facts.peak_dbtp)
        row = format_of(f".{form}")
        whole = tagged(content, row, tags_of(order, facts.played_with, facts.chapters))
        if whole != content or not facts.sha256:
            sha256 = store.write_plain(KIND, names[form], whole)
            store.write_value(FACTS, names[form], replace(facts, sha256=sha256))
        target = Path(order.folder, f"{order.stem}{row.ending}")
        if not (target.is_file() and target.read_bytes() == whole):
            with refused(target):
                share(store.path(KIND, names[form]), target, store.folder / "unfinished")
        files.append(target.name)
    return TrackDone(tuple(files), jobs_run, sound, levels, errors)


def tags_of(order: TrackOrder, sound: str, chapters: Sequence[tuple[float, float, str, str]] = ()) -> Tags:
    """Return the tags of a track; `sound` says what it was played with, `chapters` where its keys are."""
    named = tuple(
        Chapter(start, end, title, Key.parse(key) if key else None) for start, end, title, key in chapters
    )
    key = Key.parse(order.given.keys[0]) if len(order.given.keys) == 1 else None
    return Tags(
        order.title,
        order.album,
        order.artist,
        order.number,
        order.of,
        order.given.tempo_bpm,
        key,
        sound,
        named,
    )


# The sound.


def _sounds(order: TrackOrder, formats: Sequence[str]) -> tuple[dict[str, Made], tuple[ShedbookError, ...]]:
    """Return the sound of a track in formats, rendered once; with an error MIDI alone."""
    sound = Sound(
        Path(order.font) if order.font else None,
        order.given.sound.loudness,
        order.given.sound.sides,
        next((row.without for row in KINDS if row.name == order.given.kind), ()),
        order.given.sound.count if voice_there() else STRUCK,
        order.given.language,
    )
    found: dict[str, Made] = {}
    rows = [format_of(f".{name}") for name in formats]
    audio = [row for row in rows if row.container]
    error: SoundError | None = None
    if audio:
        try:
            found |= _audio(order, audio, sound)
        except SoundError as failed:
            error = failed
    if error or len(audio) < len(rows):
        performance = _performance(order, sound, synthesised=False)
        track = midi_track(performance, sound.without)
        found[_MIDI] = (track.content, _facts(track.seconds, None, ""))
    return found, (error,) if error else ()


def _audio(order: TrackOrder, rows: Sequence[FormatRow], sound: Sound) -> dict[str, Made]:
    samples, performance, made_with = _samples(order, sound)
    seconds = len(samples) / RATE_HZ if performance is None else performance.seconds
    chapters = () if performance is None else chapters_of(performance)
    parts = tuple((one.start_s, one.end_s, one.title, str(one.key or "")) for one in chapters)
    stem = performance is not None and _row(order.given.kind, "stem")
    energies = energies_of(samples.T)
    heard = "" if performance is None else heard_classes(performance, sound.without)
    found = {}
    for row in rows:
        if stem and performance is not None:
            made = stem_audio(performance, synth_for(sound.font), sound, row, samples)
        else:
            made = audio_file(samples, row, target_lufs=sound.lufs, energies=energies)
        found[row.ending.removeprefix(".")] = (
            made.content,
            replace(_facts(seconds, made.levels, made_with), chapters=parts, heard=heard),
        )
    return found


def _facts(seconds: float, levels: Levels | None, made_with: str) -> SoundFacts:
    silent = levels is None or levels.lufs == float("-inf")
    return SoundFacts(
        seconds=seconds,
        lufs=None if silent or levels is None else levels.lufs,
        peak_dbtp=None if silent or levels is None else levels.peak_dbtp,
        played_with=made_with,
    )


def _samples(order: TrackOrder, sound: Sound) -> tuple[NDArray[np.float32], Performance | None, str]:
    """Return the samples of a track, not yet at their loudness, what is played, and with what."""
    if order.recording:
        samples = read_recording(Path(order.recording))
        return samples, None, _OWN_RECORDING
    synth = synth_for(sound.font)
    performance = _performance(order, sound, synthesised=True)
    if order.given.kind == TUNING:
        performance = in_tune(performance, synth)
    samples = samples_of(performance, synth, sound, loop=_row(order.given.kind, "loop"))
    return samples, performance, played_with(synth)


def _performance(order: TrackOrder, sound: Sound, *, synthesised: bool) -> Performance:
    if order.given.kind == TUNING:
        return tuning_note()
    font = synth_for(sound.font).font if synthesised else None
    phrases = _phrases(order)
    return performance_of(phrases, arrangement_order(order, phrases), font=font)


def _phrases(order: TrackOrder) -> tuple[Phrase, ...]:
    text, source = order.given.text, order.source
    if text is None or source is None:
        return ()
    try:
        phrase = text.phrase()
    except ReadError as error:
        raise locate(error, source) from None
    return tuple(in_key(phrase, Key.parse(key)) for key in order.given.keys)


def arrangement_order(order: TrackOrder, phrases: Sequence[Phrase] = ()) -> Order:
    """Return what the players are told of a track; with `phrases` as many rounds as its minutes take."""
    return told_order(order.given, phrases)


def told_order(given: SoundInput, phrases: Sequence[Phrase] = ()) -> Order:
    """Return what the players are told, by all that a track's sound depends on."""
    row = next(row for row in KINDS if row.name == given.kind)
    sound = given.sound
    told = replace(
        band_order(sound),
        parts=row.parts,
        click=row.click,
        # In a call and answer every round is played once and left to the reader once.
        rounds=sound.rounds * (2 if row.answers else 1),
        ramp=given.ramp,
        bars=given.bars,
        tempo_bpm=given.tempo_bpm,
        feel=given.feel,
        answers=row.answers,
        loop=row.loop,
        click_kind=sound.click,
    )
    if sound.minutes is None or not phrases:
        return told
    return replace(told, rounds=rounds_for(sound.minutes, phrases, told))
