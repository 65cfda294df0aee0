"""The written-out scales beside the lines of the demo book, in every key; the project's design."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.inputs import KeyOrder
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import Studied, study
from shedbook.book.scores.written_scales import written_scales
from shedbook.editions.instruments.edition import edition_named
from shedbook.phrase.model import sounding_notes

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"


@lru_cache(maxsize=1)
def demo() -> tuple[Studied, ...]:
    return tuple(study(read_phrase(source)) for source in open_manuscript(DEMO).phrases)


@pytest.mark.parametrize("name", ["concert", "eflat"])
def test_line_and_scale_have_the_same_letters_in_every_key(name: str) -> None:
    edition = edition_named(name)
    for studied in demo():
        for read in placing_of(studied, KeyOrder(), edition).keys:
            scales = written_scales(studied, read.phrase, edition.clef)
            for note, seen in zip(studied.account.notes, sounding_notes(read.phrase), strict=True):
                chord = read.phrase.changes[note.span.first_change].chord
                if note.span.scale is None or chord.root is None or note.span.chord.root is None:
                    continue
                root = chord.root + note.span.chord.root.interval_to(note.span.scale.root)
                (scale,) = [
                    one for one in scales
                    if one.name == note.span.scale.name and one.pitches[0].name == root
                ]  # fmt: skip
                letters = {
                    pitch.name for pitch in scale.pitches if pitch.name.pitch_class == seen.pitch.pitch_class
                }
                assert letters <= {seen.pitch.name}


def test_the_home_key_is_what_was_typed() -> None:
    edition = edition_named("concert")
    for studied in demo():
        home = placing_of(studied, KeyOrder(), edition).home.phrase
        assert home.bars == studied.phrase.bars
        assert home.changes == studied.phrase.changes
