"""The keys of an edition, as they sound and as they are read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.editions.instruments.edition import (
    Edition,
    edition_for,
    edition_named,
    group_editions,
)
from shedbook.editions.instruments.instrument import instruments
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.reader_keys import reader_keys, written_key
from shedbook.editions.tables.key_orders import KEY_ORDERS
from shedbook.errors import NotationError, UnknownNameError
from shedbook.theory.key import Key

EDITIONS = (*group_editions(), *(edition_for(instrument) for instrument in instruments()))


@pytest.mark.parametrize(
    ("edition", "concert", "written"),
    [
        ("concert", "C", "C"), ("bflat", "C", "D"), ("tenor sax", "C", "D"), ("eflat", "C", "A"),
        ("baritone sax", "Gb", "Eb"), ("f", "C", "G"), ("bass", "Ab", "Ab"), ("double bass", "B", "B"),
        ("bflat", "B", "Db"), ("bflat", "E", "F#"), ("bflat", "Gb", "Ab"), ("bflat", "F#", "Ab"),
        ("eflat", "A", "F#"), ("eflat", "D", "B"), ("eflat", "E", "Db"), ("f", "B", "F#"),
        ("bflat", "C minor", "D minor"), ("bflat", "F# minor", "G# minor"), ("eflat", "F# minor", "Eb minor"),
    ],
)  # fmt: skip
def test_written_keys(edition: str, concert: str, written: str) -> None:
    found = written_key(Key.parse(concert), edition_named(edition))
    assert found == Key.parse(written)


def test_order_by_concert_and_by_written_keys() -> None:
    edition = edition_named("bflat")
    by_concert = reader_keys(Key.parse("C"), edition, "C F B")
    assert [str(key.written.tonic) for key in by_concert] == ["D", "G", "Db"]
    by_written = reader_keys(Key.parse("C"), edition, "C F B", written=True)
    assert [str(key.written.tonic) for key in by_written] == ["C", "F", "B"]
    assert [str(key.concert.tonic) for key in by_written] == ["Bb", "Eb", "A"]
    fourths = reader_keys(Key.parse("C"), edition, "fourths", written=True)
    assert [str(key.written.tonic) for key in fourths[:4]] == ["D", "G", "C", "F"]
    assert [str(key.concert.tonic) for key in fourths[:4]] == ["C", "F", "Bb", "Eb"]


def test_preferred_names_hold_wherever_they_are_read() -> None:
    keys = reader_keys(Key.parse("E"), edition_named("bflat"), "E B", prefer=["Gb", "C#"])
    assert [str(key.written.tonic) for key in keys] == ["Gb", "C#"]
    keys = reader_keys(Key.parse("F#"), edition_named("bflat"), written=True)
    assert str(keys[0].concert.tonic) == "F#"  # the author's own name


def test_bad_orders_are_refused_in_either_way() -> None:
    for written in (False, True):
        with pytest.raises(UnknownNameError):
            reader_keys(Key.parse("C"), edition_named("eflat"), "spirals", written=written)
        with pytest.raises(NotationError):
            reader_keys(Key.parse("C"), edition_named("eflat"), "Db C#", written=written)


@given(
    st.sampled_from(EDITIONS),
    st.sampled_from(["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "F#", "B", "E", "A", "D", "G"]),
    st.sampled_from(("major", "minor")),
    st.sampled_from(KEY_ORDERS),
    st.booleans(),
)
def test_keys_are_twelve_and_a_transposition_apart(
    edition: Edition, tonic: str, mode: str, order: object, written: bool
) -> None:
    home = Key.parse(tonic, mode=mode)
    name = order.name  # type: ignore[attr-defined]
    keys = reader_keys(home, edition, name, written=written)
    assert len({key.concert.tonic.pitch_class for key in keys}) == 12
    assert keys[0].concert == home or abs(home.signature) > 6
    for key, plain in zip(keys, key_cycle(home, name), strict=True):
        assert key.concert.tonic.pitch_class == plain.tonic.pitch_class
        away = (key.written.tonic.pitch_class - key.concert.tonic.pitch_class) % 12
        assert away == edition.transposition.semitones % 12
        assert key.written.mode == key.concert.mode == mode
        if key.concert != home and (edition.transposes or not written):
            assert abs(key.written.signature) <= 6
