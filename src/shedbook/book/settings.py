"""What manuscript.toml says of the book, apart from its phrases."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from shedbook.book.page_settings import USUAL_PAGES, PageSettings, read_pages
from shedbook.book.paper import PAGE_SIZES
from shedbook.book.tablature import read_tablature, read_tunings
from shedbook.book.tables.book_fields import BOOK_FIELDS, RENAMED_FIELDS
from shedbook.book.track_settings import TrackSettings, read_tracks
from shedbook.editions.courtesy import COURTESY_RULES
from shedbook.editions.edition import editions_in
from shedbook.editions.keys import key_cycle
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
from shedbook.phrase.typed import (
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

if TYPE_CHECKING:
    from shedbook.editions.fingerboard import Fingerboard
    from shedbook.editions.instruments import Instrument

BOOK_FIELD_NAMES = tuple(row.name for row in BOOK_FIELDS)
CONCERT, WRITTEN = "concert", "written"
DEFAULTED = ("metre", "tempo", "feel", "fold")
"""Keys of a phrase that manuscript.toml may set for all phrases that name none."""

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")


NO_TRACKS = TrackSettings()


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of a book.

    `keys` is the name of an order or the tonics themselves, `enharmonic` the tonics that shall be
    called so; both as `editions.keys.key_cycle` takes them. `scale_names` and `degrees` say which
    study marks are printed. `keys_written` says that `keys` names the readers' keys. `editions` are names,
    `instruments` the author's own. `courtesy` is a rule of `editions.courtesy`, `signatures` whether key
    signatures are printed. `tablature` says whose editions have it, as `tablature.read_tablature` does, and
    `tunings` the fingerboards that are not as usual, by instrument. `defaults` holds the keys that a phrase
    may leave to the book.
    """

    title: str = ""
    subtitle: str = ""
    author: str = ""
    rights: str = ""
    language: str = "en"
    keys: str | tuple[str, ...] = "fourths"
    enharmonic: tuple[str, ...] = ()
    keys_written: bool = False
    editions: tuple[str, ...] = (CONCERT,)
    instruments: tuple[Instrument, ...] = ()
    courtesy: str = "after-bar"
    signatures: bool = False
    tablature: tuple[str, ...] = ()
    tunings: tuple[tuple[str, Fingerboard], ...] = ()
    page_size: str = "a4"
    pages: PageSettings = USUAL_PAGES
    defaults: tuple[tuple[str, str | int], ...] = ()
    tempos: tuple[int, ...] = ()
    feels: tuple[str, ...] = ()
    links: tuple[tuple[str, str], ...] = ()
    phrases: tuple[str, ...] = ()
    silence: tuple[tuple[str, str], ...] = ()
    tracks: TrackSettings = NO_TRACKS

    @property
    def silenced(self) -> tuple[str, ...]:
        """The rules of the proof-reader that the whole book silences."""
        return tuple(rule for rule, _ in self.silence)


def settings_from_fields(fields: Mapping[str, Any]) -> Settings:
    """Return the settings that manuscript.toml says.

    Raises:
        ManuscriptError: for an unknown key or a value that cannot be used; it names the key.
    """
    known_keys(fields, BOOK_FIELD_NAMES, "manuscript.toml", renamed=RENAMED_FIELDS)
    enharmonic = _tonics(fields.get("enharmonic", ""))
    instruments = _instruments(fields)
    return Settings(
        title=_text(fields, "title"),
        subtitle=_text(fields, "subtitle"),
        author=_text(fields, "author"),
        rights=_text(fields, "rights"),
        language=_language(fields.get("language", "en")),
        keys=_keys(fields.get("keys", "fourths"), enharmonic),
        enharmonic=enharmonic,
        keys_written=_keys_are(fields.get("keys_are", CONCERT)) == WRITTEN,
        editions=_editions(fields.get("editions", CONCERT), instruments),
        instruments=instruments,
        courtesy=_courtesy(fields.get("courtesy", "after-bar")),
        signatures=flag("key_signatures", fields.get("key_signatures", False)),
        tablature=read_tablature(fields.get("tablature", False), instruments),
        tunings=read_tunings(fields.get("tunings", {}), instruments),
        page_size=_page_size(fields.get("page_size", "a4")),
        pages=read_pages(fields),
        defaults=_defaults(fields),
        tempos=_tempos(fields.get("tempos", [])),
        feels=_feels(fields.get("feels", [])),
        links=read_links(fields.get("links", {})),
        phrases=_phrases(fields.get("phrases", [])),
        silence=read_silence(fields.get("silence", {})),
        tracks=read_tracks(fields.get("tracks", {})),
    )


