"""What a book says of its edition: on the title page, at the foot, and on how to use it. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.naming.language import strung
from shedbook.book.ground.edition_names import edition_title, title_inside
from shedbook.book.ground.words import Words, inside
from shedbook.book.scores.spoken_text import pitch_text
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import AUTHOR, Edition, group_of
from shedbook.editions.instruments.instrument import instruments
from shedbook.theory.interval import OCTAVE, UNISON, Interval


@dataclass(frozen=True, slots=True)
class EditionWords:
    """The edition's title ("B flat edition"), a line about its pitch, paragraphs for its reader."""

    title: str
    says: str
    advice: tuple[str, ...]


def edition_words(edition: Edition, words: Words, *, concert_words: bool = False) -> EditionWords:
    """Return what a book says of its edition; `concert_words` if the author's words name concert pitch."""
    title = edition_title(edition, words)
    if edition.policy == AUTHOR:
        return EditionWords(title, words("edition.concert"), (words("advice.edition.concert"),))
    said = pitch_words(edition.transposition, words)
    clef = words(f"clef.{edition.clef}")
    parts = [
        words(
            "advice.edition.reader", title=title_inside(edition, words), clef=clef, says=inside(said, words)
        )
    ]
    if edition.instrument is None and _some_sound_lower(edition):
        parts.append(words("advice.edition.octave"))
    if edition.transposes:
        parts.append(words("advice.edition.keys"))
    parts.append(words("advice.edition.register"))
    if edition.tablature is not None:
        parts.append(words("advice.edition.tablature", strings=_strings(edition.tablature, words)))
    if concert_words:
        parts.append(words("advice.edition.author"))
    return EditionWords(title, said, (" ".join(parts),))


def _strings(board: Fingerboard, words: Words) -> str:
    """Return the open strings from string 1 down: "E 4, B 3, …"."""
    return strung((pitch_text(one, words) for one in reversed(board.strings)), "alt.next", words)


def _some_sound_lower(edition: Edition) -> bool:
    """Say whether instruments of the group sound lower than the others from the same page."""
    return any(
        group_of(one) == edition.name and one.transposition.steps > edition.transposition.steps
        for one in instruments()
    )


def pitch_words(written: Interval, words: Words) -> str:
    """Return how far from its sound a note is written: "Written a major second above concert pitch"."""
    if written == UNISON:
        return words("edition.as it sounds")
    up = written.steps >= 0
    move = written if up else -written
    octaves, rest = move.steps // OCTAVE.steps, move.simple
    size = words(f"interval.{rest.steps}.{rest.semitones}") if rest != UNISON else ""
    if octaves:
        whole = words("interval.octave" if octaves == 1 else "interval.octaves")
        size = words("interval.and", octaves=whole, rest=size) if size else whole
    return words("edition.above" if up else "edition.below", interval=size)
