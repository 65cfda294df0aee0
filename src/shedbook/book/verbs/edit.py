"""A manuscript that is being written: phrases saved, added, moved, set aside, and every step taken back.

What the author's other programs change meanwhile is merged where it touches other bars or other keys of a
phrase, and named as a conflict where it does not; it is never written over.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shedbook.book.editing.history import History, Step, part_of
from shedbook.book.editing.merging import merged
from shedbook.book.editing.texts import FileText, read_file, write_files
from shedbook.book.ground.toml_edits import Value, blocks, with_value
from shedbook.book.ground.toml_files import read_toml
from shedbook.book.manuscript.file_names import file_words, next_number
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, PHRASES_FOLDER, Manuscript, open_manuscript
from shedbook.book.manuscript.request import book_name
from shedbook.book.manuscript.shared_phrases import REFERENCE, VERSION
from shedbook.book.manuscript.source import PHRASE_TABLE, PhraseSource
from shedbook.book.workshop.output_folder import default_output, examine
from shedbook.errors import ManuscriptError, shown

if TYPE_CHECKING:
    from shedbook.book.verbs.bring_in import BroughtIn

ASIDE_FOLDER = "aside"
"""Where phrases lie that are not part of the book."""

_LOOK = "Look at the book again."

STARTER_LINE, STARTER_CHANGES = "1/4 c5 - - -", "C6"


@dataclass(frozen=True, slots=True)
class PhraseRef:
    """Which phrase is meant: its file, named from the manuscript's folder, and its place there from 0."""

    file: str
    index: int = 0


@dataclass(frozen=True, slots=True)
class Saved:
    """What is on disk now: the keys of the phrase, and those for which somebody else wrote another value.

    `conflicts` are the values on disk, which were left alone; everything else was written.
    """

    fields: Mapping[str, Any]
    conflicts: Mapping[str, Any] = field(default_factory=dict)


