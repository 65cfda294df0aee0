"""Courtesy accidentals: signs that the rule of the bar does not require, where a player would hesitate.

By the rule an accidental holds for its own line or space until the bar line. So a note in the next bar, or in
another octave, needs no sign when it is plain again. Players know the rule and hesitate all the same; so such
a note gets a sign, usually in brackets (Gould 2011, Behind Bars, on cautionary accidentals; from memory).
"""

from __future__ import annotations

from collections.abc import Mapping

from shedbook.errors import UnknownNameError, nearest, shown
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.pitch import LETTERS, NoteName, Pitch

COURTESY_RULES = ("none", "after-bar", "always")
"""The rules for courtesy accidentals.

"none" gives no signs. "after-bar" gives a sign to a note whose letter was last altered otherwise on the same
line or space in the bar before, or in another octave of the same bar. "always" gives signs after other
alterations in any octave of the two bars before, too.
"""


def courtesies(phrase: Phrase, rule: str = "after-bar", *, signature: Key | None = None) -> frozenset[int]:
    """Return the struck notes, indexes as in `sounding_notes`, that get a courtesy accidental.

    A note that must show its accidental by the rule of the bar is never among them.

    Args:
        phrase: the phrase, spelled as it is to be read.
        rule: one of `COURTESY_RULES`.
        signature: the key whose signature is printed, or None where none is printed.

    Raises:
        UnknownNameError: if no rule has the name.
    """
    if rule not in COURTESY_RULES:
        raise UnknownNameError(
            f'"{shown(rule)}" is not a rule for courtesy accidentals.',
            hint=nearest(rule, COURTESY_RULES) or f"Known are {', '.join(COURTESY_RULES)}.",
        )
    if rule == "none":
        return frozenset()
    reader = _Reader(signature, far=rule == "always")
    found = set()
    index = -1
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None:
                continue
            if event.tie_in and index >= 0:
                reader.goes_on(event.pitch)
                continue
            index += 1
            for pitch in event.grace:
                reader.stumbles(pitch)
            if reader.stumbles(event.pitch):
                found.add(index)
        reader.bar_line()
    return frozenset(found)


class _Reader:
    """What a reader remembers from bar to bar.

    `_signed` holds the alterations that are in force by the rule of the bar, and `_seen` those that have been
    read in the bar; both by line or space (the `step` of a pitch). In `_signed` None says that the next note
    there shows its accidental in any case. `_latest` holds the alteration that was read last, by letter, and
    `_before` what was seen in the two bars before.
    """

    def __init__(self, signature: Key | None, *, far: bool) -> None:
        self._plain = _plain_alterations(signature)
        self._far = far
        self._signed: dict[int, int | None] = {}
        self._seen: dict[int, int] = {}
        self._latest: dict[int, int] = {}
        self._before: tuple[Mapping[int, int], Mapping[int, int]] = ({}, {})

    def bar_line(self) -> None:
        """Begin a bar: no accidental is in force any more, but what was seen is still remembered."""
        self._before = (self._seen, self._before[0])
        self._signed, self._seen, self._latest = {}, {}, {}

    def goes_on(self, pitch: Pitch) -> None:
        """Read a note that is tied over the bar line, which shows no accidental."""
        if pitch.alteration != self._plain[pitch.step % 7]:
            self._signed[pitch.step] = None
        self._seen[pitch.step] = pitch.alteration

    def stumbles(self, pitch: Pitch) -> bool:
        """Read a note, and say whether it shows no accidental and leaves the reader in doubt."""
        step, alteration = pitch.step, pitch.alteration
        hidden = self._signed.get(step, self._plain[step % 7]) == alteration
        doubt = hidden and self._in_doubt(step, alteration)
        self._signed[step] = self._seen[step] = alteration
        self._latest[step % 7] = alteration
        return doubt

    def _in_doubt(self, step: int, alteration: int) -> bool:
        latest = self._latest.get(step % 7)
        # The other alteration was read in another octave: in the same one this note would show its
        # accidental.
        if latest is not None and latest != alteration:
            return True
        if step in self._seen:
            return False
        if self._before[0].get(step, alteration) != alteration:
            return True
        return self._far and latest is None and self._far_doubt(step % 7, alteration)

    def _far_doubt(self, letter: int, alteration: int) -> bool:
        """Say whether the letter was altered otherwise, in any octave, where it was last read in two bars."""
        for seen in self._before:
            met = [other for step, other in seen.items() if step % 7 == letter]
            if met:
                return any(other != alteration for other in met)
        return False


def _plain_alterations(signature: Key | None) -> tuple[int, ...]:
    """Return the alteration that a note without an accidental has, for each of the letters C to B."""
    if signature is None:
        return (0,) * 7
    first = signature.signature - 1
    own = {NoteName(place).letter: NoteName(place).alteration for place in range(first, first + 7)}
    return tuple(own[letter] for letter in LETTERS)
