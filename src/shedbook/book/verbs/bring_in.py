"""Files of other programs brought into a manuscript: read whole, then written as phrase files of their own.

Nothing that is there is ever written over. A file that cannot be read does not stop the others, unless the
author asks for all or nothing; what is written, is written whole.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Protocol

from shedbook.book.ground.toml_files import inside, read_text, read_toml
from shedbook.book.ground.writing import missing_folders, put, refusal, remove_empty
from shedbook.book.manuscript.choice import tonic_of
from shedbook.book.manuscript.file_names import file_words, next_number
from shedbook.book.manuscript.opening import (
    MANUSCRIPT_FILE,
    PHRASES_FOLDER,
    Manuscript,
    open_manuscript,
)
from shedbook.book.manuscript.phrase_toml import phrase_toml
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.errors import OutputError, ReadError, ShedbookError, UnknownNameError, nearest
from shedbook.exchange.ground.file_kinds import midi_inside, refuse_abc, refuse_others
from shedbook.exchange.ground.long_line import DEFAULT_SPLIT, SPLITS
from shedbook.exchange.ground.report import Imported, Report
from shedbook.exchange.ground.safe_xml import MOST_BYTES
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.phrase.fields import fields_from_phrase
from shedbook.phrase.model import Phrase
from shedbook.theory.key import MODES, Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

_MIDI = b"MThd"
_NONE, _ALL = "none", "all"


@dataclass(frozen=True, slots=True)
class BringInOrder:
    """What is to be read, and into which manuscript.

    `split` is a list of `SPLITS` as the author writes it, "none", "all", or "" for what is usual; `key` a
    tonic, with its mode or without, "" to find it; `part` the part to read; `changes` take the place of those
    in the files; `cut` names the progressions at which long lines are cut, "all", or "rests" for rests.
    `tempo` is the tempo of every phrase in quarter notes a minute, 0 for that of the file; `metre` is the
    metre of playing, and of scores that give none, None to find it.
    `preview` writes nothing. `all_or_nothing` writes nothing either where one of the files cannot be read.
    """

    files: tuple[Path, ...]
    into: Path
    split: str = ""
    key: str = ""
    part: str = ""
    changes: str = ""
    cut: str = ""
    tempo: int = 0
    metre: Metre | None = None
    preview: bool = False
    all_or_nothing: bool = False


@dataclass(frozen=True, slots=True)
class NewPhrase:
    """A phrase file: its path, its text, and the bars of `source` from which it comes."""

    path: Path
    text: str
    phrase: Phrase
    source: str
    first_bar: str
    last_bar: str


@dataclass(frozen=True, slots=True)
class RefusedFile:
    """A file that was not read, and the error that says why."""

    path: Path
    error: ShedbookError


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """What was written, or would be, with the reports and what the author should know besides.

    `refused` are the files that could not be read, in the order in which they were named.
    """

    phrases: tuple[NewPhrase, ...]
    reports: tuple[Report, ...]
    notices: tuple[str, ...] = ()
    refused: tuple[RefusedFile, ...] = ()


class Listener(Protocol):
    """The caller's side of `bring_in`: it hears how far the work is, and what to know before that."""

    def reading(self, done: int, of: int, path: Path) -> None:
        """Hear that so many files are done, and that `path` is read next."""
        ...

    def warned(self, notice: str) -> None:
        """Hear a sentence without its full stop, before anything is written."""
        ...


def bring_in(order: BringInOrder, listener: Listener | None = None) -> BroughtIn:
    """Read files and write their phrases into a manuscript, which is begun where there is none.

    Of several files those that cannot be read are left out, and named in the answer.

    Args:
        order: what is to be read.
        listener: told how far the work is, and which phrases the manuscript holds already; None for nobody.

    Raises:
        ReadError: if the only file, or the manuscript, cannot be read; nothing is written then.
        UnknownNameError: for a way to divide, a key or a part that does not exist.
        OutputError: if the folder holds something else, or cannot be written.
    """
    split = split_of(order.split or (_NONE if order.cut.strip() else ""))
    key = _key(order.key)
    manuscript = _manuscript(order.into)
    read: list[Imported] = []
    refused: list[RefusedFile] = []
    for done, path in enumerate(order.files):
        if listener is not None:
            listener.reading(done, len(order.files), path)
        try:
            read.append(_read(path, split, key, order))
        except ShedbookError as error:
            if len(order.files) == 1:
                raise
            refused.append(RefusedFile(path, error))
    if refused and order.all_or_nothing:
        return BroughtIn(
            (), (), ("nothing was written, because not every file could be read",), tuple(refused)
        )
    new, notices = _named(read, order, manuscript)
    if listener is not None:
        for notice in _held_already(new, manuscript):
            listener.warned(notice)
    if not order.preview and new:
        _write(new, order.into, begin=manuscript is None)
    return BroughtIn(tuple(new), tuple(one.report for one in read), tuple(notices), tuple(refused))


