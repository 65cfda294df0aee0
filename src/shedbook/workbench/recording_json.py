"""What was heard of a recording, as the page reads it: sentences, and marks at the notes."""

from __future__ import annotations

from typing import Any

from shedbook.book.verbs.takes import Take, TakesFound
from shedbook.book.verbs.takes_report import (
    clock,
    intonation_lines,
    name_in,
    other_words,
    slip_words,
    sound_words,
    tempo_lines,
    unsure_notes,
    unsure_words,
)

Json = dict[str, Any]


def recorded_json(found: TakesFound, number: int) -> Json:
    """Return what was heard.

    Args:
        found: the takes.
        number: the phrase that is open, from 1.
    """
    sound = [f"{sound_words(one.heard)}" for one in found.recordings]
    return {
        "takes": [_take_json(take, number) for take in found.takes],
        "sound": [f"{words[:1].upper()}{words[1:]}" for words in sound],
        "others": [other_words(piece) for one in found.recordings for piece in one.others],
    }


def _take_json(take: Take, number: int) -> Json:
    """Return a take; the names at the marks are those of the score that is open, whatever key was played."""
    moved = take.reading.moved
    slips = [
        {
            "kind": slip.kind,
            "note": slip.which,
            "name": "" if slip.sounded is None else str(name_in(take.home, slip.sounded - moved)),
            "says": slip_words(take, slip),
        }
        for slip in take.reading.slips
    ]
    unsure = [
        {"kind": "unsure", "note": index, "name": "", "says": unsure_words(take, index)}
        for index in unsure_notes(take)
    ]
    return {
        "number": take.number,
        "here": take.source.number == number,
        "file": take.source.file,
        "index": take.source.index,
        "title": take.source.title,
        "from": clock(take.reading.start_s),
        "to": clock(take.reading.end_s),
        "key": str(take.key),
        "moved": bool(moved % 12),
        "best": take.kept,
        "amiss": list(take.amiss),
        "marks": sorted([*slips, *unsure], key=lambda mark: (mark["note"], mark["kind"] == "extra")),
        "slips": len(slips),
        "playing": [*intonation_lines(take), *tempo_lines(take)],
        "midi": list(take.line.midi),
        "starts": [float(note.start) for note in take.line.notes],
    }
