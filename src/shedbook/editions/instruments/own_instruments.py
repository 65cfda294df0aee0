"""Instruments that the author adds in tables of manuscript.toml: read and checked.

Every error is a `ManuscriptError` that says what to write instead. Its field is "instrument", or the key of
the tuning or frets that is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import NoReturn

from shedbook.editions.fingering.fingerboard import (
    FEWEST_FRETS,
    MOST_FRETS,
    USUAL_FRETS,
    Fingerboard,
    read_strings,
)
from shedbook.editions.instruments.instrument import (
    Band,
    Bands,
    Instrument,
    instrument_named,
    plain_words,
)
from shedbook.editions.tables.editions import EDITIONS
from shedbook.editions.tables.instruments import CLEFS
from shedbook.errors import ManuscriptError, UnknownNameError, nearest, shown
from shedbook.phrase.toml_values import check_characters, kind_words
from shedbook.theory.interval import LETTER_SEMITONES, OCTAVE, UNISON, Interval
from shedbook.theory.pitch import HIGHEST_MIDI, LOWEST_MIDI, Pitch

INSTRUMENT_KEYS = (
    "name", "aliases", "transposition", "clef", "range", "comfortable", "extreme", "tuning", "frets",
)  # fmt: skip
"""The keys of an instrument's table, of which "name" and "range" must be given."""

_FIELD = "instrument"
_NAME = re.compile(r"[a-z][a-z0-9 ]{0,39}")
_SHORT = re.compile(r"([+-]?)([PMmAd])([0-9]{1,2})")
_WORDED = re.compile(r"(?:an? |one )?(?:(major|minor|perfect|augmented|diminished) )?([a-z]+)")
_QUALITIES = MappingProxyType(
    {"P": "perfect", "M": "major", "m": "minor", "A": "augmented", "d": "diminished"}
)
_NUMBERS = MappingProxyType({
    "unison": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "octave": 8,
    "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14,
    "fifteenth": 15,
})  # fmt: skip
_NONE = ("none", "concert", "concert pitch", "unison", "")
_CLEFS = MappingProxyType({name: row.clef for row in CLEFS for name in (*row.names, plain_words(row.clef))})
_GROUPS = frozenset(plain_words(name) for row in EDITIONS for name in (row.name, *row.aliases))


def instruments_from_fields(value: object) -> tuple[Instrument, ...]:
    """Return the instruments of the `[[instrument]]` tables of a manuscript, in order.

    Args:
        value: what stands under the key "instrument", as TOML gives it.

    Raises:
        ManuscriptError: if the value is not a list of tables, or an instrument cannot be used.
    """
    if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
        _refuse(
            f'"instrument" must be tables, but is {kind_words(value)}.',
            'Write [[instrument]] on a line of its own, and name = "…" under it.',
        )
    found: list[Instrument] = []
    for index, item in enumerate(value):
        instrument = _instrument(item, index)
        if plain_words(instrument.name) in [plain_words(other.name) for other in found]:
            _refuse(f'"{instrument.name}" is described twice.', "Give each instrument one table.")
        found.append(instrument)
    return tuple(found)


def _instrument(fields: Mapping[str, object], index: int) -> Instrument:
    for key in fields:
        if key not in INSTRUMENT_KEYS:
            _refuse(
                f'"{shown(key)}" is not a key of an instrument.',
                nearest(key, INSTRUMENT_KEYS) or f"The keys are {', '.join(INSTRUMENT_KEYS)}.",
            )
    name = _name(_text(fields, "name", ""))
    aliases = tuple(_name(alias) for alias in _texts(fields.get("aliases", [])))
    clef = _clef(name, _text(fields, "clef", "treble"))
    if "range" not in fields:
        _refuse(f"The {name} needs a written range.", 'Write range = "F#3 to C6".')
    full = _band(name, "range", fields["range"])
    bands = Bands(
        _band(name, "comfortable", fields.get("comfortable", fields["range"])),
        full,
        _band(name, "extreme", fields.get("extreme", fields["range"])),
    )
    if not (full.holds(bands.comfortable) and bands.extreme.holds(full)):
        _refuse(
            f"The ranges of the {name} do not lie inside one another.",
            '"comfortable" lies inside "range", and "range" inside "extreme".',
        )
    try:
        transposition = read_transposition(_text(fields, "transposition", ""))
    except ValueError:
        _refuse(
            f'"{shown(str(fields["transposition"]))}" is not a transposition.',
            'Say how far above the sound the note stands: "up a major sixth", "M6", "up an octave", "none".',
        )
    board = _fingerboard(name, fields, f"{_FIELD}.{index}")
    return Instrument(name, aliases, transposition, (clef,), bands, "the author", board)


