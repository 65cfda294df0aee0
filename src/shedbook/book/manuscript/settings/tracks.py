"""What manuscript.toml says of tracks, in its table [tracks]. Each setting is one row.

Nothing that plays is loaded here: the settings of a book are read at every build.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from shedbook.book.manuscript.settings.rows import group, read_rows, row, rows_of
from shedbook.errors import ManuscriptError
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.toml_values import (
    flag,
    kind_words,
    known_keys,
    one_of,
    refuse,
    text_list,
    text_value,
    whole_number,
)
from shedbook.sound.arranging.tables.band_instruments import (
    BAND_INSTRUMENTS,
    LINE_INSTRUMENT,
)
from shedbook.sound.audio.tables.formats import FORMATS, TARGET_LUFS
from shedbook.sound.tables.clicks import CLICKS, COUNTS
from shedbook.sound.tables.track_kinds import KIND_GROUPS, KINDS, RAMP, TUNING
from shedbook.theory.pitch import NoteName

TRACKS = "tracks"
HOME_KEY, ALL_KEYS = "home", "all"
BOOK_TEMPOS, OWN_TEMPO, LADDER_TEMPOS = "book", "own", "ladder"
MOST_ROUNDS = 32
OF_THE_FEEL, BRUSHES, STICKS = "feel", "brushes", "sticks"
BASS_FEELS = MappingProxyType({"two": "ballad", "four": "fast swing"})
"""A way to play the bass to the feel whose bass plays so."""
MOST_PERCENT = 200
_LEAST_MINUTES, _MOST_MINUTES = 0.5, 30
_LADDER = re.compile(r"(\d{1,3}) ?(%?) to (\d{1,3}) ?\2 by (\d{1,3}) ?\2")

KIND_NAMES = (*(row.name for row in KINDS), TUNING)
_FORMAT_NAMES = tuple(row.ending.removeprefix(".") for row in FORMATS)
_MOST_COUNT_IN = 4
_QUIETEST_LUFS, _LOUDEST_LUFS = -40, -8
_MOST_SEED = 1_000_000
_FLATTEST, _SHARPEST = -7, 10
"""C flat to A sharp, in fifths from C: the tonics that there are keys for."""


# Readers: each takes the key and its value in TOML.


def _kinds(key: str, value: object) -> tuple[str, ...]:
    named = _names(key, value, (*KIND_NAMES, *KIND_GROUPS), "a kind of track")
    return tuple(dict.fromkeys(kind for name in named for kind in KIND_GROUPS.get(name, (name,))))


def _formats(key: str, value: object) -> tuple[str, ...]:
    return _names(key, value, _FORMAT_NAMES, "a format")


def _names(field: str, value: object, known: tuple[str, ...], what: str) -> tuple[str, ...]:
    items = text_list(field, value, f'["{known[0]}"]')
    return tuple(dict.fromkeys(one_of(field, item.removeprefix("."), known, what) for item in items))


def _phrases(key: str, value: object) -> tuple[str, ...]:
    items = value if isinstance(value, list) else [value]
    return tuple(_phrase(key, item) for item in items)


def _phrase(field: str, value: object) -> str:
    """Return the name of a phrase: a number, or text."""
    return str(value) if type(value) is int else text_value(field, value, '"Low tide"')


def _keys(key: str, value: object) -> str | tuple[str, ...]:
    items = text_list(key, value, '"all" or "C F Bb"')
    if len(items) == 1 and items[0].lower() in (HOME_KEY, ALL_KEYS):
        return items[0].lower()
    if not items:
        refuse(key, '"keys" names no key.', 'Write "home", "all", or tonics: "C F Bb".')
    return tuple(dict.fromkeys(_tonic(key, item) for item in items))


def _tonic(field: str, text: str) -> str:
    try:
        tonic = NoteName.parse(text)
    except ValueError:
        tonic = None
    if tonic is None or not _FLATTEST <= tonic.fifths <= _SHARPEST:
        refuse(field, f'"{text}" is not the name of a key.', 'Write a tonic, such as "Bb".')
    return str(tonic)


def _tempos(key: str, value: object) -> str | tuple[int, ...]:
    if isinstance(value, str) and ladder_steps(value) is not None:
        return _steps(key, value)
    if isinstance(value, str):
        return one_of(key, value.strip(), (BOOK_TEMPOS, OWN_TEMPO, LADDER_TEMPOS), "a choice of tempos")
    if not isinstance(value, list) or not value:
        refuse(
            key,
            '"tempos" names no tempo.',
            'Write "book", "own", "ladder", or beats a minute: [80, 120].',
        )
    found = [whole_number(key, item, SLOWEST_BPM, FASTEST_BPM, item=True) for item in value]
    return tuple(sorted(set(found)))


def _steps(key: str, value: object) -> str:
    """Return steps of tempos in their normal form."""
    text = text_value(key, value, f'"{RAMP}"')
    steps = ladder_steps(text)
    highest = MOST_PERCENT if steps is not None and steps.percent else FASTEST_BPM
    if steps is None or steps.step < 1 or not 1 <= steps.first < steps.last <= highest:
        hint = 'Write "60% to 100% by 10%" or "80 to 140 by 10".'
        refuse(key, f'"{value}" is no ladder of tempos.', hint)
    if len(steps.tempos(100)) > MOST_ROUNDS:
        refuse(key, f'"{value}" has more than {MOST_ROUNDS} steps.', "Take larger steps.")
    return " ".join(text.split())


def read_steps(text: str) -> LadderSteps:
    """Return the steps of tempos that a command names.

    Raises:
        ManuscriptError: if it names none.
    """
    steps = ladder_steps(_steps("ramp", text))
    assert steps is not None
    return steps


class LadderSteps(NamedTuple):
    """Tempos by steps, in beats a minute, or in per cent of the phrase's tempo."""

    first: int
    last: int
    step: int
    percent: bool

    def tempos(self, own: int) -> tuple[int, ...]:
        """Return the tempos in beats a minute, each once; `own` is the phrase's."""
        rungs = [*range(self.first, self.last, self.step), self.last]
        return in_reach(round(own * rung / 100) if self.percent else rung for rung in rungs)


