from __future__ import annotations

import pytest

from shedbook.theory.interval import Interval
from shedbook.theory.key import Key


@pytest.mark.parametrize(
    ("text", "key"),
    # Common practice: keys are written with signs and said with words.
    [
        ("C", "C major"), ("c minor", "C minor"), ("Bb major", "Bb major"), ("D flat major", "Db major"),
        ("f sharp minor", "F# minor"), ("E flat", "Eb major"), ("A♭ minor", "Ab minor"),
    ],
)  # fmt: skip
def test_a_key_is_read_in_signs_and_in_words(text: str, key: str) -> None:
    assert str(Key.parse(text)) == key


@pytest.mark.parametrize("text", ["", "flat", "D flat major minor", "D dorian", "flat D", "H minor"])
def test_what_is_no_key_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="not a"):
        Key.parse(text)


# Common practice: the signatures of both modes, sharps above zero.
@pytest.mark.parametrize(
    ("text", "sharps"),
    [
        ("C", 0), ("G", 1), ("F", -1), ("E", 4), ("Ab", -4), ("C#", 7), ("Cb", -7),
        ("Am", 0), ("Em", 1), ("Dm", -1), ("C#m", 4), ("Fm", -4), ("A# minor", 7), ("Ab minor", -7),
    ],
)  # fmt: skip
def test_the_signature_of_a_key(text: str, sharps: int) -> None:
    key = Key.parse(text)
    assert key.signature == sharps
    assert key.transposed(Interval(4, 7)).signature == sharps + 1  # a fifth up is a sharp more


# Common practice: a key as its chord is written.
@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Am", "A minor"), ("Bb-", "Bb minor"), ("F#min", "F# minor"), ("E mi.", "E minor"),
        ("CMaj", "C major"), ("GM", "G major"), ("D ma", "D major"), ("e♭ Min", "Eb minor"),
    ],
)  # fmt: skip
def test_a_key_is_read_as_its_chord_is_written(text: str, key: str) -> None:
    assert str(Key.parse(text)) == key


def test_the_mode_may_be_said_elsewhere() -> None:
    assert str(Key.parse("C", mode="minor")) == "C minor"
    assert str(Key.parse("C major", mode="minor")) == "C major"
