"""Recordings of the book's phrases, listened to: which take is which, what is wrong in it, which to keep."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from shedbook.analysis.naming.spoken_names import name_words
from shedbook.book.lessons.session_list import SessionTake, read_session, session_beside, source_of
from shedbook.book.manuscript.choice import chosen_phrase, tonic_of
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.editions.keys.key_cycle import readable_tonic
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import ReadError, ShedbookError, SoundError
from shedbook.listen.keeping import Verdict, kept, tempo_share, verdict_of
from shedbook.listen.lines import Line, line_of
from shedbook.listen.measures import Click, Measures, measures_of
from shedbook.listen.sound_pieces import Heard, hear
from shedbook.listen.tables.reading_slips import READING_SLIPS
from shedbook.listen.take_reading import Slated, TakeReading, UnknownPiece, takes_in
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.audio.slate import Slate, read_slates
from shedbook.sound.audio.soundfile_door import recording_blocks
from shedbook.theory.key import Key

_SAME_TEMPO = 0.04
"""Tempos that differ by no more than this share are one (the project's choice)."""
LONGEST_S = 3 * 3600.0
"""A longer recording is refused: nobody plays takes for three hours without stopping the recorder."""


@dataclass(frozen=True, slots=True)
class TakesOrder:
    """What is to be listened to.

    Attributes:
        book: the manuscript.
        recordings: the files.
        phrase: what was meant to be played, by number or title; "" where any phrase may come.
        key: the tonic in which it was meant to sound; "" for any.
        a4_hz: the A4 that intonation is told against.
        click_s: the second at which a click gives beat 1 of bar 1, None where there is none; it holds for the
            first take of each recording.
        click_bpm: the tempo of that click, None for the phrase's own.
        session: the folder of the session whose slates sound, None for the list beside each recording.
    """

    book: Path
    recordings: tuple[Path, ...]
    phrase: str = ""
    key: str = ""
    a4_hz: float = 440.0
    click_s: float | None = None
    click_bpm: int | None = None
    session: Path | None = None


@dataclass(frozen=True, slots=True)
class Take:
    """A take with all that is said of it.

    Attributes:
        recording: its file.
        number: which take of all recordings it is, from 1.
        source: its phrase.
        phrase: the phrase in the key that was played, named for the reader at concert pitch.
        line: the phrase in its own key, as a line.
        reading: what was heard.
        measures: how it was played.
        verdict: what counts against it.
        key: the key that was played, concert pitch.
        home: the key in which it is written.
        amiss: sentences on a wrong phrase, key or tempo.
        kept: whether it is the one to keep of its phrase, key and tempo.
        slate: the number of the slate before it, None where none sounded.
        planned: what the session's list has under that number, None where there is none.
    """

    recording: Path
    number: int
    source: PhraseSource
    phrase: Phrase
    line: Line
    reading: TakeReading
    measures: Measures
    verdict: Verdict
    key: Key
    home: Key
    amiss: tuple[str, ...] = ()
    kept: bool = False
    slate: int | None = None
    planned: SessionTake | None = None

    @property
    def meant_bpm(self) -> int:
        """The tempo at which it was to be played: the session's, or the phrase's own."""
        return self.planned.tempo_bpm if self.planned is not None else self.line.tempo_bpm

    @property
    def played_bpm(self) -> float:
        """The tempo at which it was played; where that cannot be told, at which it was to be."""
        if self.measures.tempo is None:
            return self.meant_bpm
        return self.line.tempo_bpm * (1 + tempo_share(self.line, self.measures))

    @property
    def filed_bpm(self) -> int:
        """The tempo it is filed under: that at which it was to be played, where it is near to it."""
        if same_tempo(self.played_bpm, self.meant_bpm):
            return self.meant_bpm
        return round(self.played_bpm)

    @property
    def note_names(self) -> tuple[str, ...]:
        """The name of each written note in the key that was played."""
        return tuple(str(note.pitch.name) for note in sounding_notes(self.phrase))

    @property
    def spoken_names(self) -> tuple[str, ...]:
        """The same as they are said: "B flat"."""
        return tuple(name_words(note.pitch.name) for note in sounding_notes(self.phrase))


class HeardSlate(NamedTuple):
    """A slate of a recording, what the session's list has under its number, and how many takes follow it."""

    slate: Slate
    planned: SessionTake | None
    takes: int


@dataclass(frozen=True, slots=True)
class ListenedTo:
    """One recording: what it holds besides takes, its slates, and what is wrong with its sound."""

    path: Path
    heard: Heard
    takes: int
    others: tuple[UnknownPiece, ...]
    slates: tuple[HeardSlate, ...] = ()


@dataclass(frozen=True, slots=True)
class TakesFound:
    """All takes of all recordings, the recordings, those that could not be read, and phrases left out."""

    manuscript: Manuscript
    takes: tuple[Take, ...]
    recordings: tuple[ListenedTo, ...]
    refused: tuple[tuple[Path, ShedbookError], ...]
    unread: tuple[str, ...]


def takes(
    order: TakesOrder, hear_of: Callable[[int, int, Path], None] = lambda done, of, path: None
) -> TakesFound:
    """Listen to recordings and hold each take against its phrase. Nothing is written.

    Args:
        order: what is to be listened to.
        hear_of: is told how many recordings are done, of how many, and which comes next.

    Raises:
        ManuscriptError: if the book cannot be opened.
        UnknownNameError: for a phrase or key that is not there.
        ReadError: if the session that is named has no list of takes.
        SoundError: if the only recording cannot be listened to; of several, the others are.
    """
    manuscript = open_manuscript(order.book, keep_going=True)
    sources, phrases, unread = _readable(manuscript)
    meant = chosen_phrase(manuscript.phrases, order.phrase) if order.phrase else None
    if meant is not None:  # of phrases that are alike, a take is of the one that was meant
        at = [source.number != meant.number for source in sources]
        turn = sorted(range(len(sources)), key=at.__getitem__)
        sources, phrases = [sources[one] for one in turn], [phrases[one] for one in turn]
    tonic = tonic_of(order.key) if order.key else None
    lines = tuple(line_of(phrase) for phrase in phrases)
    session = read_session(order.session) if order.session is not None else None
    found: list[Take] = []
    listened: list[ListenedTo] = []
    refused: list[tuple[Path, ShedbookError]] = []
    for done, path in enumerate(order.recordings):
        hear_of(done, len(order.recordings), path)
        try:
            heard = heard_recording(path)
        except SoundError as error:
            if len(order.recordings) == 1:
                raise
            refused.append((path, error))
            continue
        planned, said = _planned(path, session)
        unread += said
        slates = read_slates(heard.kept, heard.rate)
        inside = takes_in(heard, lines, [_slated(one, planned, sources) for one in slates])
        for place, reading in enumerate(inside.takes):
            index = reading.line
            click = _click(order, lines[index]) if not place else None
            played = (sources[index], phrases[index], lines[index])
            number = slates[reading.slate].number if reading.slate is not None else None
            slate = (number, planned.get(number) if number is not None else None)
            found.append(_take(path, len(found) + 1, reading, played, heard, order, click, slate))
        after = [take.slate for take in inside.takes]
        listened.append(
            ListenedTo(
                path, heard.forgotten(), len(inside.takes), inside.others,
                tuple(
                    HeardSlate(one, planned.get(one.number), after.count(at)) for at, one in enumerate(slates)
                ),
            )
        )  # fmt: skip
    told = tuple(
        replace(take, amiss=_amiss(take, *_meant(take, meant, tonic.pitch_class if tonic else None, sources)))
        for take in found
    )
    return TakesFound(manuscript, _with_kept(told), tuple(listened), tuple(refused), unread)


def _planned(
    path: Path, session: dict[int, SessionTake] | None
) -> tuple[dict[int, SessionTake], tuple[str, ...]]:
    """Return the takes that slates of a recording name, and what is wrong with a list that nobody named."""
    if session is not None:
        return session, ()
    try:
        return session_beside(path), ()
    except ReadError as error:
        return {}, (f"{error.message} Slates name no phrase without it.",)


def _slated(slate: Slate, planned: dict[int, SessionTake], sources: Sequence[PhraseSource]) -> Slated:
    """Return a slate with the phrase that it names."""
    take = planned.get(slate.number)
    source = source_of(take, sources) if take is not None else None
    return Slated(slate.start_s, slate.end_s, sources.index(source) if source is not None else None)


def heard_recording(path: Path) -> Heard:
    """Return a recording as it is heard.

    Raises:
        SoundError: if it cannot be read, is silent, or lasts too long.
    """
    with recording_blocks(path) as given:
        if given.seconds > LONGEST_S:
            raise SoundError(
                f"{path.name} lasts {given.seconds / 3600:.1f} hours; at most {LONGEST_S / 3600:.0f} are "
                "listened to.",
                hint="Cut it into parts.",
            )
        try:
            return hear(given.blocks, given.rate, given.channels)
        except SoundError as error:
            raise SoundError(f"{path.name}: {error.message}", hint=error.hint) from None


def _readable(manuscript: Manuscript) -> tuple[list[PhraseSource], list[Phrase], tuple[str, ...]]:
    """Return the phrases that can be read, and a sentence for each that cannot."""
    sources, phrases, unread = [], [], [error.message for error in manuscript.unread]
    for source in manuscript.phrases:
        try:
            phrase = read_phrase(source)
        except ReadError as error:
            unread.append(f"Phrase {source.number} cannot be read and is left out: {error.message}")
            continue
        if sounding_notes(phrase):
            sources.append(source)
            phrases.append(phrase)
    return sources, phrases, tuple(unread)


def _click(order: TakesOrder, line: Line) -> Click | None:
    if order.click_s is None:
        return None
    bpm = order.click_bpm or line.tempo_bpm
    return Click(order.click_s, float(bpm * line.beat_quarters))


def _take(
    path: Path,
    number: int,
    reading: TakeReading,
    played: tuple[PhraseSource, Phrase, Line],
    heard: Heard,
    order: TakesOrder,
    click: Click | None,
    slate: tuple[int | None, SessionTake | None],
) -> Take:
    source, phrase, line = played
    measures = measures_of(reading, line, a4_hz=order.a4_hz, click=click)
    mode = phrase.key.mode
    key = Key(readable_tonic((phrase.key.tonic.pitch_class + reading.moved) % 12, mode), mode)
    if not reading.moved % 12:
        key = phrase.key
    planned = slate[1]
    if planned is not None and planned.key.tonic.pitch_class == key.tonic.pitch_class:
        key = Key(planned.key.tonic, mode)
    meant = line if planned is None else replace(line, tempo_bpm=planned.tempo_bpm)
    verdict = verdict_of(reading, meant, measures, heard)
    return Take(
        path, number, source, in_key(phrase, key), line, reading, measures, verdict, key, phrase.key,
        slate=slate[0], planned=planned,
    )  # fmt: skip


def same_tempo(one_bpm: float, other_bpm: float) -> bool:
    """Whether two tempos are near enough to count as one."""
    return abs(one_bpm / other_bpm - 1) <= _SAME_TEMPO


def _meant(
    take: Take, phrase: PhraseSource | None, pitch_class: int | None, sources: Sequence[PhraseSource]
) -> tuple[PhraseSource | None, int | None]:
    """Return what was meant to be played: as you say, else as the slate before it says."""
    if take.planned is None:
        return phrase, pitch_class
    return (
        phrase or source_of(take.planned, sources),
        take.planned.key.tonic.pitch_class if pitch_class is None else pitch_class,
    )


def _amiss(take: Take, meant: PhraseSource | None, pitch_class: int | None) -> tuple[str, ...]:
    """Return what is amiss with a whole take: another phrase, another key."""
    found = []
    if meant is not None and meant.number != take.source.number:
        found.append(
            f"This sounds like phrase {take.source.number}, “{take.source.title}”, and not like phrase "
            f"{meant.number}, “{meant.title}”."
        )
    elif pitch_class is not None and pitch_class != take.key.tonic.pitch_class:
        away = (take.key.tonic.pitch_class - pitch_class) % 12
        row = READING_SLIPS[away]
        found.append(f"It sounds {row.distance}{f': {row.guess}' if row.guess else '.'}")
    return tuple(found)


def _with_kept(found: Sequence[Take]) -> tuple[Take, ...]:
    """Return the takes with the one to keep marked, of each phrase in each key at each tempo."""

    def of(take: Take) -> tuple[int, int]:
        return take.source.number, take.key.tonic.pitch_class

    marked = set()
    for _, group in groupby(sorted(found, key=lambda take: (*of(take), take.filed_bpm, take.number)), key=of):
        for same in _of_one_tempo(list(group)):
            right = [take for take in same if not take.amiss]
            best = kept([take.verdict for take in right])
            if best is not None:
                marked.add(right[best].number)
    return tuple(replace(take, kept=take.number in marked) for take in found)


def _of_one_tempo(takes: Sequence[Take]) -> list[list[Take]]:
    """Return takes, given from slow to fast, parted by tempo: tempos that were asked for, else near ones."""
    found: list[list[Take]] = []
    for take in takes:
        first = found[-1][0] if found else None
        if first is not None and (
            take.filed_bpm == first.filed_bpm
            or (not _as_meant(take) and same_tempo(take.filed_bpm, first.filed_bpm))
        ):
            found[-1].append(take)
        else:
            found.append([take])
    return found


def _as_meant(take: Take) -> bool:
    return take.filed_bpm == take.meant_bpm