def _held_already(new: Sequence[NewPhrase], manuscript: Manuscript | None) -> list[str]:
    """Return a notice for each new phrase that the manuscript holds already, with every note and chord.

    Two new phrases that are alike are named too, because a file may have been named twice.
    """
    held: dict[tuple[str, ...], str] = {}
    for source in () if manuscript is None else manuscript.phrases:
        held.setdefault(_music(source.fields), f"is in the manuscript already, as {source.file}")
    notices = []
    for one in new:
        music = _music(fields_from_phrase(one.phrase))
        if music in held:
            notices.append(f'"{one.phrase.title}" {held[music]}')
        held.setdefault(music, f"has the same notes and chords as {one.path.name}, which is new too")
    return notices


def _music(fields: Mapping[str, object]) -> tuple[str, ...]:
    """Return the texts of a phrase that say its notes and chords, without the white space between them."""
    return tuple(" ".join(str(fields.get(name, "")).split()) for name in ("line", "changes", "pickup"))


def split_of(text: str) -> frozenset[str]:
    """Return where a line is divided, from a list with commas or spaces.

    Raises:
        UnknownNameError: for a name that is none of them.
    """
    names = text.replace(",", " ").split()
    if not names:
        return DEFAULT_SPLIT
    if names in ([_NONE], [_ALL]):
        return frozenset(SPLITS if names == [_ALL] else ())
    for name in names:
        if name not in SPLITS:
            known = ", ".join((*SPLITS, _NONE, _ALL))
            raise UnknownNameError(
                f'A line cannot be divided at "{name[:40]}".',
                hint=nearest(name, (*SPLITS, _NONE, _ALL)) or f"Write one or several of {known}.",
            )
    return frozenset(names)


def _key(text: str) -> Key | NoteName | None:
    """Return the key that every phrase shall be in, or its tonic, whose mode is the phrase's."""
    words = text.split()
    if not words:
        return None
    if len(words) == 2 and words[1].lower() in MODES:
        return Key(tonic_of(words[0]), words[1].lower())
    return tonic_of(text.strip())


def _manuscript(into: Path) -> Manuscript | None:
    """Return the manuscript that is there; None for a folder that is missing or empty.

    Raises:
        OutputError: if the folder holds something else.
    """
    try:
        if not into.exists():
            return None
        if not into.is_dir():
            raise OutputError(f"{into} is no folder.", hint="Name the folder of a manuscript with --into.")
        held = any(into.iterdir())
    except (OSError, ValueError) as error:
        raise OutputError(f"{into} cannot be read: {error}.", hint="Name another folder.") from error
    if not held:
        return None
    if not (into / MANUSCRIPT_FILE).is_file():
        raise OutputError(
            f"{into} holds files, but no {MANUSCRIPT_FILE}; nothing was written.",
            hint="Name the folder of a manuscript, or an empty or new one.",
        )
    return _without_phrases(into) or open_manuscript(into, keep_going=True)


def _without_phrases(into: Path) -> Manuscript | None:
    """Return a manuscript whose first phrase is still to come; None where there are some."""
    folder = into / PHRASES_FOLDER
    try:
        settings = settings_from_fields(
            read_toml(read_text(into / MANUSCRIPT_FILE, MANUSCRIPT_FILE), MANUSCRIPT_FILE)
        )
        begun = bool(settings.phrases) or (folder.is_dir() and any(folder.glob("*.toml")))
    except (ReadError, OSError):
        return None  # whoever opens it says what is wrong, and where
    return None if begun else Manuscript(into, settings, ())


