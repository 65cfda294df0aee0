"""What a track is made of: the order to make one, and what of a phrase decides its tracks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.book.manuscript.settings.tracks import (
    SoundSettings,
)
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.artefacts import PhraseCard


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
    the phrase's own. `bars` are the first and the last bar of an excerpt, None for the whole phrase; `ramp`
    the tempos of a track that grows faster, whose last one is `tempo_bpm`. `recording` is the hash of the
    author's own file that is used in the place of a synthesised track, "" where there is none.
    `language` is that in which a voice counts, "" where none does.
    """

    text: PhraseText | None
    kind: str
    keys: tuple[str, ...]
    tempo_bpm: int
    feel: str
    sound: SoundSettings
    recording: str = ""
    bars: tuple[int, int] | None = None
    ramp: tuple[int, ...] = ()
    language: str = ""


@dataclass(frozen=True, slots=True)
class TrackOrder:
    """Make a track, in each of its formats.

    `store` and `folder` are where finished parts and tracks lie, `stem` the file's name without its
    ending. `source` is None for the tuning note. `font` and `recording` are paths of files, "" for none.
    `number` of `of` is its place in the album, `language` that of the book.
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
    language: str = ""


def is_called(source: PhraseSource, name: str) -> bool:
    """Whether a phrase has this number, id or title."""
    names = {str(source.number), str(source.fields.get("id", "")).strip()}
    return name in names or name.casefold() == source.title.casefold()
