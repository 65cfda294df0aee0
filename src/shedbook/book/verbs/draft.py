"""Drafts for an author: texts of what is asked, read; phrases that may be taken, and what was relaxed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from shedbook.book.verbs.proposals import one_phrase, phrases_in, write_proposals
from shedbook.draft.drafting import Draft, draft
from shedbook.draft.ground import Ground, ground_of
from shedbook.draft.order import Fixed, Order, note_classes, ticks_at
from shedbook.draft.reasons import reasons
from shedbook.draft.tables.hard_rules import HARD_RULES
from shedbook.editions.instruments.edition import Edition, edition_named
from shedbook.errors import NotationError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.fields import fields_from_phrase, read_feel
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch


@dataclass(frozen=True)
class DraftRequest:
    """What an author asks for, as texts.

    `cover` names chords whose whole scale must sound; `fix` notes as "2:1=eb5"; `leans` adds hundredths of a
    logarithm to leanings by name; `like` is a phrase file, `unlike` a folder. `into` is the folder that gets
    phrase files, None for none.
    """

    changes: str
    scales: str = ""
    metre: Metre | None = None
    key: str = ""
    count: int = 5
    seed: int = 1
    first: str = ""
    last: str = ""
    low: str = ""
    high: str = ""
    instrument: str = ""
    fix: tuple[str, ...] = ()
    cover: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    leap: int = 9
    run: int = 5
    shape: str = ""
    weights: str = "both"
    leans: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    like: Path | None = None
    unlike: Path | None = None
    level: int = 0
    tempo: int = 132
    feel: str = "swing"
    best: bool = False
    into: Path | None = None


@dataclass(frozen=True)
class DraftAnswer:
    """The drafts, how large the space is, what would have to be relaxed, and the files that were written."""

    drafts: tuple[Draft, ...]
    rhythms: int
    drawn: int
    offered: int
    relaxed: tuple[str, ...]
    files: tuple[Path, ...]


def draft_phrases(request: DraftRequest) -> DraftAnswer:
    """Draft phrases.

    Raises:
        ReadError: if changes, scales or a file cannot be read.
        UnknownNameError: for a rule, chord, leaning, shape or instrument that is not there.
        NotationError: for a note or a range that cannot be.
        OutputError: if the folder cannot be written.
    """
    ground = ground_of(request.changes, request.scales, metre=request.metre, key=key_of(request.key))
    edition = edition_named(request.instrument) if request.instrument else None
    low, high = _range(request, edition)
    order = Order(
        count=request.count,
        seed=request.seed,
        low=low,
        high=high,
        first=note_classes(request.first),
        last=note_classes(request.last),
        fixed=tuple(_fixed(text, ground) for text in request.fix),
        covered=request.cover,
        without=request.without,
        leap=request.leap,
        run=request.run,
        shape=request.shape,
        weights=request.weights,
        leans=request.leans,
        like=() if request.like is None else (one_phrase(request.like),),
        unlike=() if request.unlike is None else phrases_in(request.unlike),
        level=request.level,
        tempo=request.tempo,
        feel=read_feel(request.feel),
        instrument=None if edition is None else edition.instrument,
        best=request.best,
    )
    found = draft(ground, order)
    phrases = [one.phrase for one in found.drafts]
    files = write_proposals(phrases, request.into) if request.into is not None and phrases else ()
    return DraftAnswer(found.drafts, found.rhythms, found.drawn, found.offered, found.relaxed, files)


def key_of(text: str) -> Key | None:
    """Return a key, None for an empty text.

    Raises:
        NotationError: if it is none.
    """
    if not text.strip():
        return None
    try:
        return Key.parse(text)
    except ValueError:
        raise NotationError(f'"{text[:20]}" is not a key.', hint='Write "C minor" or "Bb major".') from None


def _range(request: DraftRequest, edition: Edition | None) -> tuple[int | None, int | None]:
    """Return the lowest and highest MIDI number: an instrument's range, then what is named."""
    low = high = None
    if edition is not None:
        down = edition.transposition.semitones
        band = edition.bands.comfortable
        low, high = band.low.midi - down, band.high.midi - down
    return _midi(request.low, low), _midi(request.high, high)


def _midi(text: str, usual: int | None) -> int | None:
    if not text:
        return usual
    try:
        return Pitch.parse(text).midi
    except ValueError:
        raise NotationError(
            f'"{text[:20]}" is not a pitch.', hint='Write it with its octave: "G3".'
        ) from None


def _fixed(text: str, ground: Ground) -> Fixed:
    """Read a fixed note: bar, beat and pitch as "2:1=eb5"."""
    try:
        place, note = text.split("=")
        bar, beat = place.split(":")
        return Fixed(ticks_at(int(bar), float(beat), ground), Pitch.parse(note.strip()).midi)
    except ValueError:
        raise NotationError(
            f'"{text[:30]}" is not a fixed note.', hint="Write bar, beat and pitch: --fix 2:1=eb5."
        ) from None


def relaxing_words(names: tuple[str, ...]) -> str:
    """Return what relaxing some rules means, as a sentence."""
    said = {row.name: row.relaxed for row in HARD_RULES}
    return " and ".join(said[name] for name in names)


def why_none(relaxed: tuple[str, ...], drawn: int) -> str:
    """Return in words why an order had no drafts, and what to do.

    Args:
        relaxed: a smallest set of rules to relax.
        drawn: how many lines were drawn.
    """
    if relaxed:
        return f"No line satisfies all of this. To get one, {relaxing_words(relaxed)}."
    if drawn:
        return (
            "Lines were drawn, but none had an ending, one peak, a motif that comes back and breath. "
            "Try another seed, a wider range, or fewer wishes."
        )
    return "No line satisfies all of this, and relaxing three rules does not help."


def draft_json(one: Draft) -> dict[str, object]:
    """Return the JSON object of a draft."""
    return {
        **_music(one.phrase),
        "reasons": list(reasons(one.account, one.motif)),
        "level": one.account.difficulty.level,
        "lines_over_its_rhythm": str(one.space.count),
        "log_probability": round(one.weight, 2),
    }


def _music(phrase: Phrase) -> dict[str, object]:
    return {name: value for name, value in fields_from_phrase(phrase).items() if value}


def phrase_text(phrase: Phrase) -> str:
    """Return the changes and the line of a phrase, as they are typed."""
    changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    pickup = fields_from_phrase(phrase).get("pickup")
    head = f"{changes}   (pick-up {pickup})" if pickup else changes
    return f"{head}\n{print_line(phrase.bars)}"