def in_reach(tempos: Iterable[int]) -> tuple[int, ...]:
    """Return tempos that can be played, each once."""
    return tuple(dict.fromkeys(min(FASTEST_BPM, max(SLOWEST_BPM, tempo)) for tempo in tempos))


def ladder_steps(text: str) -> LadderSteps | None:
    """Read "60% to 100% by 10%" or "80 to 140 by 10"; None for anything else."""
    found = _LADDER.fullmatch(" ".join(text.split()))
    if found is None:
        return None
    return LadderSteps(int(found[1]), int(found[3]), int(found[4]), found[2] == "%")


def _minutes(key: str, value: object) -> float:
    hint = f"Write a number from {_LEAST_MINUTES:g} to {_MOST_MINUTES}: minutes = 4"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        refuse(key, f'"minutes" must be a number, but is {kind_words(value)}.', hint)
    if not _LEAST_MINUTES <= value <= _MOST_MINUTES:
        refuse(key, f'"minutes" is {value:g}.', hint)
    return float(value)


def _click(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, '"2 and 4"'), CLICKS, "a kind of click")


def _count(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, '"spoken"'), COUNTS, "a way to count in")


def _bass(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, '"two"'), (OF_THE_FEEL, *BASS_FEELS), "a way to play the bass")


def _drums(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, '"brushes"'), (OF_THE_FEEL, BRUSHES, STICKS), "a kind of drums")


def _loudness(key: str, value: object) -> float:
    hint = f"Write a number from {_QUIETEST_LUFS} to {_LOUDEST_LUFS}: loudness = {TARGET_LUFS:g}"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        refuse(key, f'"loudness" must be a number, but is {kind_words(value)}.', hint)
    if not _QUIETEST_LUFS <= value <= _LOUDEST_LUFS:
        refuse(
            key,
            f'"loudness" is {value:g}, which is too {"loud" if value > _LOUDEST_LUFS else "soft"}.',
            hint,
        )
    return float(value)


def _rounds(key: str, value: object) -> int:
    return whole_number(key, value, 1, MOST_ROUNDS)


def _count_in(key: str, value: object) -> int:
    return whole_number(key, value, 0, _MOST_COUNT_IN)


