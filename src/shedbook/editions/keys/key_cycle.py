"""The order in which a book goes through the keys, and the plainest name of each: F sharp or G flat."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from shedbook.editions.tables.key_orders import KEY_ORDERS, OrderRow
from shedbook.errors import NotationError, UnknownNameError, nearest
from shedbook.table_index import by_names, need
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_TONIC = re.compile("[A-Ga-g][b#♭♯]*")
_FILE = "src/shedbook/editions/tables/key_orders.py"


def orders_of(rows: Iterable[OrderRow]) -> Mapping[str, tuple[int, ...]]:
    """Map the names and aliases of the orders to the half steps from the home key to each key.

    Raises:
        TableError: if a name stands twice, a row has no source, or does not go through each key once.
    """
    named = by_names(rows, what="an order of keys", file=_FILE)
    for name, row in named.items():
        need(
            row.semitones[:1] == (0,) and sorted(row.semitones) == list(range(12)),
            f'The order "{name}" does not begin at home and go through all twelve keys once.',
            f"Write 0, and then 1 to 11 in its order, in {_FILE}.",
        )
    return MappingProxyType({name: row.semitones for name, row in named.items()})


_ORDERS = orders_of(KEY_ORDERS)


def key_cycle(
    home: Key, order: str | Sequence[str | NoteName] = "fourths", *, prefer: Iterable[str | NoteName] = ()
) -> tuple[Key, ...]:
    """Return the keys of a book in order, in the mode of the home key.

    Args:
        home: the key in which the phrase was written.
        order: the name of an order in `tables.key_orders`, such as "fourths" or "chromatic down", which
            starts at the home key; or the tonics themselves, as a text ("C F Bb") or a sequence. Tonics that
            are listed keep their names.
        prefer: the names that shall be used for some tonics, such as "F#" rather than Gb.

    Raises:
        UnknownNameError: if no order has the name.
        NotationError: if a tonic cannot be read, or two tonics sound the same.
    """
    wished = {name.pitch_class: name for name in map(read_tonic, prefer)}
    if isinstance(order, str):
        semitones = _ORDERS.get(" ".join(order.lower().split()))
        if semitones is None:
            return _listed(_tonics_in(order), home.mode)
    else:
        return _listed(order, home.mode)
    found = [wished.get(home.tonic.pitch_class, home.tonic)]
    for above in semitones[1:]:
        pitch_class = (home.tonic.pitch_class + above) % 12
        found.append(wished.get(pitch_class) or readable_tonic(pitch_class, home.mode, found[-1]))
    return tuple(Key(tonic, home.mode) for tonic in found)


def order_tonics(order: str | Sequence[str | NoteName]) -> tuple[NoteName, ...]:
    """Return the tonics that an order lists; () where it is the name of an order.

    Raises:
        UnknownNameError: if it is neither.
        NotationError: if a tonic cannot be read.
    """
    if isinstance(order, str):
        if " ".join(order.lower().split()) in _ORDERS:
            return ()
        order = _tonics_in(order)
    return tuple(read_tonic(text) for text in order)


def readable_tonic(pitch_class: int, mode: str, neighbour: NoteName | None = None) -> NoteName:
    """Return the name of a tonic whose key signature has the fewest accidentals.

    Where two names have equally many, the one whose signature is nearer to that of the neighbour is taken. In
    minor there is one exception: six accidentals are always the flats of E flat minor, because D sharp minor
    is read only in studies of all keys (common practice).

    Args:
        pitch_class: the tonic as it sounds, 0 (C) to 11 (B).
        mode: "major" or "minor".
        neighbour: the tonic of the key before it in the book, if there is one.
    """

    def cost(tonic: NoteName) -> tuple[int, int, int]:
        signature = Key(tonic, mode).signature
        away = abs(signature - Key(neighbour, mode).signature) if neighbour and mode == "major" else 0
        return abs(signature), away, signature

    return min((NoteName(place) for place in enharmonic_tonics(pitch_class)), key=cost)


def enharmonic_tonics(pitch_class: int) -> tuple[int, ...]:
    """Return the names from Fb to B# that sound as a pitch class, as places on the line of fifths."""
    return tuple(place for place in range(-8, 13) if place * 7 % 12 == pitch_class)


def _tonics_in(order: str) -> list[str]:
    """Divide a text into tonics; a text in which no word is a tonic is taken for a wrong name of an order."""
    words = order.replace(",", " ").split()
    if words and not any(_TONIC.fullmatch(word) for word in words):
        raise UnknownNameError(f'"{order}" is not an order of keys.', hint=_orders_hint(order))
    return words


def read_tonic(text: str | NoteName) -> NoteName:
    """Return a tonic, read from its text unless it is a note name already.

    Raises:
        NotationError: if the text is not a tonic.
    """
    if isinstance(text, NoteName):
        return text
    try:
        return NoteName.parse(text)
    except ValueError:
        raise NotationError(
            f'"{text}" is not a tonic.', hint='Write letters with # or b, such as "C F Bb".'
        ) from None


def _listed(tonics: Sequence[str | NoteName], mode: str) -> tuple[Key, ...]:
    """Return the keys of tonics that the author lists, refusing a list that is empty or names a key twice."""
    found: dict[int, NoteName] = {}
    for text in tonics:
        tonic = read_tonic(text)
        if tonic.pitch_class in found:
            raise NotationError(
                f"{found[tonic.pitch_class]} and {tonic} are the same key.", hint="Name each key once."
            )
        found[tonic.pitch_class] = tonic
    if not found:
        raise NotationError("The order of keys is empty.", hint=_orders_hint(""))
    return tuple(Key(tonic, mode) for tonic in found.values())


def _orders_hint(name: str) -> str:
    close = nearest(name, _ORDERS) if name else ""
    return close or f"Known are {', '.join(row.name for row in KEY_ORDERS)}, or a list of tonics."
