"""Tempo and feel in a MusicXML file: metronome marks, words, and what player programs are told."""

from __future__ import annotations

import re
from fractions import Fraction

from shedbook.exchange.ground.safe_xml import Element, bad_number, child_text, number, text_of
from shedbook.exchange.musicxml.notation_names import PART_OF_TYPE
from shedbook.phrase.feels import FEEL_NAMES, feel_row

SLOWEST_QPM, FASTEST_QPM = 5, 2000

_FIRST_NUMBER = re.compile(r"[0-9]{1,4}(?:\.[0-9]{1,4})?")
# The longest names come first, so that "medium swing" and "fast swing" are not read as "swing".
_NAMED = re.compile(
    r"(?<!\w)(" + "|".join(re.escape(name) for name in sorted(FEEL_NAMES, key=len, reverse=True)) + r")(?!\w)"
)
_AMBIGUOUS = frozenset({"up", "even", "free"})
"""Names of feels that are also common words. They count only where they stand alone."""


def read_feel_words(text: str) -> str:
    """Return the feel that words on a page name; "" for none."""
    folded = text.lower().strip(" .:;()")
    if folded in FEEL_NAMES:
        return FEEL_NAMES[folded]
    for found in _NAMED.finditer(folded):
        if found[1] not in _AMBIGUOUS:
            return FEEL_NAMES[found[1]]
    return ""


def read_tempo(metronome: Element) -> Fraction | None:
    """Return the tempo of a `metronome` element in quarters a minute; None where it gives no tempo."""
    part, dots = None, 0
    for child in metronome:
        if child.tag == "beat-unit":
            if part is not None:
                return None  # the mark says that one value equals another
            part = PART_OF_TYPE.get(text_of(child))
        elif child.tag == "beat-unit-dot":
            dots += 1
    found = _FIRST_NUMBER.search(child_text(metronome, "per-minute"))
    if part is None or found is None or dots > 2:
        return None
    tempo = Fraction(found.group()) * Fraction(4, part) * (2 - Fraction(1, 2**dots))
    return tempo if SLOWEST_QPM <= tempo <= FASTEST_QPM else None


def read_sound(name: str, sound: Element) -> tuple[Fraction | None, str, str]:
    """Return what a `sound` element tells a player program of tempo and feel.

    Args:
        name: what errors call the file.
        sound: the element.

    Returns:
        The tempo in quarters a minute, None for none; the name of the feel, "" for none; and the text of a
        tempo that nobody can play, "" for none.

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
    """Return the feel of a `swing` element: that of its style, or else that of its ratio; "" for none."""
    style = read_feel_words(child_text(swing, "swing-style"))
    if style:
        return style
    if swing.find("straight") is not None:
        return "straight"
    long, short = number(child_text(swing, "first")), number(child_text(swing, "second"))
    if not long or not short:
        return ""
    ratio = long / short
    rows = [feel_row(name) for name in ("swing", "fast swing")]
    return min(rows, key=lambda row: abs(ratio - Fraction(*row.eighths))).name if ratio > 1 else "straight"