def _seed(key: str, value: object) -> int:
    return whole_number(key, value, 0, _MOST_SEED)


def _sound_font(key: str, value: object) -> str:
    return text_value(key, value, '"my-font.sf2"')


def _instrument(field: str, value: object) -> str:
    text = " ".join(text_value(field, value, '"trumpet"').split())
    return one_of(field, text, [row.name for row in BAND_INSTRUMENTS], "an instrument in the table")


def _file(key: str, value: object) -> str:
    return text_value(key, value, '"media/low-tide.wav"')


def _own_key(key: str, value: object) -> str:
    return _tonic(key, text_value(key, value, '"Bb"'))


def _own_tempo(key: str, value: object) -> int:
    return whole_number(key, value, SLOWEST_BPM, FASTEST_BPM)


@dataclass(frozen=True, slots=True)
class Recording:
    """A recording of the author's: phrase by id, title or number; tonic and tempo, where said; the file."""

    phrase: str = row("", _phrase, "text or whole number", "", "the phrase's id, title or number", must=True)
    tonic: str = row(
        "", _own_key, "text", "the phrase's own", "the tonic of the key that you play in", key="key"
    )
    tempo_bpm: int = row(
        0, _own_tempo, "whole number", "the phrase's own", "the tempo that you play at", key="tempo"
    )
    file: str = row(
        "", _file, "text", "", "the recording, from the manuscript's folder: media/low-tide.wav", must=True
    )


RECORDING_FIELDS = rows_of(Recording)
"""The keys of a recording."""


def _recordings(key: str, value: object) -> tuple[Recording, ...]:
    if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
        refuse(key, '"recordings" must be a list of tables.', f"Begin each with [[{TRACKS}.recordings]]")
    found = []
    for index, item in enumerate(value):
        try:
            known_keys(item, tuple(one.name for one in RECORDING_FIELDS), "a recording")
            found.append(read_rows(Recording, item, "A recording"))
        except ManuscriptError as error:
            refuse(f"{key}.{index}.{error.field}", error.message, error.hint)
    return tuple(found)


# The table.


@dataclass(frozen=True, slots=True)
class SoundSettings:
    """How tracks sound: a part of the table of the keys of [tracks].

    `count_in` are bars, or None for what fits the tempo; `loudness` is in LUFS; `sound_font` a path from the
    manuscript's folder, or "".
    """

    rounds: int = row(4, _rounds, "whole number", "4", "how often the phrase is played in a track")
    count_in: int | None = row(None, _count_in, "whole number", "what fits the tempo", "bars counted in")
    loudness: float = row(TARGET_LUFS, _loudness, "number", "-16", "how loud a track is as a whole, in LUFS")
    sides: bool = row(
        False, flag, "true or false", "false",
        "the bass left and the piano right, so that either can be turned off",
    )  # fmt: skip
    sound_font: str = row(
        "", _sound_font, "text", "the best one there",
        "your own SoundFont, a .sf2 file; its place is counted from the manuscript's folder",
    )  # fmt: skip
    line_instrument: str = row(LINE_INSTRUMENT, _instrument, "text", "clarinet", "who plays the line")
    comping_instrument: str = row("", _instrument, "text", "that of the feel", "who plays the chords")
    bass_instrument: str = row("", _instrument, "text", "that of the feel", "who plays the bass")
    bass: str = row(
        OF_THE_FEEL, _bass, "text", OF_THE_FEEL,
        'how the bass plays: "two" notes in a bar, "four", or as the feel has it',
    )  # fmt: skip
    drums: str = row(OF_THE_FEEL, _drums, "text", OF_THE_FEEL, '"brushes", "sticks", or as the feel has them')
    click: str = row(
        CLICKS[0], _click, "text", CLICKS[0],
        'where a click falls: on all "beats", on "2 and 4", on "1", or "thinning" out from one to the next',
    )  # fmt: skip
    count: str = row(
        COUNTS[0], _count, "text", COUNTS[0],
        'how a track is counted in: "struck", "spoken" by a voice, or "both"; MIDI files are struck',
    )  # fmt: skip
    minutes: float | None = row(
        None, _minutes, "number", "as many as the rounds take",
        "how many minutes a track lasts, in the place of `rounds`",
    )  # fmt: skip
    seed: int = row(0, _seed, "whole number", "0", "another number gives another bass line and other chords")