def _text(fields: Mapping[str, Any], field: str) -> str:
    return text_value(field, fields.get(field, ""), '"…"')


def _language(value: object) -> str:
    text = text_value("language", value, '"en"')
    if _LANGUAGE.fullmatch(text) is None:
        refuse(
            "language", f'"{text}" is not a language tag.', 'Write two letters, as in "en", "de", "pt-BR".'
        )
    return text


def _tonics(value: object) -> tuple[str, ...]:
    """Return the preferred tonics as note names."""
    found = []
    for text in text_list("enharmonic", value, '"F# Db"'):
        try:
            found.append(str(NoteName.parse(text)))
        except ValueError:
            refuse("enharmonic", f'"{text}" is not the name of a key.', 'Write tonics: "F# Db".')
    return tuple(found)


def _keys(value: object, enharmonic: tuple[str, ...]) -> str | tuple[str, ...]:
    """Return the order of the keys, which `key_cycle` must be able to follow."""
    order: str | tuple[str, ...]
    if isinstance(value, str):
        order = text_value("keys", value, '"fourths"', lines=True)
    else:
        order = text_list("keys", value, '"fourths" or "C F Bb Eb"')
    if not order:
        refuse("keys", '"keys" names no key.', 'Write "fourths", "fifths", "chromatic", or tonics: "C F Bb".')
    try:
        key_cycle(Key(NoteName(0)), order, prefer=enharmonic)
    except (UnknownNameError, NotationError) as error:
        refuse("keys", error.message, error.hint)
    return order


def _keys_are(value: object) -> str:
    return one_of(
        "keys_are", text_value("keys_are", value, '"written"'), (CONCERT, WRITTEN), "a kind of keys"
    )


def _courtesy(value: object) -> str:
    text = text_value("courtesy", value, '"after-bar"')
    return one_of("courtesy", text, COURTESY_RULES, "a rule for courtesy accidentals")


def _instruments(fields: Mapping[str, Any]) -> tuple[Instrument, ...]:
    """Return the author's own instruments; what reads them is loaded only where there are some."""
    if "instrument" not in fields:
        return ()
    from shedbook.editions.own_instruments import instruments_from_fields  # noqa: PLC0415

    return instruments_from_fields(fields["instrument"])


def _editions(value: object, instruments: tuple[Instrument, ...]) -> tuple[str, ...]:
    """Return the names of editions that are asked for, as the table of editions has them."""
    example = '["concert", "bflat"]'
    text = value if isinstance(value, str) else ", ".join(text_list("editions", value, example))
    check_characters("editions", text)
    try:
        names = tuple(edition.name for edition in editions_in(text, instruments))
    except UnknownNameError as error:
        refuse("editions", error.message, error.hint)
    if not names:
        refuse("editions", '"editions" names no edition.', f"Write editions = {example}")
    return names


def _page_size(value: object) -> str:
    return one_of("page_size", text_value("page_size", value, '"a4"'), PAGE_SIZES, "a page size")


def _defaults(fields: Mapping[str, Any]) -> tuple[tuple[str, str | int], ...]:
    """Return the keys that a phrase may leave to the book, checked."""
    found: list[tuple[str, str | int]] = []
    if "metre" in fields:
        found.append(("metre", str(read_metre(fields["metre"]))))
    if "tempo" in fields:
        found.append(("tempo", read_tempo(fields["tempo"])))
    if "feel" in fields:
        found.append(("feel", read_feel(fields["feel"])))
    if "fold" in fields:
        found.append(("fold", flag("fold", fields["fold"])))
    return tuple(found)


def _list(field: str, value: object, example: str) -> list[object]:
    if not isinstance(value, list):
        refuse(field, f'"{field}" must be a list, but is {kind_words(value)}.', f"Write {field} = {example}")
    return value


def _tempos(value: object) -> tuple[int, ...]:
    return tuple(
        whole_number("tempos", item, SLOWEST_BPM, FASTEST_BPM, item=True)
        for item in _list("tempos", value, "[80, 120, 160]")
    )


def _feels(value: object) -> tuple[str, ...]:
    items = _list("feels", value, '["swing", "bossa"]')
    return tuple(read_feel(item, field="feels") for item in items)


def _phrases(value: object) -> tuple[str, ...]:
    """Return the listed phrase files; a file may be listed once."""
    example = '["01-first.toml", "02-second.toml"]'
    names = tuple(
        text_value("phrases", item, example, item=True) for item in _list("phrases", value, example)
    )
    for at, name in enumerate(names):
        if not name:
            refuse("phrases", "A name in the list of phrases is empty.", f"Write phrases = {example}")
        if name in names[:at]:
            refuse("phrases", f'"{name}" is listed twice.', "List each phrase file once.")
    return names