def tunings_from_fields(
    value: object, instruments: tuple[Instrument, ...]
) -> tuple[tuple[str, Fingerboard], ...]:
    """Return (name of the instrument, fingerboard) for each line of the table `tunings` of a manuscript.

    Args:
        value: what stands under the key "tunings", as TOML gives it.
        instruments: the author's own instruments.

    Raises:
        ManuscriptError: if an instrument is unknown or has no frets, or a tuning cannot be read.
    """
    if not isinstance(value, dict):
        raise ManuscriptError(
            f'"tunings" must be a table, but is {kind_words(value)}.',
            hint='Write [tunings] on a line of its own, and guitar = "D2 A2 D3 G3 B3 E4" under it.',
            field="tunings",
        )
    found: dict[str, Fingerboard] = {}
    for name, text in value.items():
        field = f"tunings.{name}"
        try:
            instrument = instrument_named(name, instruments)
        except UnknownNameError as error:
            raise ManuscriptError(error.message, hint=error.hint, field=field) from None
        if instrument.fingerboard is None:
            raise ManuscriptError(
                f"The {instrument.name} has no frets, so no tablature.",
                hint="Describe it under [[instrument]], with tuning and frets, if yours has.",
                field=field,
            )
        strings = _strings(instrument.name, text, field)
        found[instrument.name] = Fingerboard(strings, instrument.fingerboard.frets)
    return tuple(found.items())


def _fingerboard(name: str, fields: Mapping[str, object], field: str) -> Fingerboard | None:
    """Return the fingerboard of an instrument that has a tuning, or None."""
    frets = fields.get("frets", USUAL_FRETS)
    if isinstance(frets, bool) or not isinstance(frets, int) or not FEWEST_FRETS <= frets <= MOST_FRETS:
        raise ManuscriptError(
            f"The {name} cannot have these frets: {shown(str(frets))}.",
            hint=f"Write a number from {FEWEST_FRETS} to {MOST_FRETS}, without quotes: frets = 22",
            field=f"{field}.frets",
        )
    if "tuning" in fields:
        return Fingerboard(_strings(name, fields["tuning"], f"{field}.tuning"), frets)
    if "frets" in fields:
        raise ManuscriptError(
            f"The {name} has frets, but no strings.",
            hint='Write the open strings as they sound, from the lowest: tuning = "E2 A2 D3 G3 B3 E4"',
            field=f"{field}.frets",
        )
    return None


def _strings(name: str, value: object, field: str) -> tuple[Pitch, ...]:
    """Return the open strings of a tuning."""
    hint = (
        "Write the open strings as they sound, with their octaves, from the lowest line of the tablature up: "
        '"E2 A2 D3 G3 B3 E4".'
    )
    if not isinstance(value, str):
        raise ManuscriptError(
            f"The tuning of the {name} must be text, but is {kind_words(value)}.", hint=hint, field=field
        )
    check_characters(field, value)
    try:
        strings = read_strings(value)
    except ValueError as error:
        raise ManuscriptError(
            f'The tuning of the {name}, "{shown(value)}", cannot be used: {error}.', hint=hint, field=field
        ) from None
    if not all(LOWEST_MIDI <= string.midi <= HIGHEST_MIDI for string in strings):
        raise ManuscriptError(
            f'The tuning of the {name}, "{shown(value)}", leaves A0 to C8.', hint=hint, field=field
        )
    return strings


