"""Whether the music of a manifest hangs together: every phrase in every key, the author's, moved. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from shedbook.book.bundle.manifest import MIDI, MUSICXML, BookMusic, FileRow, Source, ZipManifest
from shedbook.book.bundle.music import texts_by_key
from shedbook.book.bundle.opened import Fault
from shedbook.book.reading_back.expected_scores import SCALE
from shedbook.errors import ShedbookError
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes

_OCTAVE = 12


def music_faults(said: ZipManifest) -> list[Fault]:
    """Return what is wrong with the music and the files that the manifest of a zip names."""
    return [
        *book_faults(said.music, said.phrases),
        *_missing_files(said.music, said.files, said.phrases),
        *_missing_tracks(said),
    ]


def book_faults(music: BookMusic, sources: Sequence[Source]) -> Iterator[Fault]:
    """Yield what is wrong with the scores of a PDF: a phrase or key too few, music not the author's."""
    keys = _keys(music)
    by_number = {source.number: source for source in sources}
    wanted = {_tonics(found) for found in keys.values()}
    most = max(wanted, key=len, default=frozenset())
    for number, source in by_number.items():
        found = keys.get(number, [])
        lacking = len(most) - len(_tonics(found))
        if lacking:
            yield Fault(music.file, f"{number}. {source.title} lacks {lacking} of {len(most)} keys.")
    for number in keys.keys() - by_number.keys():
        yield Fault(music.file, f"It holds a phrase {number} that is not in the book.")
    for (number, key), text in texts_by_key(music).items():
        if number in by_number:
            for wrong in moved_wrongly(by_number[number].fields, text):
                yield Fault(music.file, f"{number}. {by_number[number].title} in {key}: {wrong}.")


def _keys(music: BookMusic) -> Mapping[int, list[str]]:
    found: dict[int, list[str]] = {}
    for row in music.scores:
        if row.kind != SCALE:
            found.setdefault(row.number, []).append(row.written)
    return found


def _tonics(keys: Sequence[str]) -> frozenset[str]:
    return frozenset(keys)


def moved_wrongly(source: Mapping[str, Any], text: Mapping[str, Any]) -> Iterator[str]:
    """Yield in which way a text is not a phrase moved by one interval."""
    try:
        before, after = phrase_from_fields(source), phrase_from_fields(text)
    except ShedbookError as error:
        yield f"it cannot be read: {error.message}"
        return
    was, now = sounding_notes(before), sounding_notes(after)
    if [(one.start, one.quarters, one.marks) for one in was] != [
        (one.start, one.quarters, one.marks) for one in now
    ]:
        yield "its rhythm is not the author's"
        return
    moves = {one.pitch.midi - other.pitch.midi for one, other in zip(now, was, strict=True)}
    if len({move % _OCTAVE for move in moves}) > 1 or (len(moves) > 1 and not source.get("fold")):
        yield "its notes are not the author's, moved by one interval"
        return
    up = moves.pop() if moves else 0
    if (after.key.tonic.pitch_class - before.key.tonic.pitch_class - up) % _OCTAVE:
        yield "its notes are moved by another interval than its key"
    if _chords(after, 0) != _chords(before, up):
        yield "its chords are moved by another interval than its notes"


def _chords(phrase: Phrase, up: int) -> list[tuple[object, ...]]:
    """Return the chords as place, pitch class of the root and the pitch classes of the tones, moved up."""
    return [
        (
            change.bar,
            change.beat,
            None if change.chord.root is None else (change.chord.root.pitch_class + up) % _OCTAVE,
            frozenset((tone.pitch_class + up) % _OCTAVE for tone in change.chord.tones),
        )
        for change in phrase.changes
    ]


def _missing_files(music: BookMusic, files: Sequence[FileRow], sources: Sequence[Source]) -> Iterator[Fault]:
    """Yield for which phrase and key there is no file for other programs, or one too many."""
    wanted = {(number, key) for number, found in _keys(music).items() for key in found}
    titles = {source.number: source.title for source in sources}
    for role in (MUSICXML, MIDI):
        there = {(row.number, row.key) for row in files if row.role == role}
        for number, key in sorted(wanted - there):
            yield Fault(role, f"There is no file of {number}. {titles.get(number, '')} in {key}.")
        for number, key in sorted(there - wanted):
            yield Fault(role, f"There is a file of phrase {number} in {key}, which the book has not.")


def _missing_tracks(said: ZipManifest) -> Iterator[Fault]:
    """Yield which tracks are lacking: of the whole book there is one at each place."""
    tracks = [row.track for row in said.files if row.track is not None]
    places = {one.place for one in tracks}
    wanted = set(range(1, max((one.of for one in tracks), default=0) + 1))
    if places - wanted or len({one.of for one in tracks}) > 1:
        yield Fault("tracks", "They are those of two books.")
    elif not said.about.part:
        for place in sorted(wanted - places):
            yield Fault("tracks", f"There is no track {place} of {len(wanted)}.")
