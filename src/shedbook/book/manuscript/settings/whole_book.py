"""What manuscript.toml says of the book, apart from its phrases. Each setting is one row of `Settings`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from shedbook.book.ground.paper import PAGE_SIZES
from shedbook.book.ground.tables.language_codes import CODES
from shedbook.book.manuscript.settings.pages import PageSettings
from shedbook.book.manuscript.settings.rows import group, read_rows, row, rows_of
from shedbook.book.manuscript.settings.shop import PrintSettings, ShopSettings
from shedbook.book.manuscript.settings.tablature import read_tablature, read_tunings
from shedbook.book.manuscript.settings.tracks import TrackSettings, read_tracks
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import editions_in
from shedbook.editions.instruments.instrument import Instrument
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.spelling.courtesy_accidentals import COURTESY_RULES
from shedbook.errors import NotationError, UnknownNameError
from shedbook.phrase.fields import (
    FASTEST_BPM,
    SLOWEST_BPM,
    read_feel,
    read_links,
    read_metre,
    read_silence,
    read_tempo,
)
from shedbook.phrase.toml_values import (
    check_characters,
    flag,
    kind_words,
    known_keys,
    one_of,
    refuse,
    text_list,
    text_value,
    whole_number,
)
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

CONCERT, WRITTEN = "concert", "written"
_MOST_DRILLS = 200

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")
_ID = re.compile(r"[\w.-]{1,80}")
_LETTERS = 2
"""How many letters a language has in `CODES`; there are tags of three, which are not listed."""


# Readers: each takes the key, its value in TOML, and the settings that its row says it needs.


def _line(key: str, value: object) -> str:
    return text_value(key, value, '"…"')


def _own_id(key: str, value: object) -> str:
    text = text_value(key, value, '"tides-2026"')
    if _ID.fullmatch(text) is None:
        refuse(key, f'"{text}" is not a name for a book.', "Write letters, digits, hyphens and dots alone.")
    return text


def _language(key: str, value: object) -> str:
    text = text_value(key, value, '"en"')
    if _LANGUAGE.fullmatch(text) is None:
        refuse(key, f'"{text}" is not a language tag.', 'Write two letters, as in "en", "de", "pt-BR".')
    code = text.partition("-")[0].lower()
    if len(code) == _LETTERS and code not in CODES.split():
        refuse(
            key,
            f'"{text}" names no language.',
            'Write its two letters by ISO 639, as in "en", "de", "pt-BR".',
        )
    return text


def _tonics(key: str, value: object) -> tuple[str, ...]:
    """Return the preferred tonics as note names."""
    found = []
    for text in text_list(key, value, '"F# Db"'):
        try:
            found.append(str(NoteName.parse(text)))
        except ValueError:
            refuse(key, f'"{text}" is not the name of a key.', 'Write tonics: "F# Db".')
    return tuple(found)


def _keys(key: str, value: object, enharmonic: tuple[str, ...]) -> str | tuple[str, ...]:
    """Return the order of the keys, which `key_cycle` must be able to follow."""
    order: str | tuple[str, ...]
    if isinstance(value, str):
        order = text_value(key, value, '"fourths"', lines=True)
    else:
        order = text_list(key, value, '"fourths" or "C F Bb Eb"')
    if not order:
        refuse(key, '"keys" names no key.', 'Write "fourths", "fifths", "chromatic", or tonics: "C F Bb".')
    try:
        key_cycle(Key(NoteName(0)), order, prefer=enharmonic)
    except (UnknownNameError, NotationError) as error:
        refuse(key, error.message, error.hint)
    return order


def _keys_are_written(key: str, value: object) -> bool:
    text = text_value(key, value, '"written"')
    return one_of(key, text, (CONCERT, WRITTEN), "a kind of keys") == WRITTEN


def _courtesy(key: str, value: object) -> str:
    text = text_value(key, value, '"after-bar"')
    return one_of(key, text, COURTESY_RULES, "a rule for courtesy accidentals")


def _instruments(key: str, value: object) -> tuple[Instrument, ...]:
    """Return the author's own instruments; what reads them is loaded only where there are some."""
    from shedbook.editions.instruments.own_instruments import instruments_from_fields  # noqa: PLC0415

    return instruments_from_fields(value)


