"""What the author asks for with --phrases, --editions and --keys, found in what there is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shedbook.book.manuscript.settings.tracks import KIND_NAMES, TrackSettings, check_loops
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.manuscript.tablature import asked_tablature, with_tablature
from shedbook.editions.instruments.edition import Edition, editions_in, group_editions
from shedbook.editions.keys.key_cycle import readable_tonic
from shedbook.editions.tables.instruments import INSTRUMENTS
from shedbook.errors import ManuscriptError, UnknownNameError, nearest
from shedbook.sound.tables.track_kinds import KIND_GROUPS, KINDS
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_RANGE = re.compile(r"(\d+)(?:-(\d+))?")
_MOST_ACCIDENTALS = 7
NO_TRACKS, ALL_TRACKS = "none", "all"
LOOPS = frozenset(row.name for row in KINDS if row.loop)


def chosen_phrases(phrases: Sequence[PhraseSource], asked: Sequence[str]) -> tuple[PhraseSource, ...]:
    """Return the phrases with the numbers asked for ("3", "5-8"), in the order of the book; all for none.

    Raises:
        UnknownNameError: for a number that no phrase has.
    """
    if not asked:
        return tuple(phrases)
    there = {source.number for source in phrases}
    numbers: set[int] = set()
    for text in asked:
        found = _RANGE.fullmatch(text)
        wanted = range(int(found[1]), int(found[2] or found[1]) + 1) if found else range(0)
        if not wanted or wanted[0] not in there or wanted[-1] not in there:
            raise UnknownNameError(
                f'There is no phrase "{text}" in this book.',
                hint=f"It has phrases {min(there)} to {max(there)}; write --phrases 3,7 or 5-8.",
            )
        numbers.update(wanted)
    return tuple(source for source in phrases if source.number in numbers)


def chosen_phrase(phrases: Sequence[PhraseSource], asked: str) -> PhraseSource:
    """Return the phrase with a number, its place among `phrases` counted from 1, or with a title.

    Raises:
        UnknownNameError: if there is none.
    """
    name = asked.strip()
    if name.isdecimal() and 1 <= int(name) <= len(phrases):
        return phrases[int(name) - 1]
    for source in phrases:
        if source.title.casefold() == name.casefold():
            return source
    titles = [source.title for source in phrases]
    listed = ", ".join(f"{place} {title}" for place, title in enumerate(titles[:12], 1))
    raise UnknownNameError(
        f'There is no phrase "{asked}" here.',
        hint=nearest(name, [title.lower() for title in titles])
        or f"There are {len(titles)}: {listed}{' …' if len(titles) > 12 else ''}",
    )


def chosen_editions(
    asked: Sequence[str], settings: Settings, tablature: Sequence[str] = ()
) -> tuple[Edition, ...]:
    """Return the editions asked for, each text a name or several, or those of manuscript.toml.

    `tablature` is as `asked_tablature` takes it.

    Raises:
        UnknownNameError: for a name that belongs to nothing, or tablature of an edition without frets.
    """
    editions = editions_in(", ".join(asked or settings.editions), settings.instruments)
    return with_tablature(editions, asked_tablature(tablature, settings), dict(settings.tunings))


def known_editions() -> tuple[tuple[str, str], ...]:
    """Return name and title of every edition that a book can have: the shared ones, then each instrument."""
    groups = [(one.name, one.title) for one in group_editions()]
    return (*groups, *((row.name, row.name) for row in INSTRUMENTS))


def chosen_tracks(asked: Sequence[str], settings: TrackSettings) -> tuple[str, ...]:
    """Return the kinds of tracks asked for: names, NO_TRACKS or ALL_TRACKS; else those of manuscript.toml.

    Raises:
        UnknownNameError: for a name that no kind has.
        ManuscriptError: for loops, if no format of manuscript.toml suits them.
    """
    if not asked:
        return settings.kinds
    names = [name.lower() for name in asked]
    if names == [NO_TRACKS]:
        return ()
    if names == [ALL_TRACKS]:
        try:
            check_loops(replace(settings, kinds=KIND_NAMES))
        except ManuscriptError:
            return tuple(name for name in KIND_NAMES if name not in LOOPS)
        return KIND_NAMES
    for name in names:
        if name not in (*KIND_NAMES, *KIND_GROUPS):
            raise UnknownNameError(
                f'There is no kind of track "{name}".',
                hint=nearest(name, (*KIND_NAMES, *KIND_GROUPS))
                or f"Write --tracks {NO_TRACKS}, {ALL_TRACKS}, or some of: {', '.join(KIND_NAMES)}.",
            )
    kinds = tuple(dict.fromkeys(kind for name in names for kind in KIND_GROUPS.get(name, (name,))))
    check_loops(replace(settings, kinds=kinds))
    return kinds


def chosen_tonics(asked: Sequence[str]) -> tuple[NoteName, ...]:
    """Return the tonics that --keys names, in that order; none for none.

    Raises:
        UnknownNameError: if one is none of Cb to A#, or two are names of the same key.
    """
    found: dict[int, NoteName] = {}
    for tonic in map(tonic_of, asked):
        if tonic.pitch_class in found:
            raise UnknownNameError(
                f"{found[tonic.pitch_class]} and {tonic} are the same key.", hint="Name each key once."
            )
        found[tonic.pitch_class] = tonic
    return tuple(found.values())


def tonic_of(text: str) -> NoteName:
    """Return the tonic that --keys names.

    Raises:
        UnknownNameError: if it is none of Cb to A#.
    """
    try:
        tonic = NoteName.parse(text)
    except ValueError:
        tonic = None
    if tonic is None or not -7 <= tonic.fifths <= 10:
        raise UnknownNameError(
            f'"{text}" is not the tonic of a key.',
            hint="There are C, C# or Db, D, D# or Eb, E, F, F# or Gb, G, G# or Ab, A, A# or Bb, B or Cb; "
            "major or minor is the phrase's.",
        )
    return tonic


def asked_key(tonic: str, mode: str) -> Key:
    """Return a key that is asked for by its tonic.

    A key that would need eight sharps or flats is called by its other name: G sharp major is A flat major.

    Args:
        tonic: the tonic as it was typed, "Bb" or "B flat".
        mode: "major" or "minor".

    Raises:
        UnknownNameError: if the tonic is none of Cb to A#.
    """
    asked = Key(tonic_of(tonic), mode)
    if abs(asked.signature) <= _MOST_ACCIDENTALS:
        return asked
    return Key(readable_tonic(asked.tonic.pitch_class, mode), mode)
