"""Which tracks a book has: an order for each, named and numbered so that they sort in any player.

A file is called by the phrase's number, the place of its key, its kind and its tempo, then in words:
`003-02-2-120-low-tide-f-minor-play-along.mp3`. The place of a key is that in the book's order, a track
through all keys comes behind them; a name does not change when other tracks or keys come or go. Nothing
that plays is loaded here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.book.ground.toml_files import inside
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import asked_key
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript, placed_in_book
from shedbook.book.manuscript.settings.tracks import (
    ALL_KEYS,
    BOOK_TEMPOS,
    HOME_KEY,
    LADDER_TEMPOS,
    TRACKS,
    Recording,
    SoundSettings,
    TrackSettings,
)
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.artefacts import PhraseCard
from shedbook.book.scores.inputs import NOT_DRAWN
from shedbook.errors import ManuscriptError, ReadError, nearest
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.sound.tables.track_kinds import KINDS, LADDER, TUNING, KindRow
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

FOLDER = "tracks"
"""The folder of an output folder in which tracks lie."""

UNUSED = "unused-recording"
"""Under which rule it is said that a recording takes the place of no track."""

_ALL_KEYS_PLACE, _OTHER_KEYS_FROM = 99, 20
"""Places of tracks in names: of one that goes through all keys, of keys that are not in the book's order."""
_WHERE_RECORDINGS_LIE = "Put the recording into the manuscript's folder, as media/low-tide.wav."
_ENGLISH = words_of("en")
_NOT_IN_A_NAME = re.compile(r"[^\w]+")
_LONGEST_NAME = 48


@dataclass(frozen=True, slots=True)
class Playable:
    """What of a phrase decides which tracks it has: home key and keys in concert pitch, tempo, feel."""

    title: str
    home: str
    keys: tuple[str, ...]
    tempo: int
    feel: str


def playable(card: PhraseCard) -> Playable:
    """Return what of a phrase's card decides its tracks."""
    return Playable(card.title, card.home, card.keys, card.tempo, card.feel)


PlayablePhrases = Sequence[tuple[PhraseSource, Playable]]


@dataclass(frozen=True, slots=True)
class SoundInput:
    """Everything on which the sound of a track depends, besides the versions.

    `text` is None for the tuning note. `keys` is one key, or all that are played in a row. `feel` is "" for
    the phrase's own. `recording` is the hash of the author's own file that is used in the place of a
    synthesised track, "" where there is none.
    """

    text: PhraseText | None
    kind: str
    keys: tuple[str, ...]
    tempo_bpm: int
    feel: str
    sound: SoundSettings
    recording: str = ""


@dataclass(frozen=True, slots=True)
class TrackOrder:
    """Make a track, in each of its formats.

    `store` and `folder` are where finished parts and tracks lie, `stem` the file's name without its
    ending. `source` is None for the tuning note. `font` and `recording` are paths of files, "" for none.
    `number` of `of` is its place in the album.
    """

    store: str
    folder: str
    stem: str
    source: PhraseSource | None
    given: SoundInput
    formats: tuple[str, ...]
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
    )
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
        if not any(_is_called(source, name) for source, _ in phrases):
            wrong = ManuscriptError(
                f'[{TRACKS}] There is no phrase "{name}" to make tracks of.',
                hint="Name phrases by id, title or number: phrases = [1, 15]",
                field=f"{TRACKS}.phrases",
            )
            raise placed_in_book(manuscript, wrong)
    return [one for one in phrases if not named or any(_is_called(one[0], name) for name in named)]


def _is_called(source: PhraseSource, name: str) -> bool:
    """Whether a phrase has this number, id or title."""
    names = {str(source.number), str(source.fields.get("id", "")).strip()}
    return name in names or name.casefold() == source.title.casefold()


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
            for tempo in _tempos(settings, card.tempo, manuscript.settings.tempos):
                for feel in feels:
                    yield _order(base, row, place, chosen, tempo, feel, card, manuscript)


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
    card: Playable,
    manuscript: Manuscript,
) -> TrackOrder:
    source = base.source
    number = 0 if source is None else source.number
    key = "" if row.all_keys else keys[0]
    words = " ".join(_ENGLISH.key(key)) if key else row.title
    named = f"{card.title} {words} {'' if row.all_keys else row.title} {feel}"
    said = ", ".join(_ENGLISH.key(one)[0] for one in keys) if row.all_keys else words
    recording = "" if row.name != KINDS[0].name else _recording(manuscript, source, key, tempo, feel, card)
    return replace(
        base,
        stem=f"{number:03d}-{place:02d}-{row.place}-{tempo:03d}-{slug(named)}",
        given=SoundInput(_text_of(source), row.name, keys, tempo, feel, base.given.sound),
        recording=recording,
        title=f"{card.title}: {row.title}, {said}, {f'{feel}, ' if feel else ''}{tempo}",
    )


def _text_of(source: PhraseSource | None) -> PhraseText | None:
    """Return what of a phrase's text is heard; by its id, else its title, the band knows it from others."""
    return None if source is None else source.text.without(NOT_DRAWN - {"id"} | {"fold"})


