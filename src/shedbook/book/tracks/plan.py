"""Which tracks a book has: an order for each, named and numbered so that they sort in any player.

A file is called by the phrase's number, the place of its key, its kind and its tempo, then in words:
`003-02-2-120-low-tide-f-minor-play-along.mp3`. The place of a key is that in the book's order, a track
through all keys comes behind them; a name does not change when other tracks or keys come or go. Nothing
that plays is loaded here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import asked_key
from shedbook.book.manuscript.opening import Manuscript, placed_in_book
from shedbook.book.manuscript.settings.tracks import (
    ALL_KEYS,
    BOOK_TEMPOS,
    HOME_KEY,
    LADDER_TEMPOS,
    TRACKS,
    SoundSettings,
    TrackSettings,
    in_reach,
    ladder_steps,
)
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.inputs import NOT_DRAWN
from shedbook.book.tracks.orders import Playable, PlayablePhrases, SoundInput, TrackOrder, is_called
from shedbook.book.tracks.recordings import check_recordings, check_sound_font, recording_for
from shedbook.errors import ManuscriptError, ReadError
from shedbook.phrase.excerpt import bars_round_changes
from shedbook.sound.tables.clicks import CLICKS, STRUCK
from shedbook.sound.tables.track_kinds import BAR, KINDS, LADDER, PLACES, TUNING, KindRow
from shedbook.theory.key import Key

FOLDER = "tracks"
"""The folder of an output folder in which tracks lie."""

_ALL_KEYS_PLACE, _OTHER_KEYS_FROM = 99, 20
"""Places of tracks in names: of one that goes through all keys, of keys that are not in the book's order."""
_ENGLISH = words_of("en")
_NOT_IN_A_NAME = re.compile(r"[^\w]+")
_LONGEST_NAME = 48


def track_orders(
    manuscript: Manuscript,
    phrases: PlayablePhrases,
    store: Path,
    out: Path,
    versions: str,
    asked: TrackSettings | None = None,
) -> tuple[TrackOrder, ...]:
    """Return an order for each track that manuscript.toml asks for.

    Args:
        manuscript: the book.
        phrases: the phrases of this build.
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
        given=SoundInput(None, TUNING, (), 0, "", settings.sound),
        formats=settings.formats,
        font=str((manuscript.root / settings.sound.sound_font).resolve())
        if settings.sound.sound_font
        else "",
        recording="",
        title="",
        album=manuscript.title,
        artist=manuscript.settings.author,
        versions=versions,
        language=manuscript.settings.language,
    )
    check_sound_font(manuscript)
    check_recordings(manuscript, [source for source, _ in phrases])
    orders = [*_tuning(base, settings)]
    for source, card in _with_tracks(manuscript, phrases, settings.phrases):
        orders += _of_phrase(replace(base, source=source), card, manuscript, settings)
    orders.sort(key=lambda order: order.stem)
    return tuple(
        replace(order, number=number, of=len(orders)) for number, order in enumerate(orders, start=1)
    )


def _with_tracks(manuscript: Manuscript, phrases: PlayablePhrases, named: Sequence[str]) -> PlayablePhrases:
    """Return the phrases that get tracks: those named by id, title or number, or all."""
    for name in named:
        if not any(is_called(source, name) for source, _ in phrases):
            wrong = ManuscriptError(
                f'[{TRACKS}] There is no phrase "{name}" to make tracks of.',
                hint="Name phrases by id, title or number: phrases = [1, 15]",
                field=f"{TRACKS}.phrases",
            )
            raise placed_in_book(manuscript, wrong)
    return [one for one in phrases if not named or any(is_called(one[0], name) for name in named)]


def _tuning(base: TrackOrder, settings: TrackSettings) -> Iterator[TrackOrder]:
    if TUNING in settings.kinds:
        yield replace(base, stem="000-00-0-000-tuning-note-a4", title="Tuning note, A4 = 440 Hz")


def _of_phrase(
    base: TrackOrder, card: Playable, manuscript: Manuscript, settings: TrackSettings
) -> Iterator[TrackOrder]:
    """Yield the orders of one phrase."""
    keys = _keys(settings, Key.parse(card.home), card.keys)
    feels = manuscript.settings.feels or ("",)
    for row in (row for row in KINDS if row.name in settings.kinds):
        ways = [(_ALL_KEYS_PLACE, tuple(_every_key(card, keys, settings)))] if row.all_keys else [
            (_place_of(key, card.keys), (key,)) for key in keys
        ]  # fmt: skip
        for place, chosen in ways:
            for way in _ways(base.source, row, card, manuscript, settings):
                for feel in feels:
                    yield _order(base, row, place, chosen, way, feel, card, manuscript)


class _Way(NamedTuple):
    """How a kind of track is made: its tempo, the bars of an excerpt, the tempos of one that grows faster."""

    tempo: int
    bars: tuple[int, int] | None = None
    ramp: tuple[int, ...] = ()


def _ways(
    source: PhraseSource | None, row: KindRow, card: Playable, manuscript: Manuscript, settings: TrackSettings
) -> list[_Way]:
    """Return the ways in which a phrase has tracks of a kind."""
    steps = ladder_steps(settings.ramp)
    if row.ramp and steps is not None:
        ramp = steps.tempos(card.tempo)
        return [_Way(ramp[-1], None, ramp)]
    tempos = _tempos(settings, card.tempo, manuscript.settings.tempos)
    if not row.excerpt or source is None:
        return [_Way(tempo) for tempo in tempos]
    return [_Way(tempo, bars) for bars in _excerpts(source, row.excerpt) for tempo in tempos]


def _excerpts(source: PhraseSource, kind: str) -> tuple[tuple[int, int], ...]:
    """Return the first and the last bar of each excerpt of a phrase; none where it cannot be read."""
    try:
        phrase = source.text.phrase()
    except ReadError:  # the build says so where it reads the phrase itself
        return ()
    if kind == BAR:
        return tuple((number, number) for number in range(1, phrase.full_bars + 1))
    return bars_round_changes(phrase)


def _keys(settings: TrackSettings, home: Key, book: Sequence[str]) -> tuple[str, ...]:
    """Return the keys in which a phrase gets tracks of its own."""
    if settings.keys == HOME_KEY:
        return (str(home),)
    if settings.keys == ALL_KEYS:
        return tuple(book)
    return tuple(str(asked_key(tonic, home.mode)) for tonic in settings.keys)


def _place_of(key: str, book: Sequence[str]) -> int:
    """Return a key's place in the book's order, from 1, whichever keys have tracks: so names stay."""
    tonic = Key.parse(key).tonic.pitch_class
    tonics = [Key.parse(one).tonic.pitch_class for one in book]
    return tonics.index(tonic) + 1 if tonic in tonics else _OTHER_KEYS_FROM + tonic


def _every_key(card: Playable, keys: Sequence[str], settings: TrackSettings) -> Sequence[str]:
    """Return the keys of a track that goes through them: the book's, or those that are named."""
    return card.keys if settings.keys in (HOME_KEY, ALL_KEYS) else keys


