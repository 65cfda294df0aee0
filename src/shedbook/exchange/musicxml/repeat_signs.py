"""Repeat signs, endings and jumps of a MusicXML file: from bar lines, words, signs and `sound` elements.

A `sound` element, which is meant for player programs, goes before what the page shows. But the words on the
page still say where a jump ends ("al Fine", "al Coda").
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.exchange.ground.note_lengths import Ticks
from shedbook.exchange.ground.safe_xml import Element, bad_number, number, text_of
from shedbook.exchange.musicxml.repeats import CAPO, CODA, FINE, SEGNO, RepeatSigns

_MOST_TIMES = 64
_MOST_NAME = 40

_FROM_CAPO = re.compile(r"(?:d\. ?c\.?|dc|da capo)(?!\w)")
_FROM_SEGNO = re.compile(r"(?:d\. ?s\.?|ds|dal segno|d\. ?[𝄋%])(?!\w)")
_AL_FINE = re.compile(r"\bal fine\b")
_AL_CODA = re.compile(r"\b(?:al|alla|to|e poi la|poi) (?:coda\b|[𝄌⊕])")
_TO_CODA = re.compile(r"(?:to|al) (?:the )?(?:coda\b|[𝄌⊕]).*")
_CODA = re.compile(r"[𝄌⊕]?\s?coda|[𝄌⊕]")
_SEGNO = re.compile(r"[𝄋]?\s?segno|𝄋")


class Jump(NamedTuple):
    """What one direction or bar line says of jumps; the fields mean the same as in `RepeatSigns`."""

    segno: str = ""
    coda: str = ""
    coda_sign: bool = False
    to_coda: str = ""
    fine: bool = False
    jump: str = ""
    to: str = ""
    until: str = ""


@dataclass(slots=True)
class Beginnings:
    """The segno and the coda of a bar while it is read; `place` is where they stand, in ticks.

    A segno or a coda that stands behind all notes of a bar belongs to the next bar.
    """

    place: Ticks = 0
    segno: str = ""
    coda: str = ""
    coda_sign: bool = False

    @property
    def any(self) -> bool:
        """Whether there is a segno or a coda."""
        return bool(self.segno or self.coda or self.coda_sign)


def barline_jump(barline: Element) -> Jump | None:
    """Return the segno or the coda on a `barline` element; None for neither."""
    segno, coda = barline.find("segno") is not None, barline.find("coda") is not None
    if not segno and not coda:
        return None
    return Jump(
        segno=(barline.get("segno") or "segno") if segno else "",
        coda=(barline.get(CODA) or CODA) if coda else "",
    )


def jump_words(text: str) -> Jump | None:
    """Return what words on a page say of jumps; None where they say nothing of them."""
    folded = " ".join(text.lower().strip(" ()[]:;,").split())
    until = FINE if _AL_FINE.search(folded) else CODA if _AL_CODA.search(folded) else ""
    if _FROM_CAPO.match(folded):
        return Jump(jump=CAPO, until=until)
    if _FROM_SEGNO.match(folded):
        return Jump(jump=SEGNO, until=until)
    if folded.rstrip(".") == FINE:
        return Jump(fine=True)
    if _TO_CODA.fullmatch(folded):
        return Jump(to_coda=CODA)
    if _CODA.fullmatch(folded):
        return Jump(coda=CODA)
    return Jump(segno="segno") if _SEGNO.fullmatch(folded) else None


def jump_sound(sound: Element) -> Jump | None:
    """Return what a `sound` element says of jumps; None where it says nothing of them."""
    held = sound.attrib
    named = {
        key: held[key].strip()[:_MOST_NAME] for key in ("segno", "coda", "tocoda", "dalsegno") if key in held
    }
    fine = held.get("fine", "no") not in ("no", "")
    if not named and not fine and held.get("dacapo") != "yes":
        return None
    leap = CAPO if held.get("dacapo") == "yes" else SEGNO if named.get("dalsegno") else ""
    return Jump(
        named.get("segno", ""), named.get("coda", ""), False, named.get("tocoda", ""), fine, leap,
        named.get("dalsegno", "") if leap == SEGNO else "",
    )  # fmt: skip


def direction_jump(direction: Element) -> Jump | None:
    """Return what a `direction` element says of jumps; None where it says nothing of them.

    Its `sound` element goes before its words and signs.
    """
    shown: Jump | None = None
    segno = coda = False
    for kind in direction:
        for child in kind if kind.tag == "direction-type" else ():
            if child.tag == "words":
                shown = jump_words(text_of(child)) or shown
            segno, coda = segno or child.tag == "segno", coda or child.tag == "coda"
    sound = direction.find("sound")
    ordered = None if sound is None else jump_sound(sound)
    if ordered is not None:
        return ordered._replace(until=shown.until) if shown is not None and ordered.jump else ordered
    if coda:
        shown = shown or Jump()
        # The word "to" and the sign together mean "to coda"; the word may stand in another direction.
        shown = shown._replace(coda_sign=not (shown.to_coda or shown.coda or shown.jump))
    if segno and not (shown is not None and shown.jump):
        shown = (shown or Jump())._replace(segno="segno")
    return shown


def add_jump(jump: Jump, signs: RepeatSigns, begins: Beginnings, place: Ticks) -> None:
    """Add what a direction says of jumps to its bar.

    Args:
        jump: what the direction says.
        signs: the signs of the bar, which are changed.
        begins: the segno and the coda of the bar, which are changed.
        place: where the direction stands in the bar, in ticks.
    """
    signs.to_coda = jump.to_coda or signs.to_coda
    signs.fine = jump.fine or signs.fine
    if jump.jump:
        signs.jump, signs.to = jump.jump, jump.to or signs.to
    signs.until = jump.until or signs.until
    if jump.segno or jump.coda or jump.coda_sign:
        begins.place = place
        begins.segno = jump.segno or begins.segno
        begins.coda = jump.coda or begins.coda
        begins.coda_sign = jump.coda_sign or begins.coda_sign


def settle(begins: Beginnings, signs: RepeatSigns, end: Ticks) -> Beginnings:
    """Give the segno and the coda to the bar that begins with them; return those of the next bar.

    A bare coda sign behind all notes stays in its bar, because it more likely means "to coda".

    Args:
        begins: the segno and the coda that were read in the bar.
        signs: the signs of the bar, which are changed.
        end: where the bar ends, in ticks.
    """
    signs.coda_sign = begins.coda_sign
    if begins.place and begins.place >= end:
        return Beginnings(0, begins.segno, begins.coda)
    signs.segno, signs.coda = begins.segno, begins.coda
    return Beginnings()


def read_repeat(name: str, repeat: Element, signs: RepeatSigns) -> None:
    """Add a repeat sign to the signs of its bar.

    Args:
        name: what errors call the file.
        repeat: a `repeat` element.
        signs: the signs of the bar, which are changed.

    Raises:
        ReadError: if the number of repeats is below 1 or above 64, or no number.
    """
    if repeat.get("direction") == "forward":
        signs.forward = True
        return
    times = number(repeat.get("times", "2"))
    if times is None or not 1 <= times <= _MOST_TIMES:
        raise bad_number(name, repeat.get("times", ""), "a number of repeats")
    signs.times = int(times)
    signs.after_jump = repeat.get("after-jump") == "yes"


def ending_numbers(ending: Element) -> frozenset[int]:
    """Return on which turns an ending is played, from its `ending` element; 1 where it gives none."""
    numbers = ending.get("number", "1").replace(",", " ").split()
    found = frozenset(int(text) for text in numbers if text.isdecimal() and 0 < int(text[:3]) < 100)
    return found or frozenset({1})
