"""A phrase from the keys of its TOML table, and back.

This module knows nothing of files: its errors name the key as their `field` and carry offsets into the text
of that key. The keys stand in `tables.fields`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import TypeVar

from shedbook.errors import ManuscriptError, NotationError, Place, ReadError, shown
from shedbook.phrase.changes_text import Changes, parse_changes, parse_scales, print_changes, print_scales
from shedbook.phrase.feels import FEEL_NAMES
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.model import Bar, Phrase
from shedbook.phrase.other_ways import with_plain_signs
from shedbook.phrase.tables.fields import FIELDS
from shedbook.phrase.toml_values import (
    flag,
    known_keys,
    one_of,
    refuse,
    text_table,
    text_value,
    whole_number,
)
from shedbook.phrase.value_text import print_length, print_values, read_length
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.progression import infer_key
from shedbook.theory.scale import Scale

FIELD_NAMES = tuple(row.name for row in FIELDS)
SLOWEST_BPM, FASTEST_BPM = 20, 400
"""The tempos that a phrase may have, in beats a minute."""
UNTITLED = "Untitled"

_LONG = ("changes", "scales", "line", "commentary")
"""The keys whose text may have several lines."""

_T = TypeVar("_T")
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
_ADDRESS = re.compile(r"https?://[^\s<>\"]+")
_EXAMPLES: Mapping[str, str] = MappingProxyType(
    {
        "title": '"Low tide"',
        "id": '"low-tide"',
        "key": '"C minor"',
        "metre": '"4/4"',
        "pickup": '"1/4"',
        "feel": '"swing"',
        "changes": '"Dm7 | G7 | C6 | %"',
        "scales": '"dorian | mixolydian | ionian | %"',
        "line": '"1/4 c5 d e f"',
        "commentary": '"What to listen for."',
        "sentences": '{ "The computed sentence." = "Your own." }',
        "silence": '{ "rule-name" = "why it may stand" }',
    }
)


def read_links(value: object) -> tuple[tuple[str, str], ...]:
    """Return (name, web address) for each line of the table "links".

    Raises:
        ManuscriptError: if the value is not a table of texts, or one of them is not a web address.
    """
    pairs = text_table("links", value, '{ "My site" = "https://…" }')
    for name, address in pairs:
        if _ADDRESS.fullmatch(address) is None:
            refuse("links", f'The link "{name}" is not a web address.', "Write it whole, from https:// on.")
    return pairs


def phrase_from_fields(fields: Mapping[str, object]) -> Phrase:
    """Return the phrase that the keys of a table describe.

    Raises:
        ManuscriptError: for an unknown or missing key, or a value of the wrong form.
        NotationError: for changes, scales, line, metre or pick-up that cannot be read.
        ChordSymbolError: for a chord symbol that cannot be read.
    """
    known_keys(fields, FIELD_NAMES, "a phrase")
    read_links(fields.get("links", {}))
    metre = read_metre(fields.get("metre", "4/4"))
    changes, bars = _music(fields, metre)
    key_text = _text(fields, "key").strip()
    return Phrase(
        title=_text(fields, "title").strip() or UNTITLED,
        key=read_key(key_text) if key_text else infer_key([change.chord for change in changes.changes]),
        metre=metre,
        bars=bars,
        changes=changes.changes,
        scales=_scales(fields, changes),
        tempo_bpm=read_tempo(fields.get("tempo", 120)),
        feel=read_feel(fields.get("feel", "swing")),
        commentary=_text(fields, "commentary").strip(),
        id=read_id(fields),
        key_inferred=not key_text,
        silence=read_silence(fields.get("silence", {})),
        fold=flag("fold", fields["fold"]) if "fold" in fields else None,
        sentences=text_table("sentences", fields.get("sentences", {}), _EXAMPLES["sentences"]),
    )


def _music(fields: Mapping[str, object], metre: Metre) -> tuple[Changes, tuple[Bar, ...]]:
    """Return the changes and the bars of the line, refusing those that differ in their number of bars."""
    changes_text, line_text = _needed(fields, "changes"), _needed(fields, "line")
    changes = _reading("changes", lambda: parse_changes(changes_text, metre))
    pickup = _pickup(fields, metre)
    bars = _reading("line", lambda: parse_line(line_text, metre, pickup))
    count = bars[-1].number
    if count == changes.bars:
        return changes, bars
    longer, text, at = ("changes", changes_text, count)
    if count > changes.bars:
        longer, text, at = ("line", line_text, changes.bars + (1 if pickup else 0))
    start, end = _bar_span(text, at)
    raise NotationError(
        f"The line has {_count(count)}, the changes have {_count(changes.bars)}.",
        hint=f'Write as many in both; bar {min(count, changes.bars) + 1} stands only in "{longer}".',
        start=start,
        end=end,
        place=Place(bar=min(count, changes.bars) + 1),
        field=longer,
    )


def _count(bars: int) -> str:
    return f"{bars} bar" if bars == 1 else f"{bars} bars"


def _bar_span(text: str, index: int) -> tuple[int, int]:
    """Return the offsets of a bar in a text, the bars counted from 0."""
    spans = [found.span() for found in re.finditer(r"[^|]+", text) if found.group().strip()]
    start, end = spans[index]
    piece = text[start:end]
    return start + len(piece) - len(piece.lstrip()), start + len(piece.rstrip())


def _scales(fields: Mapping[str, object], changes: Changes) -> tuple[Scale | None, ...]:
    """Return the scales that the author names; without the key the program chooses them all."""
    text = _text(fields, "scales")
    if not text.strip():
        return (None,) * len(changes.changes)
    return _reading("scales", lambda: parse_scales(text, *changes))


def _reading(field: str, read: Callable[[], _T]) -> _T:
    """Call a function that reads; an error that it raises gets the name of the key."""
    try:
        return read()
    except ReadError as error:
        raise error.moved(0, field=field) from None


def _text(fields: Mapping[str, object], field: str) -> str:
    """Return the text of a key exactly as written, so that offsets hold; "" where the key is missing."""
    value = fields.get(field, "")
    text_value(field, value, _EXAMPLES[field], lines=field in _LONG)
    return str(value)


def _needed(fields: Mapping[str, object], field: str) -> str:
    """Return the text of a key that must not be missing."""
    if field not in fields:
        raise ManuscriptError(f"This phrase has no {field}.", hint=f"Write {field} = {_EXAMPLES[field]}")
    return _text(fields, field)


def read_metre(value: object) -> Metre:
    """Return the metre that stands under the key "metre".

    Raises:
        ManuscriptError: if it cannot be read.
    """
    text = text_value("metre", value, _EXAMPLES["metre"])
    try:
        return Metre.parse(text)
    except ValueError:
        refuse(
            "metre",
            f'"{shown(text)}" is not a metre.',
            'Write beats and their value: "4/4" (common time), "2/2" (cut time), "3/4", "6/8", "5/4".',
        )


def _pickup(fields: Mapping[str, object], metre: Metre) -> Fraction:
    """Return the length of the pick-up in quarters, 0 for none."""
    text = _text(fields, "pickup").strip()
    if not text:
        return Fraction(0)
    plain = with_plain_signs(text)
    length = _reading("pickup", lambda: read_length(plain))
    if length >= metre.bar_quarters:
        refuse(
            "pickup",
            f'A pick-up of "{shown(text)}" is no shorter than a bar of {metre}.',
            "Write whole bars as bars, with a chord in the changes.",
        )
    return length


def read_key(value: object) -> Key:
    """Return the musical key that stands under the key "key".

    Raises:
        ManuscriptError: if it cannot be read.
    """
    text = text_value("key", value, _EXAMPLES["key"])
    try:
        return Key.parse(text.replace("♭", "b").replace("♯", "#"))
    except ValueError:
        refuse(
            "key",
            f'"{shown(text)}" is not a key.',
            'Write a tonic and "major" or "minor": "C minor", "Bb major", or short "Am".',
        )


def read_tempo(value: object) -> int:
    """Return the tempo that stands under the key "tempo", in beats a minute.

    Raises:
        ManuscriptError: if it is not a whole number from `SLOWEST_BPM` to `FASTEST_BPM`.
    """
    return whole_number("tempo", value, SLOWEST_BPM, FASTEST_BPM)


def read_feel(value: object, *, field: str = "feel") -> str:
    """Return the name, as in `tables.feels`, of the feel that stands under a key, "feel" as a rule.

    Raises:
        ManuscriptError: if no feel has the name.
    """
    text = " ".join(text_value(field, value, _EXAMPLES["feel"]).split())
    return FEEL_NAMES[one_of(field, text, FEEL_NAMES, "a feel in the table")]


def read_id(fields: Mapping[str, object]) -> str:
    """Return the id that a phrase gives itself, "" where it gives none.

    Raises:
        ManuscriptError: if it cannot be an id.
    """
    text = _text(fields, "id").strip()
    if text and _ID.fullmatch(text) is None:
        refuse(
            "id",
            f'"{shown(text)}" is not an id.',
            "An id is at most 64 letters a to z, digits, full stops, hyphens and underscores.",
        )
    return text


def read_silence(value: object) -> tuple[tuple[str, str], ...]:
    """Return (rule, reason) for each line of the table "silence"; whether the rules exist is checked later.

    Raises:
        ManuscriptError: if the value is not a table of texts.
    """
    return text_table("silence", value, _EXAMPLES["silence"])


def fields_from_phrase(phrase: Phrase) -> dict[str, object]:
    """Return the keys that describe a phrase, in the order of `FIELDS`, with texts in the normal form.

    What the program would find by itself is left out, such as an inferred key or scales that it chose. Links
    are left out too, for a `Phrase` has none.
    """
    pickup = phrase.bars[0] if phrase.bars[0].number == 0 else None
    found: dict[str, object] = {
        "title": phrase.title,
        "id": phrase.id,
        "key": "" if phrase.key_inferred else str(phrase.key),
        "metre": "" if phrase.metre == Metre() else str(phrase.metre),
        "pickup": _print_pickup(pickup) if pickup else "",
        "tempo": phrase.tempo_bpm,
        "feel": phrase.feel,
        "changes": print_changes(phrase.changes, phrase.full_bars, phrase.metre),
        "scales": print_scales(phrase.scales, phrase.changes, phrase.full_bars),
        "line": print_line(phrase.bars),
        "commentary": phrase.commentary,
        "sentences": dict(phrase.sentences),
        "silence": dict(phrase.silence),
        "fold": phrase.fold,
    }
    return {
        name: found[name] for name in FIELD_NAMES if name in found and (found[name] or found[name] is False)
    }


def _print_pickup(bar: Bar) -> str:
    """Return the length of a pick-up as text: as one value if one is as long, else as all of its values."""
    return print_length(bar.quarters) or "+".join(print_values(event.values) for event in bar.events)
