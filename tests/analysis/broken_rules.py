"""The examples of the proof-reader's rules, read: what is found in each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from analysis.helpers import phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.proof import Finding, proof, proof_book
from shedbook.analysis.proof.rule import Example
from shedbook.phrase.model import Bar, Event, Phrase
from shedbook.theory.interval import OCTAVE, Interval
from shedbook.theory.key import Key


def _last_bar(written: Phrase, change: Callable[[tuple[Event, ...]], tuple[Event, ...]]) -> Phrase:
    last = written.bars[-1]
    return replace(written, bars=(*written.bars[:-1], Bar(last.number, change(last.events))))


def _raised(event: Event, by: Interval) -> Event:
    return event if event.pitch is None else replace(event, pitch=event.pitch + by)


EDITS: dict[str, Callable[[Phrase], Phrase]] = {
    "": lambda written: written,
    "shorten the last bar": lambda written: _last_bar(written, lambda events: events[:-1]),
    "move the tied note": lambda written: _last_bar(
        written, lambda events: (_raised(events[0], Interval(1, 2)), *events[1:])
    ),
    "raise the second bar": lambda written: _last_bar(
        written, lambda events: tuple(_raised(event, OCTAVE) for event in events)
    ),
    "name F major as the key": lambda written: replace(written, key=Key.parse("F major"), key_inferred=False),
    "silence a rule that does not exist": lambda written: replace(
        written, silence=(("no-such-rule", "for the test"),)
    ),
}


def findings(example: Example) -> tuple[Finding, ...]:
    written = EDITS[example.edit](phrase(example.changes, example.line, example.scales))
    first = account(written)
    if not example.line_2:
        return proof(first)
    second = read(example.changes_2, example.line_2)
    return proof_book([first, second])