def slug(text: str) -> str:
    """Return a text as part of a file's name: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKC", text).lower()
    return _NOT_IN_A_NAME.sub("-", plain).strip("-")[:_LONGEST_NAME].strip("-") or "track"


# The author's own recordings.


def _recording(
    manuscript: Manuscript,
    source: PhraseSource | None,
    key: str,
    tempo: int,
    feel: str,
    card: Playable,
) -> str:
    """Return the author's recording of a phrase in a key at a tempo, or ""; the first that fits is taken."""
    if source is None or feel not in ("", card.feel):
        return ""
    for one in manuscript.settings.tracks.recordings:
        if _fits(one, source, Key.parse(key), tempo, card):
            return str(_file_of(one, manuscript).resolve())
    return ""


def _file_of(one: Recording, manuscript: Manuscript) -> Path:
    return inside(manuscript.root, one.file, MANUSCRIPT_FILE, hint=_WHERE_RECORDINGS_LIE)


def _fits(one: Recording, source: PhraseSource, key: Key, tempo: int, card: Playable) -> bool:
    """Whether a recording is of this phrase in this key at this tempo."""
    tonic = NoteName.parse(one.tonic) if one.tonic else Key.parse(card.home).tonic
    return (
        _is_called(source, one.phrase)
        and tonic.pitch_class == key.tonic.pitch_class
        and (one.tempo_bpm or card.tempo) == tempo
    )


def check_recordings(manuscript: Manuscript, sources: Sequence[PhraseSource]) -> None:
    """See that each recording is there and is of a phrase of the book.

    Raises:
        ManuscriptError: with its place, if one is not.
    """
    for index, one in enumerate(manuscript.settings.tracks.recordings):
        try:
            if not any(_is_called(source, one.phrase) for source in sources):
                titles = [source.title for source in sources]
                raise ManuscriptError(
                    f'There is no phrase "{one.phrase}", of which "{one.file}" is a recording.',
                    hint=nearest(one.phrase, titles) or "Name the phrase by id, title or number.",
                    field="phrase",
                )
            if not _file_of(one, manuscript).is_file():
                raise ManuscriptError(
                    f'The recording "{one.file}" is not there.', hint=_WHERE_RECORDINGS_LIE, field="file"
                )
        except ManuscriptError as error:
            field = f"{TRACKS}.recordings.{index}.{error.field or 'file'}"
            wrong = ManuscriptError(f"[{TRACKS}] {error.message}", hint=error.hint, field=field)
            raise placed_in_book(manuscript, wrong) from None


def unused_recordings(
    manuscript: Manuscript,
    phrases: PlayablePhrases,
    orders: Sequence[TrackOrder],
) -> tuple[ReadError, ...]:
    """Return an error, with its place in manuscript.toml, for each recording of the author that goes unused.

    Args:
        manuscript: the book.
        phrases: its phrases.
        orders: all tracks that the book has.
    """
    cards = {source.number: card for source, card in phrases}
    able = [order for order in orders if order.given.kind == KINDS[0].name and order.source is not None]
    recordings = manuscript.settings.tracks.recordings
    used = {
        next(index for index, one in enumerate(recordings) if _takes(one, order, cards))
        for order in able
        if order.recording
    }
    found = []
    for index, one in enumerate(recordings):
        if index in used:
            continue
        of_it = [order for order in able if order.source is not None and _is_called(order.source, one.phrase)]
        field = f"{TRACKS}.recordings.{index}.{_why_unused(one, of_it, cards)}"
        message = f'[{TRACKS}] The recording "{one.file}" takes the place of no track.'
        found.append(
            placed_in_book(manuscript, ManuscriptError(message, hint=_there_are(of_it, cards), field=field))
        )
    return tuple(found)


def _takes(one: Recording, order: TrackOrder, cards: Mapping[int, Playable]) -> bool:
    """Whether a recording is the one of a demonstration."""
    source = order.source
    return source is not None and _fits(
        one, source, Key.parse(order.given.keys[0]), order.given.tempo_bpm, cards[source.number]
    )


def _why_unused(one: Recording, of_it: Sequence[TrackOrder], cards: Mapping[int, Playable]) -> str:
    """Return the key of a recording's table that keeps it from being used."""
    tempos = {order.given.tempo_bpm for order in of_it}
    own = {cards[order.source.number].tempo for order in of_it if order.source is not None}
    if of_it and not tempos & ({one.tempo_bpm} if one.tempo_bpm else own):
        return "tempo" if one.tempo_bpm else "file"
    return "key" if of_it and one.tonic else "phrase"


def _there_are(of_it: Sequence[TrackOrder], cards: Mapping[int, Playable]) -> str:
    """Return which demonstrations of a phrase there are that a recording could stand for."""
    plain = [
        order
        for order in of_it
        if order.source is not None and order.given.feel in ("", cards[order.source.number].feel)
    ]
    if not plain:
        return (
            "The feels of the book leave out the feel that the phrase itself names."
            if of_it
            else f'The build makes no demonstration of the phrase: see "kinds" and "phrases" of [{TRACKS}].'
        )
    keys = ", ".join(dict.fromkeys(order.given.keys[0] for order in plain))
    tempos = ", ".join(str(tempo) for tempo in sorted({order.given.tempo_bpm for order in plain}))
    taken = " Each has its recording." if all(order.recording for order in plain) else ""
    return f"Its demonstrations are in {keys}, at {tempos} beats a minute.{taken}"
