"""Which tracks a book has: an order for each, named and numbered so that they sort in any player.

A file is called by the phrase's number, the place of its key, its kind and its tempo, then in words:
`003-02-2-120-low-tide-f-minor-play-along.mp3`. Its name does not change when other tracks come or go. Nothing
that plays is loaded here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from shedbook.book.choice import asked_key
from shedbook.book.files import inside
from shedbook.book.manuscript import MANUSCRIPT_FILE, Manuscript, PhraseSource
from shedbook.book.pages import key_words
from shedbook.book.track_settings import (
    ALL_KEYS,
    BOOK_TEMPOS,
    HOME_KEY,
    LADDER_TEMPOS,
    TRACKS,
    Recording,
    TrackSettings,
)
from shedbook.errors import ManuscriptError
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.sound.tables.kinds import KINDS, LADDER, TUNING, KindRow
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

FOLDER = "tracks"
"""The folder of an output folder in which tracks lie."""

_NOT_IN_A_NAME = re.compile(r"[^\w]+")
_LONGEST_NAME = 48


@dataclass(frozen=True, slots=True)
class TrackOrder:
    """Make a track, in each of its formats.

    `store` and `folder` are where finished parts and tracks lie, `stem` the file's name without its
    ending. `source` is None for the tuning note. `keys` is one key, or all that are played in a row.
    `feel` is "" for the phrase's own. `recording` is the author's own file that is used in the place of a
    synthesised track. `number` of `of` is its place in the album.
    """

    store: str
    folder: str
    stem: str
    source: PhraseSource | None
    kind: str
    keys: tuple[str, ...]
    tempo_bpm: int
    feel: str
    settings: TrackSettings
    font: str
    recording: str
    title: str
    album: str
    artist: str
    versions: str
    number: int = 0
    of: int = 0


def track_orders(
    manuscript: Manuscript,
    phrases: Sequence[tuple[PhraseSource, Mapping[str, Any]]],
    store: Path,
    out: Path,
    versions: str,
    asked: TrackSettings | None = None,
) -> tuple[TrackOrder, ...]:
    """Return an order for each track that manuscript.toml asks for.

    Args:
        manuscript: the book.
        phrases: the phrases of this build, each with its card (its home key, its keys, its tempo).
        store: the folder of the store.
        out: the output folder.
        versions: what besides the manuscript decides how a track sounds.
        asked: settings in the place of the manuscript's.

    Raises:
        ManuscriptError: if a phrase, recording or SoundFont that is named is not there.
    """
    settings = asked or manuscript.settings.tracks
    if not settings.kinds:
        return ()
    base = TrackOrder(
        store=str(store.resolve()),
        folder=str((out / FOLDER).resolve()),
        stem="",
        source=None,
        kind="",
        keys=(),
        tempo_bpm=0,
        feel="",
        settings=settings,
        font=str((manuscript.root / settings.sound_font).resolve()) if settings.sound_font else "",
        recording="",
        title="",
        album=manuscript.title,
        artist=manuscript.settings.author,
        versions=versions,
    )
    orders = [*_tuning(base)]
    for source, card in _with_tracks(phrases, settings.phrases):
        orders += _of_phrase(replace(base, source=source), card, manuscript)
    orders.sort(key=lambda order: order.stem)
    return tuple(
        replace(order, number=number, of=len(orders)) for number, order in enumerate(orders, start=1)
    )


def _with_tracks(
    phrases: Sequence[tuple[PhraseSource, Mapping[str, Any]]], named: Sequence[str]
) -> Sequence[tuple[PhraseSource, Mapping[str, Any]]]:
    """Return the phrases that get tracks: those named by id, title or number, or all."""
    for name in named:
        if not any(_is_called(source, name) for source, _ in phrases):
            raise ManuscriptError(
                f'[{TRACKS}] There is no phrase "{name}" to make tracks of.',
                hint="Name phrases by id, title or number: phrases = [1, 15]",
                field=TRACKS,
            )
    return [one for one in phrases if not named or any(_is_called(one[0], name) for name in named)]


def _is_called(source: PhraseSource, name: str) -> bool:
    """Whether a phrase has this number, id or title."""
    names = {str(source.number), str(source.fields.get("id", "")).strip()}
    return name in names or name.casefold() == source.title.casefold()


def _tuning(base: TrackOrder) -> Iterator[TrackOrder]:
    if TUNING in base.settings.kinds:
        yield replace(base, kind=TUNING, stem="000-00-0-000-tuning-note-a4", title="Tuning note, A4 = 440 Hz")


def _of_phrase(base: TrackOrder, card: Mapping[str, Any], manuscript: Manuscript) -> Iterator[TrackOrder]:
    """Yield the orders of one phrase."""
    settings, home = base.settings, Key.parse(card["home"])
    keys = _keys(settings, home, card["keys"])
    feels = manuscript.settings.styles or ("",)
    for row in (row for row in KINDS if row.name in settings.kinds):
        ways = [(0, tuple(_every_key(card, keys, settings)))] if row.all_keys else [
            (place, (key,)) for place, key in enumerate(keys, start=1)
        ]  # fmt: skip
        for place, chosen in ways:
            for tempo in _tempos(settings, card["tempo"], manuscript.settings.tempos):
                for feel in feels:
                    yield _order(base, row, place, chosen, tempo, feel, card, manuscript)


def _keys(settings: TrackSettings, home: Key, book: Sequence[str]) -> tuple[str, ...]:
    """Return the keys in which a phrase gets tracks of its own."""
    if settings.keys == HOME_KEY:
        return (str(home),)
    if settings.keys == ALL_KEYS:
        return tuple(book)
    return tuple(str(asked_key(tonic, home.mode)) for tonic in settings.keys)


def _every_key(card: Mapping[str, Any], keys: Sequence[str], settings: TrackSettings) -> Sequence[str]:
    """Return the keys of a track that goes through them: the book's, or those that are named."""
    return card["keys"] if settings.keys in (HOME_KEY, ALL_KEYS) else keys


