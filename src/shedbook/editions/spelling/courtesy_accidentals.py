"""Courtesy accidentals: signs that the rule of the bar does not ask for, where a player would stumble.

An accidental holds for its own line or space until the bar line, so the next bar, and the same letter in
another octave, are plain again. Readers know it and stumble all the same; so the note that is as it always
was gets a sign, usually in brackets (Gould 2011, Behind Bars, on cautionary accidentals; from memory).
"""

from __future__ import annotations

from collections.abc import Mapping

from shedbook.errors import UnknownNameError, nearest, shown
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.pitch import LETTERS, NoteName, Pitch

COURTESY_RULES = ("none", "after-bar", "always")
"""No signs; signs where the letter was last altered otherwise in the same place in the bar before, or in
another octave of the same bar; signs after any octave of the two bars before, too."""


def courtesies(phrase: Phrase, rule: str = "after-bar", *, signature: Key | None = None) -> frozenset[int]:
    """Return the notes that get a courtesy accidental, by their index as in `sounding_notes`.

    A note that must show its accidental anyway is never among them.

    Args:
        phrase: the phrase as it is to be read, spelled.
        rule: one of `COURTESY_RULES`.
        signature: the key whose signature is printed; None where none is.

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
    """What a reader has in mind, bar by bar: `_signed` by the rule of the bar, `_seen` by memory.

    Both are keyed by line or space (a pitch's `step`) and hold alterations; in `_signed`, None stands for a
    place in which the next note shows its accidental whatever it is.
    """

    def __init__(self, signature: Key | None, *, far: bool) -> None:
        self._plain = _plain_alterations(signature)
        self._far = far
        self._signed: dict[int, int | None] = {}
        self._seen: dict[int, int] = {}
        self._latest: dict[int, int] = {}
        self._before: tuple[Mapping[int, int], Mapping[int, int]] = ({}, {})

    def bar_line(self) -> None:
        """Forget the accidentals by the rule, and keep in mind what was seen."""
        self._before = (self._seen, self._before[0])
        self._signed, self._seen, self._latest = {}, {}, {}

    def goes_on(self, pitch: Pitch) -> None:
        """Take in a note that is tied over the bar line and shows no accidental."""
        if pitch.alteration != self._plain[pitch.step % 7]:
            self._signed[pitch.step] = None
        self._seen[pitch.step] = pitch.alteration

    def stumbles(self, pitch: Pitch) -> bool:
        """Say whether a note shows no accidental and leaves its reader in doubt, and remember it."""
        step, alteration = pitch.step, pitch.alteration
        hidden = self._signed.get(step, self._plain[step % 7]) == alteration
        doubt = hidden and self._in_doubt(step, alteration)
        self._signed[step] = self._seen[step] = alteration
        self._latest[step % 7] = alteration
        return doubt

    def _in_doubt(self, step: int, alteration: int) -> bool:
        latest = self._latest.get(step % 7)
        if latest is not None and latest != alteration:  # in another octave, else the sign would show
            return True
        if step in self._seen:
            return False
        if self._before[0].get(step, alteration) != alteration:
            return True
        return self._far and latest is None and self._far_doubt(step % 7, alteration)

    def _far_doubt(self, letter: int, alteration: int) -> bool:
        """Say whether the letter was otherwise, in any octave, where it was last met two bars back."""
        for seen in self._before:
            met = [other for step, other in seen.items() if step % 7 == letter]
            if met:
                return any(other != alteration for other in met)
        return False


def _plain_alterations(signature: Key | None) -> tuple[int, ...]:
    """Return what a note without an accidental is, for the letters C to B."""
    if signature is None:
        return (0,) * 7
    first = signature.signature - 1
    own = {NoteName(place).letter: NoteName(place).alteration for place in range(first, first + 7)}
    return tuple(own[letter] for letter in LETTERS)