def _tempos(settings: TrackSettings, own: int, book: Sequence[int]) -> tuple[int, ...]:
    """Return the tempos of a phrase's tracks, in beats a minute."""
    steps = ladder_steps(settings.tempos) if isinstance(settings.tempos, str) else None
    if steps is not None:
        return steps.tempos(own)
    if settings.tempos == LADDER_TEMPOS:
        return in_reach(round(own * share / 100) for share in LADDER)
    if settings.tempos == BOOK_TEMPOS and book:
        return tuple(sorted(set(book)))
    return (own,) if isinstance(settings.tempos, str) else settings.tempos


def _heard(sound: SoundSettings, row: KindRow) -> SoundSettings:
    """Return the settings that a kind of track sounds by: only one with a click asks which, and so on."""
    heard = sound if row.click else replace(sound, click=CLICKS[0])
    heard = replace(heard, count=STRUCK) if row.loop else heard
    return replace(heard, minutes=None) if row.ramp else heard


def _order(
    base: TrackOrder,
    row: KindRow,
    place: int,
    keys: tuple[str, ...],
    way: _Way,
    feel: str,
    card: Playable,
    manuscript: Manuscript,
) -> TrackOrder:
    source, tempo = base.source, way.tempo
    number = 0 if source is None else source.number
    key = "" if row.all_keys else keys[0]
    called = f"{row.title} {_bars_in_words(way.bars)}" if way.bars else row.title
    words = _ENGLISH.voiced_key(key) if key else called
    said = ", ".join(_ENGLISH.note(one.partition(" ")[0]) for one in keys) if row.all_keys else words
    recording = "" if row.name != KINDS[0].name else recording_for(manuscript, source, key, tempo, feel, card)
    first, last = way.bars or (0, 0)
    bars = "" if not first else f"bar {first}" if first == last else f"bars {first} {last}"
    rest = slug(f"{words} {'' if row.all_keys else row.title} {bars} {feel}")
    heard = _heard(base.given.sound, row)
    return replace(
        base,
        stem=f"{number:03d}-{place:02d}-{PLACES[row.place]}-{tempo:03d}-{_named(card.title, rest)}",
        given=SoundInput(
            _text_of(source),
            row.name,
            keys,
            tempo,
            feel,
            heard,
            "",
            way.bars,
            way.ramp,
            "" if heard.count == STRUCK else base.language,
        ),
        recording=recording,
        title=f"{card.title}: {called}, {said}, {f'{feel}, ' if feel else ''}"
        f"{f'{way.ramp[0]} to ' if way.ramp else ''}{tempo}",
    )


def _bars_in_words(bars: tuple[int, int]) -> str:
    first, last = bars
    return f"bar {first}" if first == last else f"bars {first} and {last}"


def _named(title: str, rest: str) -> str:
    """Return a name of a phrase's title and the rest, the title cut where that would be too long."""
    return slug(f"{slug(title)[: max(1, _LONGEST_NAME - len(rest) - 1)]} {rest}")


def _text_of(source: PhraseSource | None) -> PhraseText | None:
    """Return what of a phrase's text is heard; by its id, else its title, the band knows it from others."""
    return None if source is None else source.text.without(NOT_DRAWN - {"id"} | {"fold"})


def slug(text: str) -> str:
    """Return a text as part of a file's name: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKC", text).lower()
    return _NOT_IN_A_NAME.sub("-", plain).strip("-")[:_LONGEST_NAME].strip("-") or "track"
