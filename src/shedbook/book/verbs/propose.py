"""New lines for a phrase that is open: drafts over its changes and variants of its line, with reasons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.draft import why_none
from shedbook.book.verbs.look import read_fields
from shedbook.book.verbs.proposals import MOST_PHRASES
from shedbook.draft.drafting import draft
from shedbook.draft.ground import ground_of
from shedbook.draft.order import Order, note_classes
from shedbook.draft.reasons import reasons
from shedbook.draft.stock import changes_meant
from shedbook.draft.variants.varying import VaryWishes, vary
from shedbook.errors import ReadError, ShedbookError
from shedbook.phrase.changes_text import print_changes, print_scales
from shedbook.phrase.fields import fields_from_phrase
from shedbook.phrase.model import Phrase

PROPOSALS = 5
"""How many drafts are proposed at once: what one reads and hears before the ear is tired [the project's]."""
_MUSIC = ("pickup", "metre", "changes", "scales", "line")


@dataclass(frozen=True, slots=True)
class Proposal:
    """A line that may be taken: what it is called, why it works or what was done, its level and its keys."""

    title: str
    said: str
    level: int
    fields: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Proposals:
    """What is proposed; where that is little or nothing, `instead` says why and what to do."""

    found: tuple[Proposal, ...]
    instead: str = ""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What new lines over the changes shall be.

    Attributes:
        shape: arch, bowl, rise, fall or wave; "" for any.
        level: how hard they may be, 1 to 5; 0 for any.
        first: the note or notes that they may begin on, as names or pitches; "" for any.
        last: the same for their last note.
        whole_scale: whether the whole scale of every chord shall sound.
        like: whether they shall move as the phrase does.
        seed: what the dice begin with; another seed gives other lines.
    """

    shape: str = ""
    level: int = 0
    first: str = ""
    last: str = ""
    whole_scale: bool = False
    like: bool = False
    seed: int = 1


def new_lines(fields: Mapping[str, Any], settings: Settings, root: Path, wishes: Wishes) -> Proposals:
    """Draft lines over the changes of a phrase, none of them near one of the book.

    Args:
        fields: the phrase's own keys.
        settings: those of its book.
        root: the book's folder.
        wishes: what they shall be.

    Raises:
        ReadError: if the phrase cannot be read.
        NotationError: for a note that is none, or what cannot be asked for.
    """
    phrase = read_fields(fields, settings)
    changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    scales = print_scales(phrase.scales, phrase.changes, phrase.full_bars)
    ground = ground_of(changes, scales, metre=phrase.metre, key=phrase.key)
    order = Order(
        count=PROPOSALS,
        seed=wishes.seed,
        first=note_classes(wishes.first),
        last=note_classes(wishes.last),
        covered=("all",) if wishes.whole_scale else (),
        shape=wishes.shape,
        level=wishes.level,
        like=(phrase,) if wishes.like else (),
        unlike=(*_book(root), phrase),
        tempo=phrase.tempo_bpm,
        feel=phrase.feel,
    )
    drafted = draft(ground, order)
    found = tuple(
        _proposal(one.phrase, " ".join(reasons(one.account, one.motif)), one.account.difficulty.level)
        for one in drafted.drafts
    )
    if not found:
        return Proposals((), why_none(drafted.relaxed, drafted.drawn))
    few = "No more differ enough from one another and from the book; ask again for others."
    return Proposals(found, few if len(found) < PROPOSALS else "")


def variants(fields: Mapping[str, Any], settings: Settings, onto: str = "") -> Proposals:
    """Return the variants of a phrase.

    Args:
        fields: the phrase's own keys.
        settings: those of its book.
        onto: other changes, as text or by a name; then it is fitted to them, and nothing else is done.

    Raises:
        ReadError: if the phrase or the changes cannot be read.
    """
    phrase = read_fields(fields, settings)
    wishes = VaryWishes()
    if onto.strip():
        ground = ground_of(changes_meant(onto, phrase.key.tonic), metre=phrase.metre)
        wishes = VaryWishes(names=("onto other changes",), onto=ground)
    found = tuple(
        _proposal(one.phrase, one.said, one.account.difficulty.level) for one in vary(phrase, wishes)
    )
    return Proposals(found, "" if found else "Nothing of this changes the line, or can be written down.")


def _proposal(phrase: Phrase, said: str, level: int) -> Proposal:
    fields = fields_from_phrase(phrase)
    return Proposal(phrase.title, said, level, {name: fields[name] for name in _MUSIC if name in fields})


def _book(root: Path) -> tuple[Phrase, ...]:
    """Return the phrases of the book that can be read."""
    found: list[Phrase] = []
    try:
        sources = open_manuscript(root, keep_going=True).phrases[:MOST_PHRASES]
    except ShedbookError:
        return ()
    for source in sources:
        try:
            found.append(read_phrase(source))
        except ReadError:
            continue  # what cannot be read cannot be copied either
    return tuple(found)
