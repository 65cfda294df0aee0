"""What manuscript.toml says of tracks, in its table [tracks].

Nothing that plays is loaded here: the settings of a book are read at every build.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from shedbook.book.tables.track_fields import RECORDING_FIELDS, TRACK_FIELDS
from shedbook.errors import ManuscriptError
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.typed import (
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
    COMPING_INSTRUMENT,
    LINE_INSTRUMENT,
)
from shedbook.sound.audio.tables.formats import FORMATS, TARGET_LUFS
from shedbook.sound.tables.track_kinds import KINDS, TUNING
from shedbook.theory.pitch import NoteName

TRACKS = "tracks"
HOME_KEY, ALL_KEYS = "home", "all"
BOOK_TEMPOS, OWN_TEMPO, LADDER_TEMPOS = "book", "own", "ladder"
MOST_ROUNDS = 32

KIND_NAMES = (*(row.name for row in KINDS), TUNING)
_FORMAT_NAMES = tuple(row.ending.removeprefix(".") for row in FORMATS)
_MOST_COUNT_IN = 4
_QUIETEST_LUFS, _LOUDEST_LUFS = -40, -8
_MOST_SEED = 1_000_000
_FLATTEST, _SHARPEST = -7, 10
"""C flat to A sharp, in fifths from C: the tonics that there are keys for."""


@dataclass(frozen=True, slots=True)
class Recording:
    """A recording of the author's: phrase by id, title or number; tonic and tempo, where said; the file."""

    phrase: str
    file: str
    tonic: str = ""
    tempo_bpm: int = 0


@dataclass(frozen=True, slots=True)
class TrackSettings:
    """Which tracks a build makes, and how they sound; no kind means none.

    `phrases` are ids, titles or numbers, none for all. `keys` is HOME_KEY, ALL_KEYS or tonics; `tempos`
    BOOK_TEMPOS (the book's practice tempos, else the phrase's own), OWN_TEMPO, LADDER_TEMPOS or beats
    a minute; `count_in` bars, or None for what fits the tempo; `sound_font` a path from the manuscript's
    folder, or "".
    """

    kinds: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    formats: tuple[str, ...] = ("mp3",)
    keys: str | tuple[str, ...] = HOME_KEY
    tempos: str | tuple[int, ...] = BOOK_TEMPOS
    rounds: int = 4
    count_in: int | None = None
    loudness: float = TARGET_LUFS
    sides: bool = False
    sound_font: str = ""
    line_instrument: str = LINE_INSTRUMENT
    comping_instrument: str = COMPING_INSTRUMENT
    seed: int = 0
    recordings: tuple[Recording, ...] = ()


def read_tracks(value: object) -> TrackSettings:
    """Return what the table [tracks] says.

    Raises:
        ManuscriptError: for an unknown key or a value that cannot be used; its field is "tracks" or a key in
            it: "tracks.rounds", "tracks.recordings.0.key".
    """
    try:
        if not isinstance(value, dict):
            refuse(TRACKS, f'"{TRACKS}" must be a table, but is {kind_words(value)}.', f"Write [{TRACKS}]")
        return _read(value)
    except ManuscriptError as error:
        field = error.field if error.field == TRACKS else f"{TRACKS}.{error.field}"
        raise ManuscriptError(f"[{TRACKS}] {error.message}", hint=error.hint, field=field) from None


def _read(fields: Mapping[str, object]) -> TrackSettings:
    known_keys(fields, tuple(row.name for row in TRACK_FIELDS), f"[{TRACKS}]")
    settings = TrackSettings(
        kinds=_names("kinds", fields.get("kinds", []), KIND_NAMES, "a kind of track"),
        phrases=_phrases(fields.get("phrases", [])),
        formats=_names("formats", fields.get("formats", ["mp3"]), _FORMAT_NAMES, "a format"),
        keys=_keys(fields.get("keys", HOME_KEY)),
        tempos=_tempos(fields.get("tempos", BOOK_TEMPOS)),
        rounds=whole_number("rounds", fields.get("rounds", 4), 1, MOST_ROUNDS),
        count_in=(
            whole_number("count_in", fields["count_in"], 0, _MOST_COUNT_IN) if "count_in" in fields else None
        ),
        loudness=_loudness(fields.get("loudness", TARGET_LUFS)),
        sides=flag("sides", fields.get("sides", False)),
        sound_font=text_value("sound_font", fields.get("sound_font", ""), '"my-font.sf2"'),
        line_instrument=_instrument("line_instrument", fields.get("line_instrument", LINE_INSTRUMENT)),
        comping_instrument=_instrument(
            "comping_instrument", fields.get("comping_instrument", COMPING_INSTRUMENT)
        ),
        seed=whole_number("seed", fields.get("seed", 0), 0, _MOST_SEED),
        recordings=_recordings(fields.get("recordings", [])),
    )
    check_loops(settings)
    return settings


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


