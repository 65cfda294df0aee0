"""A phrase in every key of an edition as MusicXML and MIDI: the files of a bundle, made by workers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import study
from shedbook.book.verbs.export import CONCERT, FORMATS, Setup
from shedbook.book.workshop.naming import name_of
from shedbook.book.workshop.store import Store
from shedbook.book.workshop.versions import fingerprint_of
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.transpose import transpose
from shedbook.phrase.fields import read_links


@dataclass(frozen=True, slots=True)
class KeysOrder:
    """Write a phrase in every key of an edition; `asked` are tonics where not all keys are wanted."""

    store: str
    source: PhraseSource
    settings: Settings
    edition: Edition
    asked: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KeyFiles:
    """A phrase in a key: its name as it is written and as it sounds, and the bytes of its files."""

    written: str
    concert: str
    musicxml: bytes
    midi: bytes


@dataclass(frozen=True, slots=True)
class PhraseFiles:
    """A phrase in every key, in the order of the book."""

    keys: tuple[KeyFiles, ...]


def phrase_files(order: KeysOrder) -> PhraseFiles:
    """Return a phrase's files, from the store where they are there.

    Raises:
        ReadError: if the phrase cannot be read.
        OutputError: if the disk refuses it.
    """
    store = Store(Path(order.store))
    given = (order.source.text, order.settings, order.edition, order.asked)
    name = name_of("phrase_files", given, _versions())
    found = store.read_value(PhraseFiles, "card", name)
    if found is None:
        found = _written(order)
        store.write_value("card", name, found)
    return found


@cache
def _versions() -> str:
    return fingerprint_of(__name__)


def _written(order: KeysOrder) -> PhraseFiles:
    phrase = read_phrase(order.source)
    book = Manuscript(Path(), order.settings, ())
    links = read_links(order.source.fields.get("links", {}))
    placing = placing_of(study(phrase), key_order(order.settings, order.asked), order.edition)
    files = []
    for part in placing.keys:
        if order.edition.name == CONCERT and part.key.concert == phrase.key:
            setup = Setup(phrase.key.tonic, phrase, phrase, order.edition, book, links=links)
        else:
            sounding = transpose(part.phrase, -order.edition.transposition)
            tonic = part.key.concert.tonic
            setup = Setup(tonic, sounding, part.phrase, order.edition, book, part.tab, links)
        files.append(
            KeyFiles(
                str(part.phrase.key),
                str(part.key.concert),
                FORMATS["musicxml"](setup),
                FORMATS["midi"](setup),
            )
        )
    return PhraseFiles(tuple(files))
