"""The keys of an edition as they sound and as they are read, and their best names for one phrase.

By their signatures alone G sharp minor is plainer than A flat minor, and F sharp major as plain as G flat.
Which name a reader wants depends on the chords and notes that come with it: A flat minor has Bbm7b5 and
Eb7b9, and G sharp minor has A#m7b5 and D#7b9.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shedbook.editions.instruments.edition import Edition
from shedbook.editions.keys.key_cycle import key_cycle, order_tonics, read_tonic, readable_tonic
from shedbook.editions.keys.phrase_in_key import readable_key
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName


@dataclass(frozen=True, slots=True)
class ReaderKey:
    """A key: `concert` as it sounds, and `written` as the reader's part is written."""

    concert: Key
    written: Key


CALLED_BOTH_WAYS = frozenset({("major", 6), ("minor", 8)})
"""Mode and pitch class of the keys that players meet under two names: F#/Gb major and G#/Ab minor.

C sharp and C flat major, and D sharp, A sharp and D flat minor are hardly ever written for readers (common
practice).
"""


def reader_keys(
    home: Key,
    edition: Edition,
    order: str | Sequence[str | NoteName] = "fourths",
    *,
    prefer: Iterable[str | NoteName] = (),
    written: bool = False,
) -> tuple[ReaderKey, ...]:
    """Return the keys of an edition in the author's order, each as it sounds and as it is read.

    Args:
        home: the home key of the phrase, as it sounds.
        edition: the edition.
        order: as `key_cycle` takes it. Tonics that are listed are concert keys, or written keys if `written`.
        prefer: the names that shall be used for some tonics wherever they are read.
        written: whether the order is an order of written keys.

    Raises:
        UnknownNameError: if no order has the name.
        NotationError: if a tonic cannot be read, or two sound the same.
    """
    wished = tuple(prefer)
    if not edition.transposes:
        return tuple(ReaderKey(key, key) for key in key_cycle(home, order, prefer=wished))
    if written:
        start = written_key(home, edition, prefer=wished)
        cycle = key_cycle(start, order, prefer=wished)
        return tuple(ReaderKey(_moved(key, -edition.transposition, home, wished), key) for key in cycle)
    cycle = key_cycle(home, order, prefer=wished)
    return tuple(ReaderKey(key, written_key(key, edition, prefer=wished)) for key in cycle)


def written_key(concert: Key, edition: Edition, *, prefer: Iterable[str | NoteName] = ()) -> Key:
    """Return a concert key as the reader of an edition reads it, named with the fewest accidentals.

    Args:
        concert: the key as it sounds.
        edition: the edition.
        prefer: the names that shall be used for some tonics.

    Raises:
        NotationError: if a tonic of `prefer` cannot be read.
    """
    if not edition.transposes:
        return concert
    return _moved(concert, edition.transposition, None, prefer)


def _moved(key: Key, by: Interval, home: Key | None, prefer: Iterable[str | NoteName]) -> Key:
    """Return a key moved by an interval and named for the reader.

    A key that sounds as `home` keeps the name that the author gave it.
    """
    tonic = key.tonic + by.simple
    wished = {name.pitch_class: name for name in map(read_tonic, prefer)}
    if home is not None:
        wished[home.tonic.pitch_class] = home.tonic
    chosen = wished.get(tonic.pitch_class) or readable_tonic(tonic.pitch_class, key.mode, key.tonic)
    return Key(chosen, key.mode)


def phrase_keys(
    phrase: Phrase,
    edition: Edition,
    order: str | Sequence[str | NoteName] = "fourths",
    *,
    prefer: Iterable[str | NoteName] = (),
    written: bool = False,
) -> tuple[ReaderKey, ...]:
    """Return the keys of a phrase in the author's order, each by the name in which the phrase reads best.

    What the author has named keeps its name: the phrase's own key as it sounds, the tonics of `prefer`, and
    the tonics that `order` lists. Only the other keys of `CALLED_BOTH_WAYS` are named by the phrase.

    Args:
        phrase: the phrase as its author wrote it.
        edition: the edition.
        order: as `reader_keys` takes it.
        prefer: as `reader_keys` takes it.
        written: whether the order is an order of written keys.

    Raises:
        UnknownNameError: if no order has the name.
        NotationError: if a tonic cannot be read, or two sound the same.
    """
    wished = tuple(map(read_tonic, prefer))
    listed = order_tonics(order)
    named = frozenset(name.pitch_class for name in (*wished, *listed))
    preferred = frozenset(name.pitch_class for name in wished)
    concert_fixed = (preferred if written else named) | {phrase.key.tonic.pitch_class}
    written_fixed = named if written else preferred
    found = []
    for key in reader_keys(phrase.key, edition, order, prefer=wished, written=written):
        if not edition.transposes:
            best = _best(phrase, key.concert, concert_fixed | named)
            found.append(ReaderKey(best, best))
            continue
        found.append(
            ReaderKey(_best(phrase, key.concert, concert_fixed), _best(phrase, key.written, written_fixed))
        )
    return tuple(found)


def _best(phrase: Phrase, key: Key, fixed: frozenset[int]) -> Key:
    """Return a key by its best name, unless its name is fixed or it has only one in use."""
    pitch_class = key.tonic.pitch_class
    if pitch_class in fixed or (key.mode, pitch_class) not in CALLED_BOTH_WAYS:
        return key
    try:
        return readable_key(phrase, key)
    except ShedbookError:  # The phrase fits in no octave; the error is raised where the phrase is placed.
        return key