def _tempos(settings: TrackSettings, own: int, book: Sequence[int]) -> tuple[int, ...]:
    """Return the tempos of a phrase's tracks, in beats a minute."""
    if settings.tempos == LADDER_TEMPOS:
        steps = (round(own * share / 100) for share in LADDER)
        return tuple(dict.fromkeys(min(FASTEST_BPM, max(SLOWEST_BPM, step)) for step in steps))
    if settings.tempos == BOOK_TEMPOS and book:
        return tuple(sorted(set(book)))
    return (own,) if isinstance(settings.tempos, str) else settings.tempos


def _order(
    base: TrackOrder,
    row: KindRow,
    place: int,
    keys: tuple[str, ...],
    tempo: int,
    feel: str,
    card: Mapping[str, Any],
    manuscript: Manuscript,
) -> TrackOrder:
    source = base.source
    number = 0 if source is None else source.number
    key = "" if row.all_keys else keys[0]
    words = " ".join(key_words(key)) if key else row.title
    named = f"{card['title']} {words} {'' if row.all_keys else row.title} {feel}"
    said = ", ".join(key_words(one)[0] for one in keys) if row.all_keys else words
    recording = "" if row.name != KINDS[0].name or feel else _recording(manuscript, source, key, tempo, card)
    return replace(
        base,
        stem=f"{number:03d}-{place:02d}-{row.place}-{tempo:03d}-{slug(named)}",
        kind=row.name,
        keys=keys,
        tempo_bpm=tempo,
        feel=feel,
        recording=recording,
        title=f"{card['title']}: {row.title}, {said}, {f'{feel}, ' if feel else ''}{tempo}",
    )


def slug(text: str) -> str:
    """Return a text as part of a file's name: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKC", text).lower()
    return _NOT_IN_A_NAME.sub("-", plain).strip("-")[:_LONGEST_NAME].strip("-") or "track"


def _recording(
    manuscript: Manuscript, source: PhraseSource | None, key: str, tempo: int, card: Mapping[str, Any]
) -> str:
    """Return the author's recording of a phrase in a key at a tempo, or ""."""
    if source is None:
        return ""
    for one in manuscript.settings.tracks.recordings:
        if _fits(one, source, Key.parse(key), tempo, card):
            hint = "Put the recording into the manuscript's folder, as media/low-tide.wav."
            path = inside(manuscript.root, one.file, MANUSCRIPT_FILE, hint=hint)
            if not path.is_file():
                raise ManuscriptError(
                    f'[{TRACKS}] The recording "{one.file}" is not there.', hint=hint, field=TRACKS
                )
            return str(path.resolve())
    return ""


def _fits(one: Recording, source: PhraseSource, key: Key, tempo: int, card: Mapping[str, Any]) -> bool:
    """Whether a recording is of this phrase in this key at this tempo."""
    tonic = NoteName.parse(one.tonic) if one.tonic else Key.parse(card["home"]).tonic
    return (
        _is_called(source, one.phrase)
        and tonic.pitch_class == key.tonic.pitch_class
        and (one.tempo_bpm or card["tempo"]) == tempo
    )
