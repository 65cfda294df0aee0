"""The name of a key for a phrase: F# or Gb, G# or Ab. Expected names are common practice of written parts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.key_cycle import order_tonics
from shedbook.editions.keys.reader_keys import phrase_keys, reader_keys
from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]
CONCERT = edition_named("concert")


def minor(make: Make) -> Phrase:
    """A line through the leading note of the minor key, which in G sharp minor is F double sharp."""
    return make("C minor", "Dm7b5 G7b9 | Cm6", "1/8 c5 1/4 ab4 1/8 g ab f e d | eb4 d c b3 1/2 d4")


def names(phrase: Phrase, edition: str = "concert", **options: object) -> list[str]:
    found = phrase_keys(phrase, edition_named(edition), **options)  # type: ignore[arg-type]
    return [str(key.written.tonic) for key in found]


def test_a_minor_cadence_reads_in_a_flat_and_not_in_g_sharp(make: Make) -> None:
    by_signature = [str(key.written.tonic) for key in reader_keys(minor(make).key, CONCERT)]
    assert "G#" in by_signature
    assert "Ab" in names(minor(make))
    assert [one for one in names(minor(make)) if one not in by_signature] == ["Ab"]


@pytest.mark.parametrize("edition", ["concert", "bflat", "eflat", "bass", "f", "double bass"])
@pytest.mark.parametrize("written", [False, True])
def test_the_names_alone_are_chosen_and_never_the_sound(make: Make, edition: str, *, written: bool) -> None:
    reader = edition_named(edition)
    plain = reader_keys(minor(make).key, reader, written=written)
    for old, new in zip(plain, phrase_keys(minor(make), reader, written=written), strict=True):
        assert old.concert.tonic.pitch_class == new.concert.tonic.pitch_class
        assert old.written.tonic.pitch_class == new.written.tonic.pitch_class
        up = new.written.tonic.pitch_class - new.concert.tonic.pitch_class
        assert (up - reader.transposition.semitones) % 12 == 0


def test_what_the_author_names_keeps_its_name(make: Make) -> None:
    assert "G#" in names(minor(make), prefer=("G#",))
    assert names(minor(make), order=("G#", "C"))[0] == "G#"
    assert names(minor(make), order="G# C")[0] == "G#"
    home = make("G# minor", "A#m7b5 | D#7b9 | G#m6", "1/1 a#4 | d#5 | g#4")
    assert names(home)[0] == "G#"


def test_listed_tonics_are_concert_or_written(make: Make) -> None:
    concert = phrase_keys(minor(make), edition_named("bflat"), ("F#",))
    assert [(str(key.concert.tonic), str(key.written.tonic)) for key in concert] == [("F#", "Ab")]
    written = phrase_keys(minor(make), edition_named("bflat"), ("G#",), written=True)
    assert [(str(key.concert.tonic), str(key.written.tonic)) for key in written] == [("F#", "G#")]


def test_what_is_listed_or_preferred_is_called_so_by_whom_it_concerns(make: Make) -> None:
    """The project's design: listed names are concert ones, or written ones; preferred ones are both."""
    phrase, reader = minor(make), edition_named("bflat")

    def called(order: str, prefer: tuple[str, ...] = (), *, written: bool = False) -> list[tuple[str, str]]:
        keys = phrase_keys(phrase, reader, order, prefer=prefer, written=written)
        return [(str(key.concert.tonic), str(key.written.tonic)) for key in keys]

    assert called("G#") == [("G#", "Bb")]
    assert called("Ab") == [("Ab", "Bb")]
    assert called("Bb", written=True) == [("Ab", "Bb")]
    assert called("Bb", ("G#",), written=True) == [("G#", "Bb")]
    assert called("F#") == [("F#", "Ab")]
    assert called("F#", ("G#",)) == [("F#", "G#")]


@pytest.mark.parametrize(
    ("order", "tonics"), [("fourths", []), ("C  F", ["C", "F"]), (("Bb",), ["Bb"]), ("Whole Steps", [])]
)
def test_the_tonics_of_an_order(order: str | tuple[str, ...], tonics: list[str]) -> None:
    assert [str(name) for name in order_tonics(order)] == tonics


def test_an_unknown_order_is_refused() -> None:
    with pytest.raises(UnknownNameError):
        order_tonics("sideways")
