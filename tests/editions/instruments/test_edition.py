from __future__ import annotations

import pytest

from shedbook.editions.instruments.edition import (
    edition_named,
    editions_in,
    group_of,
)
from shedbook.editions.instruments.instrument import Bands, instruments
from shedbook.errors import UnknownNameError


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
