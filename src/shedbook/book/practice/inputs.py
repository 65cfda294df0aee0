"""What the jobs of this room are given: each one frozen value, which is all that the job sees."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.ground.chord_style import AS_WRITTEN, ChordStyle
from shedbook.book.manuscript.settings.tracks import SoundSettings
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.inputs import NOT_DRAWN, NOT_READ, KeyOrder, Language, key_order, spoken_language
from shedbook.book.tracks.orders import SoundInput
from shedbook.book.workshop.naming import name_of
from shedbook.editions.instruments.edition import Edition


@dataclass(frozen=True, slots=True)
class PlayedInput:
    """Have the band play a phrase in each of its keys. `text` is what of a phrase is heard."""

    text: PhraseText
    keys: KeyOrder
    sound: SoundSettings


@dataclass(frozen=True, slots=True)
class PartInput:
    """Draw and explain a phrase for the reader of an edition, in each of its keys."""

    text: PhraseText
    edition: Edition
    keys: KeyOrder
    chord_style: ChordStyle = AS_WRITTEN
    courtesy: str = "after-bar"
    signature: bool = False
    language: Language = Language()  # noqa: RUF009 - a frozen value


@dataclass(frozen=True, slots=True)
class TimedInput:
    """Say when the notes of tracks of a phrase sound."""

    text: PhraseText
    tracks: tuple[SoundInput, ...]


@dataclass(frozen=True, slots=True)
class PracticeOrder:
    """Make what the page must know of a phrase, as far as the store lacks it.

    `versions` are what besides decides how it is played, how it is drawn and explained, and when the notes of
    its tracks sound; `tracks` are those whose times the page needs.
    """

    store: str
    source: PhraseSource
    settings: Settings
    asked: tuple[str, ...]
    editions: tuple[Edition, ...]
    versions: tuple[str, str, str]
    tracks: tuple[SoundInput, ...] = ()

    def played(self) -> PlayedInput:
        """Return the input of the job that plays the phrase."""
        return PlayedInput(self._heard(), key_order(self.settings, self.asked), self.settings.tracks.sound)

    def timed(self) -> TimedInput:
        """Return the input of the job that says when the notes of its tracks sound."""
        return TimedInput(self._heard(), self.tracks)

    def _heard(self) -> PhraseText:
        """Return what of the phrase is heard."""
        return self.source.text.without(NOT_DRAWN - {"id"} | {"fold"})

    def part(self, edition: Edition) -> PartInput:
        """Return the input of the job that draws and explains the phrase for an edition."""
        settings = self.settings
        return PartInput(
            self.source.text.without(NOT_READ),
            edition,
            key_order(settings, self.asked),
            settings.pages.chord_style,
            settings.courtesy,
            settings.signatures,
            spoken_language(settings),
        )

    def names(self) -> tuple[str, ...]:
        """Return the names in the store: of the phrase as it is played, then as each edition reads it."""
        heard, drawn, _ = self.versions
        played = name_of("play_phrase", self.played(), heard)
        parts = [name_of("read_part", self.part(edition), drawn) for edition in self.editions]
        return (played, *parts)

    def timed_name(self) -> str:
        """Return the name in the store of when the notes of its tracks sound, "" where it has none."""
        return name_of("time_tracks", self.timed(), self.versions[2]) if self.tracks else ""

    def every_name(self) -> tuple[str, ...]:
        """Return all its names in the store."""
        return (*self.names(), *filter(None, (self.timed_name(),)))
