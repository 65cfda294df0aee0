"""The tracks that lie beside the page: which of them it can play, and where it finds them. Pure.

A page is put beside its tracks by a build, and in the zip of an edition. What it plays it asks for by its
place there; a track that does not lie there is not offered.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import Any

from shedbook.book.practice.packing import compact_json
from shedbook.book.tracks.orders import SoundInput, TrackOrder
from shedbook.sound.tables.track_kinds import KINDS

FILE = "tracks.js"
"""The file of the page that names the tracks."""
_UP = "../"
_NOT_PLAYED = ("mid",)
"""Formats that no browser plays."""
FOLLOWED = tuple(
    row for row in KINDS if not (row.all_keys or row.loop or row.excerpt or row.ramp or row.stem)
)
"""The kinds that the page plays: in one key, at one tempo, with all bars of the phrase."""
_ROWS = {row.name: row for row in FOLLOWED}


@dataclass(frozen=True, slots=True)
class BesideTrack:
    """A track that lies beside the page.

    `key` is its concert tonic, `share` its tempo in hundredths of the phrase's, `feel` "" for the phrase's
    own, `files` names from the output folder, `timing` the place of its times among those of the phrase, -1
    for a recording, of which nobody knows them.
    """

    key: str
    kind: str
    share: float
    feel: str
    files: tuple[str, ...]
    timing: int


def followed(orders: Sequence[TrackOrder], number: int) -> tuple[TrackOrder, ...]:
    """Return the tracks of a phrase that the page plays."""
    return tuple(
        one
        for one in orders
        if one.source is not None and one.source.number == number and one.given.kind in _ROWS
    )


def timed_inputs(orders: Sequence[TrackOrder]) -> tuple[SoundInput, ...]:
    """Return the tracks whose times are asked for, of those alike one."""
    found: list[SoundInput] = []
    for one in orders:
        if not one.recording and _timed(one.given) not in found:
            found.append(_timed(one.given))
    return tuple(found)


def _timed(given: SoundInput) -> SoundInput:
    """Return the track by whose times one is followed: who is left out changes none."""
    row = _ROWS[given.kind]
    kind = next(
        one.name
        for one in FOLLOWED
        if (one.parts == "line", one.answers) == (row.parts == "line", row.answers)
    )
    return replace(given, kind=kind)


def tracks_beside(
    orders: Sequence[TrackOrder], own_tempo: int, files: Mapping[str, Sequence[str]]
) -> tuple[BesideTrack, ...]:
    """Return the tracks of a phrase for the page.

    Args:
        orders: those of `followed`.
        own_tempo: the phrase's tempo in beats a minute.
        files: the names of the files of each track, from the output folder, by the track's stem.
    """
    times = timed_inputs(orders)
    found = []
    for one in orders:
        there = tuple(name for name in files.get(one.stem, ()) if name.rpartition(".")[2] not in _NOT_PLAYED)
        if there:
            given = one.given
            found.append(
                BesideTrack(
                    given.keys[0].partition(" ")[0],
                    given.kind,
                    round(100 * given.tempo_bpm / own_tempo, 3),
                    given.feel,
                    there,
                    -1 if one.recording else times.index(_timed(given)),
                )
            )
    return tuple(found)


def tracks_script(tracks: Mapping[str, Sequence[BesideTrack]]) -> str:
    """Return the file that names the tracks, by the ids of their phrases."""
    rows: dict[str, list[Any]] = {
        phrase: [
            [one.key, one.kind, one.share, one.feel, [f"{_UP}{name}" for name in one.files], one.timing]
            for one in of_phrase
        ]
        for phrase, of_phrase in tracks.items()
        if of_phrase
    }
    return _script(rows)


def moved(script: str, places: Mapping[str, str]) -> str:
    """Return the file for a page whose tracks lie elsewhere.

    Args:
        script: what `tracks_script` returned.
        places: where each track lies from the folder above the page, by the name of its file. A track without
            a place is left out.
    """
    rows: dict[str, list[Any]] = json.loads(script.partition(",")[2].rpartition(")")[0])
    for of_phrase in rows.values():
        for row in of_phrase:
            names = [PurePosixPath(name).name for name in row[4]]
            row[4] = [f"{_UP}{places[name]}" for name in names if name in places]
    left = {phrase: [row for row in of_phrase if row[4]] for phrase, of_phrase in rows.items()}
    return _script({phrase: of_phrase for phrase, of_phrase in left.items() if of_phrase})


def _script(rows: Mapping[str, Sequence[Any]]) -> str:
    return f"practice.put({compact_json('tracks')},{compact_json(rows)});\n"
