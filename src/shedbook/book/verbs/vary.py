"""Variants of one phrase for an author, and the files of those that are kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.verbs.proposals import one_phrase, write_proposals
from shedbook.draft.ground import ground_of
from shedbook.draft.stock import changes_meant
from shedbook.draft.variants.varying import Varied, VaryWishes, fixed_ticks, vary
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import Metre


@dataclass(frozen=True)
class VaryRequest:
    """What an author asks for.

    `names` are transformations, () for all that apply; `keep` are notes that stay, as "bar:beat"; `onto`
    other changes, as text or by the name of a stock progression; `metre` another metre; `other` the file of a
    phrase to join. `into` is the folder that gets phrase files.
    """

    file: Path
    phrase: str | None = None
    names: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()
    onto: str = ""
    metre: Metre | None = None
    other: Path | None = None
    into: Path | None = None


@dataclass(frozen=True)
class VaryAnswer:
    """The phrase, its variants, and the files that were written."""

    phrase: Phrase
    variants: tuple[Varied, ...]
    files: tuple[Path, ...]


def vary_phrase(request: VaryRequest) -> VaryAnswer:
    """Return the variants of a phrase.

    Raises:
        ReadError: if a file or the changes cannot be read.
        UnknownNameError: for a transformation, a phrase or a struck note that is not there.
        OutputError: if the folder cannot be written.
    """
    phrase = one_phrase(request.file, request.phrase)
    onto = None
    if request.onto.strip():
        onto = ground_of(changes_meant(request.onto, phrase.key.tonic), metre=phrase.metre)
    wishes = VaryWishes(
        names=request.names,
        fixed=fixed_ticks(phrase, request.keep),
        onto=onto,
        metre=request.metre,
        other=None if request.other is None else one_phrase(request.other),
    )
    found = vary(phrase, wishes)
    wanted = request.into is not None and found
    files = write_proposals([one.phrase for one in found], request.into) if wanted and request.into else ()
    return VaryAnswer(phrase, found, files)
