"""Études from the phrases of a book, and where its phrases fit in some changes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.book.ground.toml_files import read_text
from shedbook.book.verbs.draft import key_of
from shedbook.book.verbs.proposals import phrases_in, write_proposals
from shedbook.draft.etudes.composing import MOST_BARS, Etude, EtudeWishes, compose
from shedbook.draft.etudes.fitting import Fit, fits, sources_of
from shedbook.draft.ground import Ground, ground_of
from shedbook.draft.stock import changes_meant
from shedbook.editions.instruments.edition import edition_named
from shedbook.phrase.fields import read_feel
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import spellings


@dataclass(frozen=True)
class EtudeRequest:
    """What is asked for: changes as text, by name or in a file; phrases from a folder."""

    changes: str
    source: Path
    key: str = ""
    metre: Metre | None = None
    title: str = "Étude"
    instrument: str = ""
    tempo: int = 120
    feel: str = "swing"
    seed: int = 1
    into: Path | None = None


@dataclass(frozen=True)
class EtudeAnswer:
    """The étude, and the file that was written."""

    etude: Etude
    files: tuple[Path, ...]


@dataclass(frozen=True)
class FitsAnswer:
    """The phrases of a book, the fits among them, and the changes they stand in."""

    phrases: tuple[Phrase, ...]
    fits: tuple[Fit, ...]
    ground: Ground


def write_etude(request: EtudeRequest) -> EtudeAnswer:
    """Return an étude over some changes.

    Raises:
        ReadError: if changes or phrases cannot be read, or the changes are too long.
        UnknownNameError: for an instrument that is not there.
        OutputError: if the folder cannot be written.
    """
    ground = _ground(request)
    wishes = EtudeWishes(
        tempo=request.tempo, feel=read_feel(request.feel), seed=request.seed, title=request.title
    )
    if request.instrument:
        edition = edition_named(request.instrument)
        down = edition.transposition.semitones
        band = edition.bands.comfortable
        wishes = replace(
            wishes,
            low=band.low.midi - down,
            high=band.high.midi - down,
            instrument=edition.instrument,
        )
    made = compose(ground, phrases_in(request.source), wishes)
    files = write_proposals([made.phrase], request.into) if request.into is not None else ()
    return EtudeAnswer(made, files)


def find_fits(request: EtudeRequest) -> FitsAnswer:
    """Return where the phrases of a book fit in some changes.

    Raises:
        ReadError: if changes or phrases cannot be read, or the changes are too long.
    """
    ground = _ground(request)
    phrases = phrases_in(request.source)
    return FitsAnswer(phrases, fits(sources_of(phrases, ground), ground), ground)


def _ground(request: EtudeRequest) -> Ground:
    """Return the ground of the changes that are meant."""
    text = request.changes
    if text.endswith((".txt", ".changes")) and Path(text).is_file():
        text = " ".join(read_text(Path(text), text).split())
    key = key_of(request.key)
    return ground_of(
        changes_meant(text, key.tonic if key else None), metre=request.metre, key=key, most=MOST_BARS
    )


def fit_words(one: Fit, phrases: tuple[Phrase, ...]) -> str:
    """Return a fit in words: where, what, in which key, and what is not quite so."""
    phrase = phrases[one.source]
    last = one.at + one.bars - 1
    bars = f"bar {one.at}" if one.bars == 1 else f"bars {one.at}-{last}"
    whole = one.bars == phrase.full_bars
    part = "" if whole else f", its bars {one.first_bar}-{one.first_bar + one.bars - 1}"
    key = spellings(60 + (phrase.key.tonic.pitch_class + one.up) % 12)[0].name
    fit = "as it stands" if one.cost == 0 else f"cost {one.cost:.2f}"
    return f"{bars}: {phrase.title}{part}, from {phrase.key.tonic} to {key} ({fit})"
