"""Tempo and feel as notation files say them: metronome marks, words, and what a player program is told."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from shedbook.exchange.safety import Element, bad_number, number, said, text_of
from shedbook.exchange.tables.notation_words import PARTS
from shedbook.phrase.feels import FEEL_NAMES, feel_row

SLOWEST_QPM, FASTEST_QPM = 5, 2000

_PARTS: Mapping[str, int] = MappingProxyType(dict(PARTS))
_FIRST_NUMBER = re.compile(r"[0-9]{1,4}(?:\.[0-9]{1,4})?")
# Longest first, so that "medium swing" is not read as "swing", nor "fast swing" as it.
_NAMED = re.compile(
    r"(?<!\w)(" + "|".join(re.escape(name) for name in sorted(FEEL_NAMES, key=len, reverse=True)) + r")(?!\w)"
)
_AMBIGUOUS = frozenset({"up", "even", "free"})
"""Names of feels that are common words too: they count only where they stand alone."""


def read_feel_words(text: str) -> str:
    """Return the feel that words name, "" for none."""
    folded = text.lower().strip(" .:;()")
    if folded in FEEL_NAMES:
        return FEEL_NAMES[folded]
    for found in _NAMED.finditer(folded):
        if found[1] not in _AMBIGUOUS:
            return FEEL_NAMES[found[1]]
    return ""


def read_tempo(metronome: Element) -> Fraction | None:
    """Return quarter notes a minute of a metronome mark; None where it says no number."""
    part, dots = None, 0
    for child in metronome:
        if child.tag == "beat-unit":
            if part is not None:
                return None  # one value equals another: no tempo
            part = _PARTS.get(text_of(child))
        elif child.tag == "beat-unit-dot":
            dots += 1
    found = _FIRST_NUMBER.search(said(metronome, "per-minute"))
    if part is None or found is None or dots > 2:
        return None
    tempo = Fraction(found.group()) * Fraction(4, part) * (2 - Fraction(1, 2**dots))
    return tempo if SLOWEST_QPM <= tempo <= FASTEST_QPM else None


def read_sound(name: str, sound: Element) -> tuple[Fraction | None, str, str]:
    """Return the tempo in quarter notes a minute, None for none, and the feel, "" for none.

    With them comes a tempo that is none for players, as the file writes it, "" for none.

    Raises:
        ReadError: if the tempo is no number, or below zero.
    """
    text = sound.get("tempo")
    tempo, lost = None, ""
    if text is not None:
        tempo = number(text)
        if tempo is None or tempo < 0:
            raise bad_number(name, text, "a tempo")
        if not SLOWEST_QPM <= tempo <= FASTEST_QPM:
            tempo, lost = None, text.strip()
    swing = sound.find("swing")
    return tempo, "" if swing is None else _swing_feel(swing), lost


def _swing_feel(swing: Element) -> str:
    """Return the feel of a `swing` element: its style where that is one, else by its ratio."""
    style = read_feel_words(said(swing, "swing-style"))
    if style:
        return style
    if swing.find("straight") is not None:
        return "straight"
    long, short = number(said(swing, "first")), number(said(swing, "second"))
    if not long or not short:
        return ""
    ratio = long / short
    rows = [feel_row(name) for name in ("swing", "fast swing")]
    return min(rows, key=lambda row: abs(ratio - Fraction(*row.eighths))).name if ratio > 1 else "straight"
