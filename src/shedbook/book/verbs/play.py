"""One phrase as a track at once: what `shedbook play` calls."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType

from shedbook.book.ground.writing import write_whole
from shedbook.book.manuscript.choice import asked_key, chosen_phrase
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.settings.tracks import MOST_ROUNDS, read_steps
from shedbook.book.manuscript.unread_places import read_every_place
from shedbook.book.tracks.band import band_order
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import OutputError, ShedbookError, SoundError
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.lengths import rounds_for
from shedbook.sound.arranging.order import Order
from shedbook.sound.audio.file_tags import Tags
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.loudness import Levels
from shedbook.sound.audio.sound_fonts import find_font
from shedbook.sound.audio.system_player import listen, listeners
from shedbook.sound.audio.tables.formats import FormatRow
from shedbook.sound.audio.tables.voices import INSTALL, PROGRAM
from shedbook.sound.audio.voice_door import voice_there
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE
from shedbook.sound.tables.clicks import CLICKS, STRUCK
from shedbook.sound.track import Sound, Track, live_track, make

COUNT_IN_BARS = 1
PLAYERS_CALLED = MappingProxyType({"line": LINE, "bass": BASS, "piano": COMPING, "drums": DRUMS})
"""What a player is called on the command line to what the score calls him."""
_HEARD_AS, _MIDI = ".wav", ".mid"
_BARS = re.compile(r"(\d{1,2})(?:\s*-\s*(\d{1,2}))?")


@dataclass(frozen=True, slots=True)
class PlayRequest:
    """What is asked for; "" and None stand for what the phrase or the manuscript says.

    `out` is the file to write, its ending the format; None plays through a sound device. `phrase` is a
    number or a title, `parts` "line", "trio" or "both", `font` a SoundFont of one's own. `count_in` is a
    number of bars, None for what fits the tempo, `count` how they are counted; `without` are players that are
    left out, `alone` is the one that stays: "line", "bass", "piano", "drums"; `click` is a kind of click that
    goes with the line alone; `bass` is "two" or "four", `drums` "brushes" or "sticks". `minutes` takes the
    place of `rounds`, `ramp` ("60% to 100% by 5%") of rounds and tempo. `bars` ("2", "2-3") are those that
    are played.
    """

    file: Path
    out: Path | None = None
    phrase: str = ""
    key: str = ""
    tempo_bpm: int | None = None
    parts: str = "both"
    rounds: int = 1
    font: Path | None = None
    feel: str = ""
    seed: int | None = None
    count_in: int | None = COUNT_IN_BARS
    loop: bool = False
    answers: bool = False
    sides: bool = False
    without: tuple[str, ...] = ()
    click: str = ""
    bass: str = ""
    count: str = ""
    minutes: float | None = None
    ramp: str = ""
    bars: str = ""
    alone: str = ""
    drums: str = ""
    line_instrument: str = ""
    comping_instrument: str = ""
    bass_instrument: str = ""


@dataclass(frozen=True, slots=True)
class Played:
    """What came of it.

    `out` is the file, if one was asked for, `seconds` its length up to the last bar line; audio has levels
    and says what it was played with; what is played at once has no levels. `said` is what else is to be told.
    """

    out: Path | None
    seconds: float
    levels: Levels | None
    played_with: str
    said: tuple[str, ...] = ()


Hear = Callable[[Iterable[bytes], int], None]
"""What is given the samples of a track (16 bit, stereo, 48 kHz) piece by piece, and how many frames come."""


def play(request: PlayRequest, hear: Hear = listen) -> Played:
    """Make one track of a phrase, and write or play it.

    Args:
        request: what is asked for.
        hear: what plays where no file is asked for, while the track is still being made.

    Raises:
        ReadError: if the phrase cannot be read.
        UnknownNameError: for a key, phrase, instrument or bars that are not there.
        OutputError: for an ending that is no format, or a file that cannot be written.
        SoundError: if nothing that sounds can be made; where a file was asked for, MIDI is written instead.
    """
    _check(request)
    if request.out is not None and request.out.is_dir():
        raise OutputError(f"{request.out} is a folder.", hint="Name a file: --out low-tide.mp3")
    row = format_of(request.out.suffix if request.out else _HEARD_AS)
    _check_loop(request, row)
    if request.out is None and hear is listen:
        listeners()
    manuscript = open_manuscript(request.file)
    phrase = _phrase(request, manuscript)
    order = _order(request, manuscript, phrase)
    sound, said = _sound(request, manuscript, row)
    if request.out is None:
        live = live_track(phrase, order, sound)
        hear(live.pieces, live.frames)
        return Played(None, live.seconds, None, live.played_with, said)
    track = _track(request, manuscript, phrase, order, sound, row)
    write_whole(request.out, track.content)
    return Played(request.out, track.seconds, track.levels, track.played_with, said)


def _check(request: PlayRequest) -> None:
    if request.tempo_bpm is not None and not SLOWEST_BPM <= request.tempo_bpm <= FASTEST_BPM:
        raise ShedbookError(
            f"{request.tempo_bpm} beats a minute is no tempo that can be played.",
            hint=f"Name one from {SLOWEST_BPM} to {FASTEST_BPM}: --tempo 120",
        )
    if not 1 <= request.rounds <= MOST_ROUNDS:
        raise ShedbookError(
            f"{request.rounds} rounds cannot be played.", hint=f"Name a number from 1 to {MOST_ROUNDS}."
        )
    if request.loop and request.ramp:
        raise ShedbookError(
            "A loop has one tempo: its end joins its beginning.", hint="Leave out --loop or --ramp."
        )
    if request.alone and request.without:
        raise ShedbookError(
            "One player alone leaves the others out already.", hint="Leave out --alone or --without."
        )


def _bars(text: str) -> tuple[int, int] | None:
    """Return the first and the last bar that "2" or "2-3" names; None for "".

    Raises:
        ShedbookError: if it names none.
    """
    if not text:
        return None
    found = _BARS.fullmatch(text.strip())
    if found is None:
        raise ShedbookError(f'"{text}" names no bars.', hint="Write a bar or two: --bars 2, or --bars 2-3")
    return int(found[1]), int(found[2] or found[1])


def _check_loop(request: PlayRequest, row: FormatRow) -> None:
    """See that a loop goes into a format in which its end joins its beginning.

    Raises:
        ShedbookError: if it does not.
    """
    if request.loop and not row.lossless:
        raise ShedbookError(
            f"A loop cannot be {row.name}: its end would not join its beginning.",
            hint="Name a file that ends in .wav, .flac or .mid.",
        )


def _phrase(request: PlayRequest, manuscript: Manuscript) -> Phrase:
    """Return the phrase asked for in the key asked for."""
    phrase = read_every_place(chosen_phrase(manuscript.phrases, request.phrase or "1"))
    return in_key(phrase, asked_key(request.key, phrase.key.mode) if request.key else phrase.key)


def _order(request: PlayRequest, manuscript: Manuscript, phrase: Phrase) -> Order:
    """Return what the players are told."""
    own = manuscript.settings.tracks.sound
    sound = replace(
        own,
        count_in=request.count_in,
        seed=own.seed if request.seed is None else request.seed,
        bass=request.bass or own.bass,
        drums=request.drums or own.drums,
        bass_instrument=request.bass_instrument or own.bass_instrument,
        line_instrument=request.line_instrument or own.line_instrument,
        comping_instrument=request.comping_instrument or own.comping_instrument,
        sides=own.sides or request.sides,
    )
    order = replace(
        band_order(sound),
        parts=request.parts,
        # In a call and answer every round is played once and left to the reader once.
        rounds=request.rounds * (2 if request.answers else 1),
        tempo_bpm=request.tempo_bpm,
        feel=request.feel,
        answers=request.answers,
        loop=request.loop,
        click=bool(request.click),
        click_kind=request.click or CLICKS[0],
        bars=_bars(request.bars),
        ramp=read_steps(request.ramp).tempos(phrase.tempo_bpm) if request.ramp else (),
    )
    if request.minutes is None:
        return order
    return replace(order, rounds=rounds_for(request.minutes, (phrase,), order))


def _sound(request: PlayRequest, manuscript: Manuscript, row: FormatRow) -> tuple[Sound, tuple[str, ...]]:
    """Return how the track is to sound, and what is to be said of it."""
    sound = manuscript.settings.tracks.sound
    out = tuple(PLAYERS_CALLED[name] for name in request.without)
    if request.alone:
        out = tuple(called for name, called in PLAYERS_CALLED.items() if name != request.alone)
    if request.font is not None and row.container:
        _check_font(request.font)
    font = request.font or (manuscript.root / sound.sound_font if sound.sound_font else None)
    count, said = request.count or sound.count, tuple[str, ...]()
    if (
        count != STRUCK
        and not request.loop
        and request.count_in != 0
        and not (row.container and voice_there())
    ):
        why = f"{PROGRAM} is not installed. {INSTALL}" if row.container else "a MIDI file cannot speak."
        count, said = STRUCK, (f"The count-in is struck, not spoken: {why}",)
    return Sound(
        font, sound.loudness, sound.sides or request.sides, out, count, manuscript.settings.language
    ), said


def _track(
    request: PlayRequest, manuscript: Manuscript, phrase: Phrase, order: Order, sound: Sound, row: FormatRow
) -> Track:
    tags = Tags(
        title=f"{phrase.title} in {phrase.key}",
        album=manuscript.title,
        artist=manuscript.settings.author,
        bpm=order.ramp[-1] if order.ramp else request.tempo_bpm or phrase.tempo_bpm,
        key=phrase.key,
    )
    try:
        return make(phrase, order, row, tags, sound)
    except SoundError as error:
        if request.out is None:
            raise
        raise _midi_instead(request.out, phrase, order, tags, error) from error


def _check_font(font: Path) -> None:
    """See that the font of the command line is one, and say it in the command's own words where it is not.

    Raises:
        SoundError: if it is none.
    """
    try:
        find_font(font)
    except SoundError as error:
        raise SoundError(
            error.message, hint="Name a .sf2 file, or leave --font out: then a font that is there is used."
        ) from None


def _midi_instead(out: Path, phrase: Phrase, order: Order, tags: Tags, error: SoundError) -> SoundError:
    """Write the track as MIDI beside where it should have been, and return the error that says so."""
    midi = out.with_suffix(_MIDI)
    if midi.exists():
        return error
    write_whole(midi, make(phrase, order, format_of(_MIDI), tags, Sound()).content)
    return SoundError(f"{error.message} The track was written as MIDI instead: {midi}", hint=error.hint)