def _editions(key: str, value: object, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return the names of editions that are asked for, as the table of editions has them."""
    example = '["concert", "bflat"]'
    text = value if isinstance(value, str) else ", ".join(text_list(key, value, example))
    check_characters(key, text)
    try:
        names = tuple(edition.name for edition in editions_in(text, instruments))
    except UnknownNameError as error:
        refuse(key, error.message, error.hint)
    if not names:
        refuse(key, '"editions" names no edition.', f"Write editions = {example}")
    return names


def _page_size(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, '"a4"'), PAGE_SIZES, "a page size")


def _metre(key: str, value: object) -> str:
    return str(read_metre(value))


def _tempo(key: str, value: object) -> int:
    return read_tempo(value)


def _feel(key: str, value: object) -> str:
    return read_feel(value)


def _list(key: str, value: object, example: str) -> list[object]:
    if not isinstance(value, list):
        refuse(key, f'"{key}" must be a list, but is {kind_words(value)}.', f"Write {key} = {example}")
    return value


def _tempos(key: str, value: object) -> tuple[int, ...]:
    return tuple(
        whole_number(key, item, SLOWEST_BPM, FASTEST_BPM, item=True)
        for item in _list(key, value, "[80, 120, 160]")
    )


def _feels(key: str, value: object) -> tuple[str, ...]:
    return tuple(read_feel(item, field=key) for item in _list(key, value, '["swing", "bossa"]'))


def _links(key: str, value: object) -> tuple[tuple[str, str], ...]:
    return read_links(value)


def _phrases(key: str, value: object) -> tuple[str, ...]:
    """Return the listed phrase files; a file may be listed once."""
    example = '["01-first.toml", "02-second.toml"]'
    names = tuple(text_value(key, item, example, item=True) for item in _list(key, value, example))
    for at, name in enumerate(names):
        if not name:
            refuse(key, "A name in the list of phrases is empty.", f"Write phrases = {example}")
        if name in names[:at]:
            refuse(key, f'"{name}" is listed twice.', "List each phrase file once.")
    return names


def _drills(key: str, value: object) -> tuple[str, ...]:
    """Return the drills of a book; what reads their names is loaded only where there are some."""
    from shedbook.draft.drill_names import drill_named  # noqa: PLC0415
    from shedbook.draft.drills import drill  # noqa: PLC0415

    example = '["mixolydian in thirds", "altered 1 2 3 5"]'
    texts = tuple(text_value(key, item, example, item=True) for item in _list(key, value, example))
    if len(texts) > _MOST_DRILLS:
        refuse(key, f"There are {len(texts)} drills; {_MOST_DRILLS} are the most.", "Leave some of them out.")
    for text in texts:
        try:
            drill(drill_named(text))
        except (UnknownNameError, NotationError) as error:
            refuse(key, error.message, error.hint)
    return texts


def _silence(key: str, value: object) -> tuple[tuple[str, str], ...]:
    return read_silence(value)


def _tracks(key: str, value: object) -> TrackSettings:
    return read_tracks(value)


# The table.


@dataclass(frozen=True, slots=True)
class PhraseDefaults:
    """What holds for phrases that do not say it; None where the book does not say it either."""

    metre: str | None = row(None, _metre, "text", "4/4", "the metre of phrases that name none")
    tempo: int | None = row(None, _tempo, "whole number", "120", "the tempo of phrases that name none")
    feel: str | None = row(None, _feel, "text", "swing", "the feel of phrases that name none")
    fold: bool | None = row(None, flag, "true or false", "false", "what holds for phrases that do not say it")

    @property
    def fields(self) -> dict[str, str | int]:
        """The keys that a phrase takes over where it has none of its own."""
        named = {"metre": self.metre, "tempo": self.tempo, "feel": self.feel, "fold": self.fold}
        return {name: value for name, value in named.items() if value is not None}


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of a book: the table of the keys of manuscript.toml.

    `keys` is the name of an order or the tonics themselves, `enharmonic` the tonics that shall be called
    so; both as `editions.keys.key_cycle` takes them. `keys_written` says that `keys` names the readers'
    keys. `editions` are names, `instruments` the author's own. `courtesy` is a rule of
    `editions.spelling.courtesy_accidentals`. `tablature` says whose editions have it, as
    `tablature.read_tablature` does, and `tunings` the fingerboards that are not as usual, by instrument.
    """

    title: str = row("", _line, "text", "the folder's name", "the book's title")
    subtitle: str = row("", _line, "text", "", "a line under the title")
    author: str = row("", _line, "text", "", "your name as it shall be printed")
    own_id: str = row(
        "", _own_id, "text", "its title and author",
        "a name of its own that keeps a student's progress where the title, the author or the folder changes",
        key="id",
    )  # fmt: skip
    rights: str = row("", _line, "text", "", "the line about copyright")
    language: str = row(
        "en",
        _language,
        "text",
        "en",
        'the language of the book and of your own words, as "en", "de", "pt-BR"',
    )
    enharmonic: tuple[str, ...] = row(
        (), _tonics, "text or list", "the name with fewer accidentals",
        'the names you prefer where a key has two: "F# Db"',
    )  # fmt: skip
    keys: str | tuple[str, ...] = row(
        "fourths", _keys, "text or list", "fourths",
        'order of the keys: "fourths", "fifths", "chromatic", or tonics: "C F Bb"',
        needs=("enharmonic",), always="fourths",
    )  # fmt: skip
    keys_written: bool = row(
        False, _keys_are_written, "text", "concert",
        'whether "keys" names "concert" keys or the "written" keys of each edition\'s reader', key="keys_are",
    )  # fmt: skip
    instruments: tuple[Instrument, ...] = row(
        (), _instruments, "list of tables", "",
        "instruments of your own, as the page on editions describes them", key="instrument",
    )  # fmt: skip
    editions: tuple[str, ...] = row(
        (CONCERT,), _editions, "text or list", "concert",
        'which books to make: "concert", "bflat", "eflat", "bass", "f", or names of instruments',
        needs=("instruments",),
    )  # fmt: skip
    courtesy: str = row(
        "after-bar", _courtesy, "text", "after-bar",
        'accidentals in brackets as reminders: "none", "after-bar", "always"',
    )  # fmt: skip
    signatures: bool = row(
        False, flag, "true or false", "false",
        "whether key signatures are printed, or every accidental stands at its note", key="key_signatures",
    )  # fmt: skip
    tablature: tuple[str, ...] = row(
        (), read_tablature, "true or false, or names", "false",
        "whether editions of fretted instruments have tablature, or which of them", needs=("instruments",),
    )  # fmt: skip
    tunings: tuple[tuple[str, Fingerboard], ...] = row(
        (), read_tunings, "table of texts", "as usual",
        'other tunings of fretted instruments, by their names: guitar = "D2 A2 D3 G3 B3 E4"',
        needs=("instruments",),
    )  # fmt: skip
    page_size: str = row("a4", _page_size, "text", "a4", '"a4", "letter" or "tablet"')
    pages: PageSettings = group(PageSettings)
    shop: ShopSettings = group(ShopSettings)
    press: PrintSettings = group(PrintSettings)
    defaults: PhraseDefaults = group(PhraseDefaults)
    tempos: tuple[int, ...] = row(
        (), _tempos, "list of whole numbers", "", "tempos for practice, in beats a minute"
    )
    feels: tuple[str, ...] = row((), _feels, "list of texts", "", "feels in which tracks are made")
    links: tuple[tuple[str, str], ...] = row(
        (), _links, "table of texts", "", "a name and a web address each"
    )
    phrases: tuple[str, ...] = row(
        (),
        _phrases,
        "list of texts",
        "every file in phrases/, by name",
        "the phrase files of the book, in order",
    )
    drills: tuple[str, ...] = row(
        (), _drills, "list of texts", "none",
        'drills for a last chapter: "mixolydian in thirds", or "1 2 3 5 through ii-V-I"',
    )  # fmt: skip
    practice_page: bool = row(
        False, flag, "true or false", "false",
        "whether the student's page is made too: a folder that opens in a browser, also without the network",
    )  # fmt: skip
    silence: tuple[tuple[str, str], ...] = row(
        (), _silence, "table of texts", "",
        "proof-reading rules left out in the whole book, each with a reason",
    )  # fmt: skip
    tracks: TrackSettings = row(
        TrackSettings(), _tracks, "table", "no tracks",
        "which tracks are made, and how they sound; its keys stand in a table of their own",
    )  # fmt: skip

    @property
    def silenced(self) -> tuple[str, ...]:
        """The rules of the proof-reader that the whole book silences."""
        return tuple(rule for rule, _ in self.silence)


BOOK_FIELDS = rows_of(Settings)
"""The keys of manuscript.toml, in the order of the documentation."""

RENAMED_KEYS = MappingProxyType({"styles": "feels"})
"""Keys that earlier versions read, to what they are called now."""

BOOK_FIELD_NAMES = tuple(one.name for one in BOOK_FIELDS)


def settings_from_fields(fields: Mapping[str, Any]) -> Settings:
    """Return the settings that manuscript.toml says.

    Raises:
        ManuscriptError: for an unknown key or a value that cannot be used; it names the key.
    """
    known_keys(fields, BOOK_FIELD_NAMES, "manuscript.toml", renamed=RENAMED_KEYS)
    return read_rows(Settings, fields, "manuscript.toml")
