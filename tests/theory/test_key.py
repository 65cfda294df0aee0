from __future__ import annotations

import pytest

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
    with pytest.raises(ValueError):
        Key.parse(text)