class Desk:
    """A manuscript at work. Its methods may be called from several threads; each is one step."""

    def __init__(self, root: Path, out: Path | None = None) -> None:
        """Open it; `out` is the output folder, None for the usual one.

        Raises:
            ManuscriptError: if the folder holds no manuscript.
            OutputError: if the output folder, where the steps are kept, is not ours.
        """
        self.root = root
        self.out = out or default_output(root, book_name(root))
        examine(self.out)
        self.history = History(root, self.out)
        self._lock = threading.RLock()
        self._files = frozenset[str]()
        self.open()

    def open(self) -> Manuscript:
        """Return the manuscript as it is on disk; what cannot be read is among its `unread`."""
        book = open_manuscript(self.root, keep_going=True)
        unread = (one.place.file for one in book.unread if one.place is not None)
        self._files = frozenset((*(one.file for one in book.phrases), *unread))
        return book

    def _read(self, ref: PhraseRef) -> FileText:
        """Return the file of a phrase, which is one of the book's.

        Raises:
            ManuscriptError: if it is not, or cannot be read.
        """
        if ref.file not in self._files:
            self.open()
        if ref.file not in self._files:
            raise ManuscriptError(f'"{shown(ref.file)}" is no file of this book.', hint=_LOOK)
        return read_file(self.root, ref.file)

    # One phrase

    def fields(self, ref: PhraseRef) -> dict[str, Any]:
        """Return the keys of a phrase as they stand in its file, without what the book says for all.

        Where it is a phrase of another book, the keys of that one stand below its own.

        Raises:
            ManuscriptError: if it cannot be read or is not there.
        """
        file = self._read(ref)
        _, found = _table(file, ref)
        return _plain({**self._theirs(ref, found), **found})

    def shared(self, ref: PhraseRef) -> str:
        """Return from where a phrase is taken, "" for one of this book's own."""
        _, found = _table(self._read(ref), ref)
        return str(found.get(REFERENCE, ""))

    def _theirs(self, ref: PhraseRef, own: Mapping[str, Any]) -> dict[str, Any]:
        """Return the keys that a phrase has from another book."""
        if REFERENCE not in own:
            return {}
        book = self.open()
        source = next((one for one in book.phrases if (one.file, one.index) == (ref.file, ref.index)), None)
        if source is None or source.taken is None:
            return {}
        hidden = (*source.own, "id")
        return {name: value for name, value in source.fields.items() if name not in hidden}

    def save(self, ref: PhraseRef, changes: Mapping[str, tuple[Value | None, Value | None]]) -> Saved:
        """Write keys of a phrase, each given as the value from which the author began and the new one.

        Raises:
            ManuscriptError: if the file cannot be read any more.
            OutputError: if the disk refuses; the file is as it was then.
        """
        with self._lock:
            file = self._read(ref)
            in_table, own = _table(file, ref)
            theirs = self._theirs(ref, own)
            there = _plain({**theirs, **own})
            text, conflicts = file.text or "", dict[str, Any]()
            for name, (base, mine) in changes.items():
                fits, value = merged(name, base, mine, there.get(name))
                if not fits:
                    conflicts[name] = there.get(name)
                elif value != there.get(name):
                    table = PHRASE_TABLE if in_table else ""
                    text = with_value(text, table, ref.index if in_table else 0, name, value)
            names = ",".join(sorted(changes))
            self._step("write", str(there.get("title", "")), [file.with_text(text)], f"{ref}{names}")
            _, now = _table(file.with_text(text), ref)
            return Saved(_plain({**theirs, **now}), conflicts)

    def text_alone(self, ref: PhraseRef) -> str:
        """Return the text of a phrase as a file of its own."""
        return _alone(self._read(ref), ref)

    # The book

    def add(self, title: str, fields: Mapping[str, Value] | None = None) -> PhraseRef:
        """Write a new phrase into a file of its own, at the end of the book, and return where it is."""
        given = fields or {"changes": STARTER_CHANGES, "line": STARTER_LINE}
        text = ""
        for name, value in {"title": title, **given}.items():
            text = with_value(text, "", 0, name, value)
        with self._lock:
            return self._new("add", title, text, after=None)

    def duplicate(self, ref: PhraseRef, title: str) -> PhraseRef:
        """Write a copy of a phrase under another title right behind it, without its id."""
        with self._lock:
            text = with_value(_alone(self._read(ref), ref), "", 0, "id", None)
            text = with_value(text, "", 0, "title", title)
            return self._new("duplicate", title, text, after=ref)

    def set_aside(self, ref: PhraseRef) -> str:
        """Take a phrase out of the book into the folder of what is set aside; return its file there.

        Raises:
            ManuscriptError: if it is the last phrase of the book.
        """
        with self._lock:
            book = self.open()
            if len(book.phrases) + len(book.unread) < 2:
                raise ManuscriptError(
                    "This is the only phrase of the book.", hint="Write another first; a book needs one."
                )
            file = self._read(ref)
            text = _alone(file, ref)
            title = str(self.fields(ref).get("title", ref.file))
            target = self._free(ASIDE_FOLDER, file_words(title))
            rest = _cut(file, ref)
            changed = [file.with_text(rest), read_file(self.root, target).with_text(text)]
            if rest is None:
                listed = self._listed()
                if listed:
                    changed.append(self._with_list([one for one in listed if one != ref.file]))
            self._step("aside", title, changed)
            return target

    def move(self, ref: PhraseRef, to: int) -> None:
        """Move a phrase to another place of the book, counted from 0.

        The order of files is written into manuscript.toml; phrases of one file change places in that file.

        Raises:
            ManuscriptError: if phrases share a file with others that would have to be passed.
        """
        with self._lock:
            book = self.open()
            refs = [PhraseRef(one.file, one.index) for one in book.phrases]
            if ref not in refs:
                raise ManuscriptError("This phrase is no longer there.", hint=_LOOK)
            order = [one for one in refs if one != ref]
            order.insert(max(0, min(to, len(order))), ref)
            if order == refs:
                return
            title = book.phrases[refs.index(ref)].title
            files = list(dict.fromkeys(one.file for one in order))
            if _runs(order) != len(files):
                raise ManuscriptError(
                    "This phrase shares its file with others, and cannot go where you put it.",
                    hint="Move it inside its file, or give it a file of its own.",
                )
            changed = [
                self._in_order(file, [one.index for one in order if one.file == file])
                for file in files
                if [one for one in order if one.file == file] != [one for one in refs if one.file == file]
            ]
            if files != list(dict.fromkeys(one.file for one in refs)):
                changed.append(self._with_list(files))
            self._step("move", title, changed)

    def bring_in(self, file: Path) -> BroughtIn:
        """Bring the phrases of a MusicXML or MIDI file into the book, as one step.

        Raises:
            ReadError: if it cannot be read.
        """
        # Loaded here: whoever only types needs nothing of it.
        from shedbook.book.verbs.bring_in import BringInOrder, bring_in  # noqa: PLC0415

        with self._lock:
            found = bring_in(BringInOrder((file,), self.root, preview=True))
            names = [one.path.relative_to(self.root).as_posix() for one in found.phrases]
            changed = [
                read_file(self.root, name).with_text(one.text)
                for name, one in zip(names, found.phrases, strict=True)
            ]
            listed = self._listed()
            if listed and names:
                changed.append(self._with_list([*listed, *names]))
            self._step("import", file.stem, changed)
            return found

    # Steps

    def undo(self) -> Step | None:
        """Take back the last step and return it; None where there is none.

        Raises:
            OutputError: if the file has been changed since in the same place.
        """
        with self._lock:
            return self.history.undo()

    def redo(self) -> Step | None:
        """Take the step again that was taken back last; None where there is none.

        Raises:
            OutputError: as `undo`.
        """
        with self._lock:
            return self.history.redo()

    def _step(self, kind: str, about: str, changed: Sequence[FileText], joins: str = "") -> None:
        """Write files, and keep how they were before."""
        before = [read_file(self.root, one.file) for one in changed]
        pairs = [(one, two) for one, two in zip(before, changed, strict=True) if one.text != two.text]
        if not pairs:
            return
        write_files([one for one, _ in pairs], [two for _, two in pairs])
        parts = tuple(part_of(one, two) for one, two in pairs)
        self.history.add(Step(kind, about, time.time(), parts, joins))

    # Files

    def _new(self, kind: str, title: str, text: str, after: PhraseRef | None) -> PhraseRef:
        number, digits = next_number(self.root / PHRASES_FOLDER)
        name = f"{PHRASES_FOLDER}/{number:0{digits}}-{file_words(title)}.toml"
        changed = [read_file(self.root, name).with_text(text)]
        files = self._listed() or ([one.file for one in self.open().phrases] if after else [])
        files = list(dict.fromkeys(files))
        if files:
            at = files.index(after.file) + 1 if after is not None and after.file in files else len(files)
            changed.append(self._with_list([*files[:at], name, *files[at:]]))
        self._step(kind, title, changed)
        return PhraseRef(name)

    def _free(self, folder: str, stem: str) -> str:
        """Return the name of a file that is not there yet."""
        name, number = f"{folder}/{stem}.toml", 2
        while (self.root / name).exists():
            name, number = f"{folder}/{stem}-{number}.toml", number + 1
        return name

    def _listed(self) -> list[str]:
        """Return the files that manuscript.toml lists; none where it lists none."""
        book = self.open()
        if not book.settings.phrases:
            return []
        return list(dict.fromkeys(one.file for one in book.phrases))

    def _with_list(self, files: Sequence[str]) -> FileText:
        """Return manuscript.toml with these files as its list of phrases."""
        settings = read_file(self.root, MANUSCRIPT_FILE)
        names = [file.removeprefix(f"{PHRASES_FOLDER}/") for file in files]
        return settings.with_text(with_value(settings.text or "", "", 0, "phrases", names))

    def _in_order(self, file: str, order: Sequence[int]) -> FileText:
        """Return a file of several phrases with its tables in another order."""
        one = read_file(self.root, file)
        text = one.text or ""
        found = blocks(text, PHRASE_TABLE)
        tables = [_closed(text[block.start : block.end]) for block in found]
        return one.with_text(text[: found[0].start] + "".join(tables[index] for index in order))