def _names(field: str, value: object, known: tuple[str, ...], what: str) -> tuple[str, ...]:
    items = text_list(field, value, f'["{known[0]}"]')
    return tuple(dict.fromkeys(one_of(field, item.removeprefix("."), known, what) for item in items))


def _phrases(value: object) -> tuple[str, ...]:
    items = value if isinstance(value, list) else [value]
    return tuple(_phrase("phrases", item) for item in items)


def _phrase(field: str, value: object) -> str:
    """Return the name of a phrase: a number, or text."""
    return str(value) if type(value) is int else text_value(field, value, '"Low tide"')


def _keys(value: object) -> str | tuple[str, ...]:
    items = text_list("keys", value, '"all" or "C F Bb"')
    if len(items) == 1 and items[0].lower() in (HOME_KEY, ALL_KEYS):
        return items[0].lower()
    if not items:
        refuse("keys", '"keys" names no key.', 'Write "home", "all", or tonics: "C F Bb".')
    return tuple(dict.fromkeys(_tonic("keys", item) for item in items))


def _tonic(field: str, text: str) -> str:
    try:
        tonic = NoteName.parse(text)
    except ValueError:
        tonic = None
    if tonic is None or not _FLATTEST <= tonic.fifths <= _SHARPEST:
        refuse(field, f'"{text}" is not the name of a key.', 'Write a tonic, such as "Bb".')
    return str(tonic)


def _tempos(value: object) -> str | tuple[int, ...]:
    if isinstance(value, str):
        return one_of("tempos", value.strip(), (BOOK_TEMPOS, OWN_TEMPO, LADDER_TEMPOS), "a choice of tempos")
    if not isinstance(value, list) or not value:
        refuse(
            "tempos",
            '"tempos" names no tempo.',
            'Write "book", "own", "ladder", or beats a minute: [80, 120].',
        )
    found = [whole_number("tempos", item, SLOWEST_BPM, FASTEST_BPM, item=True) for item in value]
    return tuple(sorted(set(found)))


def _loudness(value: object) -> float:
    hint = f"Write a number from {_QUIETEST_LUFS} to {_LOUDEST_LUFS}: loudness = {TARGET_LUFS:g}"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        refuse("loudness", f'"loudness" must be a number, but is {kind_words(value)}.', hint)
    if not _QUIETEST_LUFS <= value <= _LOUDEST_LUFS:
        refuse(
            "loudness",
            f'"loudness" is {value:g}, which is too {"loud" if value > _LOUDEST_LUFS else "soft"}.',
            hint,
        )
    return float(value)


def _instrument(field: str, value: object) -> str:
    text = " ".join(text_value(field, value, '"trumpet"').split())
    return one_of(field, text, [row.name for row in BAND_INSTRUMENTS], "an instrument in the table")


def _recordings(value: object) -> tuple[Recording, ...]:
    if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
        refuse(
            "recordings", '"recordings" must be a list of tables.', f"Begin each with [[{TRACKS}.recordings]]"
        )
    found = []
    for index, item in enumerate(value):
        try:
            found.append(_recording(item))
        except ManuscriptError as error:
            refuse(f"recordings.{index}.{error.field}", error.message, error.hint)
    return tuple(found)


def _recording(fields: Mapping[str, object]) -> Recording:
    known_keys(fields, tuple(row.name for row in RECORDING_FIELDS), "a recording")
    for row in RECORDING_FIELDS:
        if row.needed and row.name not in fields:
            refuse(row.name, f'A recording needs "{row.name}".', f"It is {row.meaning}.")
    key, tempo = fields.get("key"), fields.get("tempo")
    return Recording(
        phrase=_phrase("phrase", fields["phrase"]),
        file=text_value("file", fields["file"], '"media/low-tide.wav"'),
        tonic="" if key is None else _tonic("key", text_value("key", key, '"Bb"')),
        tempo_bpm=0 if tempo is None else whole_number("tempo", tempo, SLOWEST_BPM, FASTEST_BPM),
    )
