"""A recording held against the phrase that is open: its takes, one of them kept, or the line written down.

Or its notes alone, to search the book by.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

from shedbook.analysis.account import account
from shedbook.book.manuscript.choice import chosen_phrase
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.keep_takes import KeepOrder, KeptFile, keep_takes, recording_of
from shedbook.book.verbs.look import read_fields
from shedbook.book.verbs.propose import Proposal, Proposals
from shedbook.book.verbs.takes import Take, TakesFound, TakesOrder, heard_recording, takes
from shedbook.book.verbs.transcribe import TranscribeOrder, notes_in, transcribe, why_unsure
from shedbook.errors import ReadError, ShedbookError, UnknownNameError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.fields import fields_from_phrase
from shedbook.phrase.model import sounding_notes

_MUSIC = ("pickup", "metre", "changes", "line")
_MOST_NAMED = 6
_OF_A_FILE = "the notes do not stand on the file's beats; "


class HeardNote(NamedTuple):
    """A note that was heard, and whether it should be looked at."""

    midi: int
    unsure: bool


def notes_of(recording: Path) -> tuple[HeardNote, ...]:
    """Return the notes of a recording in order, without a rhythm.

    Raises:
        SoundError: if it cannot be listened to.
        ReadError: if it holds no note.
    """
    found = notes_in(heard_recording(recording))
    if not found:
        raise ReadError(
            "No note was heard.", hint="Play one note at a time, near the microphone, and not too softly."
        )
    return tuple(HeardNote(note.midi, bool(why_unsure(note))) for note in found)


def recorded(root: Path, number: int, recording: Path) -> TakesFound:
    """Listen to a recording that was meant to be one phrase of a book, in any key.

    Args:
        root: the book's folder.
        number: the phrase, from 1.
        recording: the file.

    Raises:
        ReadError: if the phrase cannot be read, or holds no note to listen for.
        SoundError: if the recording cannot be listened to.
        ManuscriptError: if the book cannot be opened.
    """
    source = chosen_phrase(open_manuscript(root, keep_going=True).phrases, str(number))
    if not sounding_notes(read_phrase(source)):
        raise ReadError(
            "This phrase has no note to listen for.",
            hint="Write its line first, or write down what you played.",
        )
    return takes(TakesOrder(root, (recording,), phrase=str(number)))


def take_there(found: TakesFound, number: int) -> str:
    """Return the file of the recording that a take would replace, "" where there is none.

    Raises:
        UnknownNameError: if there is no such take.
    """
    there = recording_of(_take(found, number), found.manuscript)
    return "" if there is None else there.file


def keep_one(found: TakesFound, number: int, *, replace_it: bool) -> KeptFile:
    """File one take, whichever speaks for it, as `keep_takes` does.

    Raises:
        UnknownNameError: if there is no such take.
        OutputError: if its recording is there and may not be replaced, or cannot be written.
        ManuscriptError: if manuscript.toml has no room for it as it is written.
    """
    chosen = _take(found, number)
    only = replace(found, takes=tuple(replace(take, kept=take is chosen) for take in found.takes))
    (kept,) = keep_takes(only, KeepOrder(replace=replace_it))
    return kept


def _take(found: TakesFound, number: int) -> Take:
    for take in found.takes:
        if take.number == number:
            return take
    raise UnknownNameError(f"There is no take {number} in this recording.", hint="Listen to it again.")


def written_down(recording: Path, fields: Mapping[str, Any], settings: Settings, tempo: int = 0) -> Proposals:
    """Write down a recording as drafts, over the changes of the phrase that is open where these can be read.

    Args:
        recording: the file.
        fields: that phrase's own keys.
        settings: those of its book.
        tempo: beats a minute; 0 to find it.

    Raises:
        SoundError: if the recording cannot be listened to.
        ReadError: if no line can be made of it.
    """
    order = TranscribeOrder(recording, tempo, key=str(fields.get("key") or ""))
    try:
        phrase = read_fields(fields, settings)
    except ShedbookError:  # an empty page, on which a line is to be written down
        pass
    else:
        changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
        order = replace(order, changes=changes, metre=phrase.metre, key=str(phrase.key))
    done = transcribe(order)
    found = []
    for one in done.phrases:
        music = fields_from_phrase(one)
        kept = {name: music[name] for name in _MUSIC if name in music}
        found.append(Proposal(one.title, "", account(one).difficulty.level, kept))
    remarks = [_sentence(remark.message.removeprefix(_OF_A_FILE)) for remark in done.remarks]
    return Proposals(tuple(found), " ".join([*_to_look_at(done.unsure), *remarks]))


def _to_look_at(unsure: tuple[Any, ...]) -> list[str]:
    """Return the notes that should be looked at, as one sentence."""
    if not unsure:
        return []
    named = "; ".join(
        f"{one.name} {one.where or f'at {one.at_s:.1f} s'} ({one.why})" for one in unsure[:_MOST_NAMED]
    )
    more = f"; and {len(unsure) - _MOST_NAMED} more" if len(unsure) > _MOST_NAMED else ""
    return [f"To look at: {named}{more}."]


def _sentence(message: str) -> str:
    return f"{message[:1].upper()}{message[1:]}{'' if message.endswith('.') else '.'}"
