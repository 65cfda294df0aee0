"""A track decoded: how long it is, how loud, what its tags say, and whether it sounds in its key."""

from __future__ import annotations

import io
from collections.abc import Iterator

import soundfile

from shedbook.book.bundle.manifest import TrackFacts
from shedbook.sound.audio.file_tags import key_text
from shedbook.sound.audio.heard_classes import transposition_heard
from shedbook.sound.audio.loudness import loudness_lufs
from shedbook.sound.audio.read_tags import FileTags, tags_in
from shedbook.sound.audio.tables.formats import CEILING_DBTP, RATE_HZ, TAIL_SECONDS
from shedbook.theory.key import Key

_SECONDS, _LU, _DB = 0.15, 0.3, 0.5
"""How far length, loudness and peak may lie from what was measured: a decoder adds a block, and processors
differ."""
_CHAPTER_S = 0.002


def track_faults(name: str, content: bytes, facts: TrackFacts) -> Iterator[str]:
    """Yield what is wrong with a track; a MIDI file has nothing to hear, and is held against nothing here."""
    if name.endswith(".mid"):
        return
    try:
        samples, rate = soundfile.read(io.BytesIO(content), dtype="float32", always_2d=True)
    except soundfile.LibsndfileError as error:
        yield f"it cannot be decoded: {error}"
        return
    try:
        yield from _tag_faults(tags_in(content), facts)
    except ValueError as error:
        yield str(error)
    seconds = len(samples) / rate
    if min(abs(seconds - facts.seconds - tail) for tail in (0.0, TAIL_SECONDS)) > _SECONDS:
        yield f"it lasts {seconds:.1f} s in place of {facts.seconds + TAIL_SECONDS:.1f}"
    if facts.lufs is None:
        return
    loud = loudness_lufs(samples)
    if abs(loud - facts.lufs) > _LU:
        yield f"it is {loud:.1f} LUFS loud in place of {facts.lufs:.1f}"
    peak = float(abs(samples).max())
    if peak > 10 ** ((CEILING_DBTP + _DB) / 20):
        yield f"its peaks are higher than {CEILING_DBTP:g} dB"
    if facts.heard and rate == RATE_HZ:
        up = transposition_heard(samples, facts.heard)
        if up:
            yield f"it sounds {up} half steps higher than it should, or is another track"


def _tag_faults(tags: FileTags, facts: TrackFacts) -> Iterator[str]:
    if tags.title != facts.title:
        yield f'its title is "{tags.title}" in place of "{facts.title}"'
    key = key_text(Key.parse(facts.keys[0])) if len(facts.keys) == 1 else ""
    if tags.key != key:
        yield f"its key is said to be {tags.key or 'none'} in place of {key or 'none'}"
    tempo = str(facts.tempo) if facts.tempo else ""
    if tags.tempo != tempo:
        yield f"its tempo is said to be {tags.tempo or 'none'} in place of {tempo or 'none'}"
    place = f"{facts.place}/{facts.of}"
    if tags.place != place:
        yield f"it is said to be track {tags.place or 'of no number'}, not {place}"
    wanted = [(start, title) for start, _, title, _ in facts.chapters]
    near = len(wanted) == len(tags.chapters) and all(
        abs(at - start) <= _CHAPTER_S and said == title
        for (at, said), (start, title) in zip(tags.chapters, wanted, strict=True)
    )
    if not near:
        yield f"it has {len(tags.chapters)} chapters that are not those of its keys"
