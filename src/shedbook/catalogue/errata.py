"""What changed from one edition of a manuscript to the next, and what of it must be made anew.

Phrases are taken for the same by their id, else by their title, else by their music. Editions are compared as
they stand in their folders; a folder's earlier state may come out of git (`folder_at`).
"""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.catalogue.book_state import BookState, state_of_manuscript
from shedbook.errors import ManuscriptError
from shedbook.phrase.model import Phrase, Sounding, sounding_notes
from shedbook.theory.metre import beat_words

NEW, GONE, MOVED, CHANGED = "new", "gone", "moved", "changed"
"""What may have happened to a phrase."""

SCORES, TRACKS, WORDS = "scores", "tracks", "words"
"""What must be made anew: scores in every key and edition, tracks, or only words on the phrase's pages."""

_WORDS_ONLY = frozenset(("title", "commentary", "links"))
_NO_MATTER = frozenset(("id", "silence", "line", "changes", "scales"))


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is not as it was.

    `what` is "note", "chord", "scale", "rhythm", "slurs and grace notes", or a key of the phrase. `was` and
    `now` are texts, "" where there is nothing. `bar`, from 1 (0 the pick-up), and `beat`,
    in words, are given for notes and chords.
    """

    what: str
    was: str
    now: str
    bar: int | None = None
    beat: str = ""


@dataclass(frozen=True, slots=True)
class Erratum:
    """What happened to one phrase, under its title and number now, or as they were if it is gone.

    `goes_on` says that a customer's ticks and notes go on: the phrase has the id that it had, or the title.
    """

    happened: str
    number: int
    title: str
    was_number: int = 0
    differences: tuple[Difference, ...] = ()
    anew: frozenset[str] = frozenset()
    goes_on: bool = True


@dataclass(frozen=True, slots=True)
class Errata:
    """The phrases that are not as they were, in the order of the new edition, those that are gone at the end.

    `settings` are the keys of manuscript.toml whose values differ; `old` and `new` what was compared.
    """

    errata: tuple[Erratum, ...]
    settings: tuple[str, ...]
    old: BookState | None = None
    new: BookState | None = None

    @property
    def any_scores(self) -> bool:
        """Whether the books must be downloaded again, for a note, a chord or a phrase."""
        return any(SCORES in one.anew for one in self.errata)


def errata(old: Manuscript, new: Manuscript) -> Errata:
    """Return what changed between two manuscripts.

    Raises:
        ReadError: if a phrase of either cannot be read.
    """
    return compared(state_of_manuscript(old, keys=False), state_of_manuscript(new))


def compared(old: BookState, new: BookState) -> Errata:
    """Return what changed between two states of a book.

    Raises:
        ReadError: if a phrase of either cannot be read.
    """
    pairs = _pairs(old.phrases, new.phrases)
    found = [one for was, now in pairs if (one := _erratum(was, now)) is not None]
    differing = tuple(name for name, value in new.settings.items() if old.settings.get(name) != value)
    return Errata(tuple(found), differing, old, new)


def _pairs(
    old: Sequence[PhraseSource], new: Sequence[PhraseSource]
) -> Iterator[tuple[PhraseSource | None, PhraseSource | None]]:
    """Yield each phrase with what it was, in the order of the new edition; what is gone comes last."""
    left = dict(enumerate(old))
    matched: dict[int, PhraseSource] = {}
    for names in (_id, _title, _music):
        places = {name: place for place, source in reversed(left.items()) if (name := names(source))}
        for place, source in enumerate(new):
            name = names(source)
            if place not in matched and name and name in places:
                matched[place] = left.pop(places.pop(name))
    for place, source in enumerate(new):
        yield matched.get(place), source
    for source in left.values():
        yield source, None


def _id(source: PhraseSource) -> str:
    return str(source.fields.get("id", "")).strip()


def _title(source: PhraseSource) -> str:
    return str(source.fields.get("title", "")).strip()


def _music(source: PhraseSource) -> str:
    return "\n".join(" ".join(str(source.fields.get(key, "")).split()) for key in ("changes", "line"))


def _erratum(was: PhraseSource | None, now: PhraseSource | None) -> Erratum | None:
    if was is None or now is None:
        there = now or was
        assert there is not None  # one of a pair is always there
        happened, number = (NEW, 0) if was is None else (GONE, there.number)
        return Erratum(happened, there.number, there.title, number, (), frozenset((SCORES, TRACKS)), False)
    differences = tuple(_differences(was, now))
    if not differences and was.number == now.number:
        return None
    happened = CHANGED if differences else MOVED
    goes_on = (_id(was) or _title(was)) == (_id(now) or _title(now))
    return Erratum(happened, now.number, now.title, was.number, differences, _anew(differences), goes_on)


def _anew(differences: Sequence[Difference]) -> frozenset[str]:
    found = set()
    for one in differences:
        if one.what in _WORDS_ONLY:
            found.add(WORDS)
        elif one.what == "scale":
            found.add(SCORES)
        else:
            found |= {SCORES, TRACKS}
    return frozenset(found)


def _differences(was: PhraseSource, now: PhraseSource) -> Iterator[Difference]:
    """Yield what differs, the music first and in the order of the line."""
    if was.fields == now.fields:
        return
    before, after = read_phrase(was), read_phrase(now)
    if before.metre == after.metre:
        notes = list(_notes(before, after))
        yield from notes
        if not notes and before.bars != after.bars:
            yield Difference("slurs and grace notes", _plain(was.fields["line"]), _plain(now.fields["line"]))
        yield from _chords(before, after)
    for key in sorted(set(was.fields) | set(now.fields)):
        old, new = was.fields.get(key, ""), now.fields.get(key, "")
        if old != new and (key not in _NO_MATTER or (key == "scales" and before.scales != after.scales)):
            yield Difference("scale" if key == "scales" else key, _plain(old), _plain(new))


def _plain(value: object) -> str:
    return " ".join(str(value).split())


def _notes(before: Phrase, after: Phrase) -> Iterator[Difference]:
    """Yield the notes that differ, each at its place; a note of another length is a rhythm that differs."""
    was, now = _by_place(before), _by_place(after)
    for place in sorted(was.keys() | now.keys()):
        one, other = was.get(place), now.get(place)
        there = other or one
        assert there is not None  # the place is that of one of the two
        bar, beat = there.bar, beat_words(there.beat)
        if one is None or other is None or one.pitch != other.pitch or one.marks != other.marks:
            yield Difference("note", _note(one), _note(other), bar, beat)
        elif one.quarters != other.quarters:
            yield Difference("rhythm", f"{one.quarters} quarters", f"{other.quarters} quarters", bar, beat)


def _by_place(phrase: Phrase) -> Mapping[Fraction, Sounding]:
    return {note.start: note for note in sounding_notes(phrase)}


def _note(note: Sounding | None) -> str:
    return "" if note is None else ".".join((str(note.pitch), *note.marks))


def _chords(before: Phrase, after: Phrase) -> Iterator[Difference]:
    was = {(change.bar, change.beat): change.chord for change in before.changes}
    now = {(change.bar, change.beat): change.chord for change in after.changes}
    for bar, beat in sorted(was.keys() | now.keys()):
        one, other = was.get((bar, beat)), now.get((bar, beat))
        if one != other:
            yield Difference(
                "chord", one.text if one else "", other.text if other else "", bar, beat_words(beat)
            )


@contextmanager
def folder_at(folder: Path, version: str) -> Iterator[Path]:
    """Give a folder as it was at a version of its git repository, in a place that is removed after use.

    Raises:
        ManuscriptError: if the folder is in no repository, or there is no such version of it.
    """
    if version.startswith("-"):
        raise ManuscriptError(
            f'"{version}" is no version.', hint="Give a tag, a branch or a commit after the @."
        )
    inside = _git(folder, version, "rev-parse", "--show-prefix").decode().strip()
    packed = _git(folder, version, "archive", "--format=tar", f"{version}:{inside}", top=True)
    with tempfile.TemporaryDirectory(prefix="shedbook-") as place:
        _unpack(packed, Path(place))
        yield Path(place)


def _git(folder: Path, version: str, *arguments: str, top: bool = False) -> bytes:
    """Return what git says of a folder, asked in the folder or at the top of its repository."""
    try:
        where = folder
        if top:
            where = Path(_git(folder, version, "rev-parse", "--show-toplevel").decode().strip())
        return subprocess.run(["git", "-C", str(where), *arguments], capture_output=True, check=True).stdout
    except FileNotFoundError:
        raise ManuscriptError("git is not installed.", hint="Compare two folders instead.") from None
    except subprocess.CalledProcessError as error:
        said = error.stderr.decode(errors="replace").strip().splitlines()
        raise ManuscriptError(
            f"{folder} at {version} cannot be had: {said[-1] if said else 'git gave no reason'}.",
            hint="Give the name of a version that git knows, such as a tag, after the @.",
        ) from None


def _unpack(packed: bytes, place: Path) -> None:
    """Unpack files that git gave; the filter lets nothing out of the place."""
    import io  # noqa: PLC0415  only a comparison with git needs these two
    import tarfile  # noqa: PLC0415

    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(place, filter="data")
