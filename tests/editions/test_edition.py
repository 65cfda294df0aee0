from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.editions.instruments.edition import (
    Edition,
    edition_for,
    edition_named,
    editions_in,
    group_editions,
    group_of,
)
from shedbook.editions.instruments.instrument import Bands, instruments
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.reader_keys import reader_keys, written_key
from shedbook.editions.tables.key_orders import KEY_ORDERS
from shedbook.errors import NotationError, UnknownNameError
from shedbook.theory.key import Key

EDITIONS = (*group_editions(), *(edition_for(instrument) for instrument in instruments()))


@pytest.mark.parametrize(
    ("text", "name", "slug", "title"),
    [
        ("concert", "concert", "concert", "Concert edition"),
        ("C", "concert", "concert", "Concert edition"),
        ("bflat", "bflat", "bflat", "B♭ edition"),
        ("B♭", "bflat", "bflat", "B♭ edition"),
        ("Bb", "bflat", "bflat", "B♭ edition"),
        ("b-flat edition", "bflat", "bflat", "B♭ edition"),
        ("Eb", "eflat", "eflat", "E♭ edition"),
        ("F", "f", "f", "F edition"),
        ("bass", "bass", "bass", "Bass clef edition"),
        ("bass clef", "bass", "bass", "Bass clef edition"),
        ("double bass", "double bass", "double-bass", "Double bass edition"),
        ("Tenor Sax", "tenor saxophone", "tenor-saxophone", "Tenor saxophone edition"),
        ("horn", "horn in f", "horn-in-f", "Horn in F edition"),
        ("bass voice", "bass voice", "bass-voice", "Bass voice edition"),
    ],
)
def test_names(text: str, name: str, slug: str, title: str) -> None:
    edition = edition_named(text)
    assert (edition.name, edition.slug, edition.title) == (name, slug, title)
    assert edition_named(edition.name) == edition_named(edition.slug) == edition


def test_who_reads_it() -> None:
    assert edition_named("bflat").reader_words == "the B♭ edition"
    assert edition_named("alto sax").reader_words == "the alto saxophone"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("alto", 'Did you mean "alto saxophone" or "alto voice"?'),
        ("bflt", 'Did you mean "bflat"'),
        ("xyz", "Write concert, bflat, eflat, bass, f, or the name of an instrument."),
    ],
)
def test_an_unknown_edition_brings_the_nearest(text: str, hint: str) -> None:
    with pytest.raises(UnknownNameError, match=f'There is no edition "{text}"') as caught:
        edition_named(text)
    assert caught.value.hint.startswith(hint)


def test_a_list_of_editions() -> None:
    found = editions_in("concert, bflat double bass bass f\ntenor sax Bb")
    assert [edition.name for edition in found] == [
        "concert", "bflat", "double bass", "bass", "f", "tenor saxophone",
    ]  # fmt: skip
    with pytest.raises(UnknownNameError, match="kazoo"):
        editions_in("concert kazoo")


@pytest.mark.parametrize("name", ["bflat", "eflat", "bass", "f"])
def test_a_group_shares_what_its_instruments_share(name: str) -> None:
    group = edition_named(name)
    members = [one for one in instruments() if group_of(one) == name and not one.name.endswith("voice")]
    assert all(one.clef == group.clef for one in members)
    assert all(one.transposition.simple == group.transposition.simple for one in members)

    def shared(band: str) -> tuple[int, int]:
        bands = [getattr(one.bands, band) for one in members]
        return max(band.low.midi for band in bands), min(band.high.midi for band in bands)

    def ends(bands: Bands, band: str) -> tuple[int, int]:
        found = getattr(bands, band)
        return found.low.midi, found.high.midi

    for band in ("comfortable", "full"):
        assert ends(group.bands, band) == shared(band)
    extremes = [one.bands.extreme for one in members]
    assert group.bands.extreme.low.midi == min(band.low.midi for band in extremes)
    assert group.bands.extreme.high.midi == max(band.high.midi for band in extremes)


# Keys. Common practice: a tenor's D is concert C, an alto's A.


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