def _read(path: Path, split: Collection[str], key: Key | NoteName | None, order: BringInOrder) -> Imported:
    """Read one file of whatever kind it is."""
    data = midi_inside(_bytes(path))
    refuse_abc(data, path.name)
    refuse_others(data, path.name)
    reader = read_musicxml
    if data.startswith(_MIDI):
        from shedbook.exchange.midi.reader import read_midi  # noqa: PLC0415 - loaded only where it is needed

        reader = read_midi
    found = reader(
        data,
        path.name,
        split=split,
        part=order.part,
        changes=order.changes,
        key=key,
        title=" ".join(path.stem.split()),
        tempo_qpm=Fraction(order.tempo) if order.tempo else None,
        metre=order.metre,
    )
    if not order.cut.strip():
        return found
    from shedbook.exchange.phrases.cutting import cut_pieces  # noqa: PLC0415 - loaded only where it is needed

    return cut_pieces(found, order.cut)


def _bytes(path: Path) -> bytes:
    """Return a file's bytes, of which there may be only so many.

    Raises:
        ReadError: if it is missing, no file, empty or too long.
    """
    try:
        if not path.is_file():
            said = "is a folder" if path.is_dir() else "is not a file that can be read"
            raise ReadError(f"{path} {said}.", hint="Name MusicXML or MIDI files.")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise ReadError(f"{path} cannot be read: {error}.", hint="Check the name.") from None
    if len(data) > MOST_BYTES:
        raise ReadError(
            f"{path} holds more than {MOST_BYTES // 1_000_000} million bytes, which is all that is read.",
            hint="Export only the part that holds the line.",
        )
    if not data.strip():
        raise ReadError(f"{path} is empty.", hint="Export the file again.")
    return data


# Names and texts


def _named(
    read: Sequence[Imported], order: BringInOrder, manuscript: Manuscript | None
) -> tuple[list[NewPhrase], list[str]]:
    """Return the phrase files to write, with the next free numbers, and what the author should know."""
    number, digits = next_number(order.into / PHRASES_FOLDER)
    taken = _ids(manuscript)
    explicit_metre = manuscript is not None and manuscript.settings.defaults.metre is not None
    notices: list[str] = []
    found: list[NewPhrase] = []
    for imported in read:
        if not imported.pieces:
            notices.append(f"{imported.report.name} holds no phrase that can be written")
        for piece in imported.pieces:
            phrase = piece.phrase
            if phrase.id and phrase.id in taken:
                notices.append(f'"{phrase.title}" gets no id, for "{phrase.id}" is taken')
                phrase = replace(phrase, id="")
            taken.add(phrase.id)
            text = phrase_toml(phrase, piece.links)
            if explicit_metre and phrase.metre == Metre():
                text += f'metre = "{phrase.metre}"\n'
            path = order.into / PHRASES_FOLDER / f"{number:0{digits}}-{file_words(phrase.title)}.toml"
            found.append(NewPhrase(path, text, phrase, imported.report.name, piece.first_bar, piece.last_bar))
            number += 1
    if found and manuscript is not None and manuscript.settings.phrases:
        notices.append(f"{MANUSCRIPT_FILE} lists its phrases: add the new files to the list")
    return found, notices


def _ids(manuscript: Manuscript | None) -> set[str]:
    sources = manuscript.phrases if manuscript is not None else ()
    return {str(source.fields.get("id", "")).strip() for source in sources} - {""}


# Writing


def _write(new: Sequence[NewPhrase], into: Path, *, begin: bool) -> None:
    """Write all phrase files or, where one cannot be, none."""
    folder = into / PHRASES_FOLDER
    folders = missing_folders(folder)
    made: list[Path] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        inside(into, PHRASES_FOLDER, PHRASES_FOLDER, hint="Put the folder itself into the manuscript.")
        if begin:
            title = into.resolve().name
            words = "".join(letter for letter in title if letter.isprintable() and letter not in '"\\')
            _create(into / MANUSCRIPT_FILE, f'title = "{words}"\n', made)
        for one in new:
            _create(one.path, one.text, made)
    except OSError as error:
        for path in made:
            path.unlink(missing_ok=True)
        remove_empty(folders)
        where = Path(error.filename2 or error.filename or into)
        raise refusal(error, where, "Nothing was written. Name another folder with --into.") from error


def _create(path: Path, text: str, made: list[Path]) -> None:
    """Write a file that is not there yet, whole or not at all."""
    put(path, text.encode(), path.parent, lasting=True, new=True)
    made.append(path)
