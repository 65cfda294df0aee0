"""One phrase as a track at once: what `shedbook play` calls."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from shedbook.book.ground.writing import write_whole
from shedbook.book.manuscript.choice import asked_key, chosen_phrase
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.settings.tracks import BASS_FEELS, BRUSHES, MOST_ROUNDS, STICKS
from shedbook.book.manuscript.unread_places import read_every_place
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import OutputError, ShedbookError, SoundError
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.file_tags import Tags
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.loudness import Levels
from shedbook.sound.audio.sound_fonts import find_font
from shedbook.sound.audio.system_player import listen, listeners
from shedbook.sound.audio.tables.formats import FormatRow
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE
from shedbook.sound.tables.clicks import CLICKS
from shedbook.sound.tables.track_kinds import BRUSHED_FEEL
from shedbook.sound.track import Sound, Track, make

COUNT_IN_BARS = 1
PLAYERS_CALLED = MappingProxyType({"line": LINE, "bass": BASS, "piano": COMPING, "drums": DRUMS})
"""What a player is called on the command line to what the score calls him."""
_HEARD_AS, _MIDI = ".wav", ".mid"


@dataclass(frozen=True, slots=True)
class PlayRequest:
    """What is asked for; "" and None stand for what the phrase or the manuscript says.

    `out` is the file to write, its ending the format; None plays through a sound device. `phrase` is a
    number or a title, `parts` "line", "trio" or "both", `font` a SoundFont of one's own. `count_in` is a
    number of bars, None for what fits the tempo; `without` are players that are left out: "line", "bass",
    "piano",
    "drums"; `click` is a kind of click that goes with the line alone; `bass` is "two" or "four".
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


@dataclass(frozen=True, slots=True)
class Played:
    """What came of it.

    `out` is the file, if one was asked for, `seconds` its length up to the last bar line; audio has levels
    and says what it was played with.
    """

    out: Path | None
    seconds: float
    levels: Levels | None
    played_with: str


def play(request: PlayRequest) -> Played:
    """Make one track of a phrase, and write or play it.

    Raises:
        ReadError: if the phrase cannot be read.
        UnknownNameError: for a key or phrase that is not there.
        OutputError: for an ending that is no format, or a file that cannot be written.
        SoundError: if nothing that sounds can be made; where a file was asked for, MIDI is written instead.
    """
    _check(request)
    if request.out is not None and request.out.is_dir():
        raise OutputError(f"{request.out} is a folder.", hint="Name a file: --out low-tide.mp3")
    row = format_of(request.out.suffix if request.out else _HEARD_AS)
    _check_loop(request, row)
    if request.out is None:
        listeners()
    manuscript = open_manuscript(request.file)
    phrase = _phrase(request, manuscript)
    track = _track(request, manuscript, phrase, row)
    if request.out is None:
        listen(track.content)
    else:
        write_whole(request.out, track.content)
    return Played(request.out, track.seconds, track.levels, track.played_with)


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


def _track(request: PlayRequest, manuscript: Manuscript, phrase: Phrase, row: FormatRow) -> Track:
    settings = manuscript.settings
    sound = settings.tracks.sound
    sides = sound.sides or request.sides
    order = Order(
        parts=request.parts,
        # In a call and answer every round is played once and left to the reader once.
        rounds=request.rounds * (2 if request.answers else 1),
        tempo_bpm=request.tempo_bpm,
        feel=request.feel,
        count_in=request.count_in,
        answers=request.answers,
        loop=request.loop,
        click=bool(request.click),
        click_kind=request.click or CLICKS[0],
        seed=sound.seed if request.seed is None else request.seed,
        bass_instrument=sound.bass_instrument,
        bass_feel=BASS_FEELS.get(request.bass or sound.bass, ""),
        drum_feel=BRUSHED_FEEL if sound.drums == BRUSHES else "",
        brushes=sound.drums != STICKS,
        line_instrument=sound.line_instrument,
        comping_instrument=sound.comping_instrument,
        wide=sides,
    )
    without = tuple(PLAYERS_CALLED[name] for name in request.without)
    tags = Tags(
        title=f"{phrase.title} in {phrase.key}",
        album=manuscript.title,
        artist=settings.author,
        bpm=request.tempo_bpm or phrase.tempo_bpm,
        key=phrase.key,
    )
    if request.font is not None and row.container:
        _check_font(request.font)
    font = request.font or (manuscript.root / sound.sound_font if sound.sound_font else None)
    try:
        return make(phrase, order, row, tags, Sound(font, sound.loudness, sides, without))
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