@dataclass(frozen=True, slots=True)
class TrackSettings:
    """Which tracks a build makes, and how they sound: the table of the keys of [tracks]; no kind means none.

    `phrases` are ids, titles or numbers, none for all. `keys` is HOME_KEY, ALL_KEYS or tonics; `tempos`
    BOOK_TEMPOS (the book's practice tempos, else the phrase's own), OWN_TEMPO, LADDER_TEMPOS or beats
    a minute.
    """

    kinds: tuple[str, ...] = row(
        (), _kinds, "text or list", "none",
        'which tracks the build makes: "demonstration", "play-along", "line", "click", '
        '"call-and-answer", "twelve-keys", "loop", "tuning", "no-bass", "no-piano", "no-drums" (together '
        '"minus-one"), "bass-alone", "piano-alone", "drums-alone" (together "alone"), "ramp", "bar-loop", '
        '"link-loop", "stem-line", "stem-bass", "stem-piano", "stem-drums" (together "stems")',
    )  # fmt: skip
    phrases: tuple[str, ...] = row(
        (), _phrases, "text, whole number or list", "every phrase",
        "the phrases that get tracks, by id, title or number",
    )  # fmt: skip
    formats: tuple[str, ...] = row(
        ("mp3",), _formats, "text or list", "mp3", '"mp3", "flac", "opus", "wav", "mid"'
    )
    keys: str | tuple[str, ...] = row(
        HOME_KEY, _keys, "text or list", "home",
        '"home" for the phrase\'s own key, "all" for the keys of the book, or tonics: "C F Bb"',
    )  # fmt: skip
    tempos: str | tuple[int, ...] = row(
        BOOK_TEMPOS, _tempos, "text or list of whole numbers", "book",
        '"book" for the tempos of the book, or the phrase\'s where it has none, "own" for the '
        'phrase\'s, "ladder" for slow, medium and goal, "60% to 100% by 10%" or "80 to 140 by 10" for steps, '
        "or beats a minute: [80, 120]",
    )  # fmt: skip
    ramp: str = row(
        RAMP, _steps, "text", RAMP,
        'the tempos of "ramp", one a round: in per cent of the phrase\'s own, or in beats '
        'a minute: "80 to 140 by 10"',
    )  # fmt: skip
    sound: SoundSettings = group(SoundSettings)
    recordings: tuple[Recording, ...] = row(
        (), _recordings, "list of tables", "",
        "your own recordings: each takes the place of one demonstration",
    )  # fmt: skip


TRACK_FIELDS = rows_of(TrackSettings)
"""The keys of the table [tracks] in manuscript.toml."""


def read_tracks(value: object) -> TrackSettings:
    """Return what the table [tracks] says.

    Raises:
        ManuscriptError: for an unknown key or a value that cannot be used; its field is "tracks" or a key in
            it: "tracks.rounds", "tracks.recordings.0.key".
    """
    try:
        if not isinstance(value, dict):
            refuse(TRACKS, f'"{TRACKS}" must be a table, but is {kind_words(value)}.', f"Write [{TRACKS}]")
        known_keys(value, tuple(one.name for one in TRACK_FIELDS), f"[{TRACKS}]")
        settings = read_rows(TrackSettings, value, f"[{TRACKS}]")
        check_loops(settings)
        return settings
    except ManuscriptError as error:
        field = error.field if error.field == TRACKS else f"{TRACKS}.{error.field}"
        raise ManuscriptError(f"[{TRACKS}] {error.message}", hint=error.hint, field=field) from None


def check_loops(settings: TrackSettings) -> None:
    """See that loops have a format in which their end joins their beginning.

    Raises:
        ManuscriptError: if they have none.
    """
    lossless = {row.ending.removeprefix(".") for row in FORMATS if row.lossless}
    loops = any(row.loop and row.name in settings.kinds for row in KINDS)
    if loops and not lossless & set(settings.formats):
        refuse(
            "formats",
            '"loop" needs "flac" or "wav" among the formats: in others the end does not join the beginning.',
            'Write formats = ["mp3", "flac"]',
        )