def _table(file: FileText, ref: PhraseRef) -> tuple[bool, dict[str, Any]]:
    """Return whether a phrase stands under [[phrase]], and its keys."""
    if file.text is None:
        raise ManuscriptError(f"{file.file} is gone.", hint="Somebody moved or removed it; look at the book.")
    fields = read_toml(file.text, file.file)
    tables = fields.get(PHRASE_TABLE)
    if not isinstance(tables, list):
        return False, fields
    if ref.index >= len(tables):
        raise ManuscriptError("This phrase is no longer there.", hint=_LOOK)
    return True, dict(tables[ref.index])


def _plain(fields: dict[str, Any]) -> dict[str, Any]:
    """Return keys without those that say where a phrase is taken from."""
    return {name: value for name, value in fields.items() if name not in (REFERENCE, VERSION)}


def _alone(file: FileText, ref: PhraseRef) -> str:
    """Return the text of a phrase as a file of its own."""
    in_table, _ = _table(file, ref)
    text = file.text or ""
    if not in_table:
        return text
    block = blocks(text, PHRASE_TABLE)[ref.index]
    lines = text[block.start : block.end].splitlines(keepends=True)
    kept = [
        line.replace(f"[{PHRASE_TABLE}.", "[", 1) for line in lines if line.strip() != f"[[{PHRASE_TABLE}]]"
    ]
    return "".join(kept)


def _cut(file: FileText, ref: PhraseRef) -> str | None:
    """Return what is left of a file without a phrase; None where nothing is."""
    in_table, _ = _table(file, ref)
    text = file.text or ""
    found = blocks(text, PHRASE_TABLE) if in_table else ()
    if len(found) < 2:
        return None
    block = found[ref.index]
    return text[: block.start] + text[block.end :]


def _closed(text: str) -> str:
    return text if text.endswith("\n") else f"{text}\n"


def _runs(order: Sequence[PhraseRef]) -> int:
    """Return how many runs of one file there are in an order."""
    return sum(1 for at, one in enumerate(order) if not at or order[at - 1].file != one.file)


def ref_of(source: PhraseSource) -> PhraseRef:
    """Return by what a phrase is named here."""
    return PhraseRef(source.file, source.index)
