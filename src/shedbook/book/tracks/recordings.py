"""The author's own recordings and SoundFont: whether they are there, and which track each recording is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from shedbook.analysis.naming.sayings import KeyName, Saying, Strung, saying
from shedbook.book.ground.toml_files import inside
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript, placed_in_book
from shedbook.book.manuscript.settings.tracks import (
    TRACKS,
    Recording,
)
from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.tracks.orders import Playable, PlayablePhrases, TrackOrder, is_called
from shedbook.errors import ManuscriptError, Place, SoundError, nearest
from shedbook.sound.audio.sound_fonts import find_font
from shedbook.sound.tables.track_kinds import KINDS
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

UNUSED = "unused-recording"
"""Under which rule it is said that a recording takes the place of no track."""

_WHERE_RECORDINGS_LIE = "Put the recording into the manuscript's folder, as media/low-tide.wav."
_WHERE_FONTS_LIE = "Name a .sf2 file, counted from the manuscript's folder, or leave sound_font out."


def recording_for(
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
        is_called(source, one.phrase)
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
            if not any(is_called(source, one.phrase) for source in sources):
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


def check_sound_font(manuscript: Manuscript) -> None:
    """See that the SoundFont that manuscript.toml names is there and is one.

    Raises:
        ManuscriptError: with its place, if it is not.
    """
    named = manuscript.settings.tracks.sound.sound_font
    if not named:
        return
    try:
        find_font(manuscript.root / named)
    except SoundError as error:
        wrong = ManuscriptError(
            f"[{TRACKS}] {error.message}", hint=_WHERE_FONTS_LIE, field=f"{TRACKS}.sound_font"
        )
        raise placed_in_book(manuscript, wrong) from None


class Unused(NamedTuple):
    """What is said of a recording that takes the place of no track, and where the author names it."""

    place: Place
    message: Saying
    mend: Saying


def unused_recordings(
    manuscript: Manuscript,
    phrases: PlayablePhrases,
    orders: Sequence[TrackOrder],
) -> tuple[Unused, ...]:
    """Return what is to be said, with its place, of each recording that takes the place of no track."""
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
        of_it = [order for order in able if order.source is not None and is_called(order.source, one.phrase)]
        field = f"{TRACKS}.recordings.{index}.{_why_unused(one, of_it, cards)}"
        place = placed_in_book(manuscript, ManuscriptError("", field=field)).place or Place()
        message = saying("finding.unused-recording", file=one.file)
        found.append(Unused(place, message, _there_are(of_it, cards)))
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


def _there_are(of_it: Sequence[TrackOrder], cards: Mapping[int, Playable]) -> Saying:
    """Return which demonstrations of a phrase there are that a recording could stand for."""
    plain = [
        order
        for order in of_it
        if order.source is not None and order.given.feel in ("", cards[order.source.number].feel)
    ]
    if not plain:
        return saying(f"finding.unused-recording.mend{'.feel' if of_it else ''}")
    keys = tuple(KeyName(Key.parse(key)) for key in dict.fromkeys(order.given.keys[0] for order in plain))
    tempos = ", ".join(str(tempo) for tempo in sorted({order.given.tempo_bpm for order in plain}))
    taken = "taken" if all(order.recording for order in plain) else "there"
    return saying(f"finding.unused-recording.mend.{taken}", keys=Strung(keys, "list.more"), tempos=tempos)