def read_transposition(text: str) -> Interval:
    """Read how far above its sound a note is written.

    Texts are such as "M6", "up a major sixth", "up an octave and a major second", "down a minor third", "-m3"
    and "none".

    Raises:
        ValueError: if it is anything else, or more than two octaves.
    """
    words = " ".join(text.split())
    short = _SHORT.fullmatch(words)
    if short is not None:
        found = _interval(_QUALITIES[short[2]], int(short[3]))
        down = short[1] == "-"
    else:
        words = words.lower().replace("♭", "b").removesuffix(" above").removeprefix("up ")
        if words in _NONE:
            return UNISON
        down = words.startswith("down ")
        found = UNISON
        for part in words.removeprefix("down ").split(" and "):
            found += _worded(part)
    if found.steps > 14:
        raise ValueError(text)
    return -found if down else found


def _worded(text: str) -> Interval:
    if text == "two octaves":
        return OCTAVE + OCTAVE
    match = _WORDED.fullmatch(text)
    if match is None or match[2] not in _NUMBERS:
        raise ValueError(text)
    return _interval(match[1] or "", _NUMBERS[match[2]])


def _interval(quality: str, number: int) -> Interval:
    """Return an interval by its quality and number; octaves and unisons may go without a quality."""
    octaves, step = divmod(number - 1, 7)
    perfect = step in (0, 3, 4)
    altered = {
        "": 0 if step == 0 else None,
        "perfect": 0 if perfect else None,
        "major": None if perfect else 0,
        "minor": None if perfect else -1,
        "augmented": 1,
        "diminished": -1 if perfect else -2,
    }[quality]
    if altered is None or number < 1:
        raise ValueError(f"{quality} {number}")
    return Interval(number - 1, 12 * octaves + LETTER_SEMITONES[step] + altered)


def _name(text: str) -> str:
    plain = plain_words(text)
    if _NAME.fullmatch(plain) is None:
        _refuse(
            f'"{shown(text)}" cannot be the name of an instrument.'
            if text
            else "An instrument needs a name.",
            'Write letters, figures and spaces: name = "bass trumpet".',
        )
    if plain in _GROUPS:
        _refuse(
            f'"{text}" is already the name of an edition for a group.',
            'Call the instrument by a longer name, such as "alto flute".',
        )
    return " ".join(text.split())


def _clef(name: str, text: str) -> str:
    clef = _CLEFS.get(plain_words(text).removesuffix(" clef"))
    if clef is None:
        known = ", ".join(f'"{row.names[0]}"' for row in CLEFS)
        _refuse(f'"{shown(text)}" is not a clef for the {name}.', f"Known are {known}.")
    return clef


def _band(name: str, key: str, value: object) -> Band:
    if isinstance(value, list):
        value = " ".join(str(item) for item in value)
    words = re.sub(r"\bto\b|[–—,]|(?<=\d)\s*-", " ", value).split() if isinstance(value, str) else []
    try:
        low, high = (Pitch.parse(word.replace("♭", "b").replace("♯", "#")) for word in words)
    except ValueError:
        _refuse(
            f'The {key} of the {name}, "{shown(str(value))}", is not two notes.',
            f'Write the lowest and the highest written note: {key} = "F#3 to C6".',
        )
    if not (
        low.midi >= LOWEST_MIDI and high.midi <= HIGHEST_MIDI and high.midi - low.midi >= OCTAVE.semitones
    ):
        _refuse(
            f"The {key} of the {name}, {low} to {high}, is no octave wide, or leaves A0 to C8.",
            f'Write the lowest note first: {key} = "F#3 to C6".',
        )
    return Band(low, high)


def _text(fields: Mapping[str, object], key: str, default: str) -> str:
    value = fields.get(key, default)
    if not isinstance(value, str):
        _refuse(f'"{key}" of an instrument must be text, but is {kind_words(value)}.', f'Write {key} = "…".')
    check_characters(_FIELD, value)
    return value


def _texts(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
        _refuse('"aliases" of an instrument must be a list of names.', 'Write aliases = ["valve trombone"].')
    return value


def _refuse(message: str, hint: str) -> NoReturn:
    raise ManuscriptError(message, hint=hint, field=_FIELD)
