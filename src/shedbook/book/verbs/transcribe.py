"""A recorded line written down: a draft phrase, or several from a long improvisation, and what is unsure.

What was heard goes, as a MIDI file that counts time and no beats, the way of every played file: beats are
found, the rhythm is the likeliest, long lines are cut.
"""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO
from math import ceil
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.analysis.naming.spoken_names import pitch_with_octave
from shedbook.book.verbs.bring_in import BringInOrder, BroughtIn, bring_in
from shedbook.book.verbs.played_in import PlayedKey, midi_on_beats
from shedbook.book.verbs.takes import heard_recording
from shedbook.errors import ReadError
from shedbook.exchange.ground.report import Remark
from shedbook.listen.evidence import evidence_of
from shedbook.listen.free_search import free_notes
from shedbook.listen.intonation import is_tone
from shedbook.listen.lines import PlayedNote, played_notes
from shedbook.listen.octave_slips import with_octaves_mended
from shedbook.listen.sound_pieces import Heard, pieces_of, samples_between
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import Metre, beat_words
from shedbook.theory.pitch import spellings

MOST_BARS = 16
"""A phrase has at most so many bars: a longer line is cut."""
UNSURE = 0.55
_SHORT_S = 0.06
_TICKS_A_SECOND = 1000
_DIVISION_AT, _DIVISION = slice(12, 14), bytes((256 - 25, 40))
"""SMF 1.0: a division of 25 frames a second of 40 ticks each, the frames as a negative number."""
_FRAMES_REMARK = "the file counts frames, not beats"
_EVERYTHING, _RESTS = "all", "rests"


@dataclass(frozen=True, slots=True)
class TranscribeOrder:
    """What is to be written down.

    Attributes:
        recording: the file.
        tempo: quarter notes a minute; 0 to find it.
        changes: the changes that it was played over; "" for none.
        metre: its metre; None for 4/4.
        key: the home key or its tonic; "" to find it.
        cut: how a long line is cut, as `bring_in` takes it; "" for what fits.
        into: the manuscript that the phrases go into; None to write nothing.
        click_s: the second at which a click at that tempo has beat 1 of bar 1; None to find the bars.
    """

    recording: Path
    tempo: int = 0
    changes: str = ""
    metre: Metre | None = None
    key: str = ""
    cut: str = ""
    into: Path | None = None
    click_s: float | None = None


class UnsureNote(NamedTuple):
    """A note to look at: when it sounds, its name, why, and its bar and beat, where these are known."""

    at_s: float
    name: str
    why: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class Transcribed:
    """What came of a recording.

    Attributes:
        heard: the recording as it was heard.
        notes: every note that was heard.
        brought: the phrases, and what their reader reports.
        unsure: the notes to look at.
        remarks: what is to be known of the reading.
    """

    heard: Heard
    notes: tuple[PlayedNote, ...]
    brought: BroughtIn
    unsure: tuple[UnsureNote, ...]
    remarks: tuple[Remark, ...]

    @property
    def phrases(self) -> tuple[Phrase, ...]:
        """The phrases in order."""
        return tuple(new.phrase for new in self.brought.phrases)


def transcribe(order: TranscribeOrder) -> Transcribed:
    """Write down a recorded line.

    Raises:
        SoundError: if the recording cannot be listened to.
        ReadError: if no line can be made of it, or the changes cannot be read.
        OutputError: if the phrases cannot be written; nothing is then.
    """
    if order.click_s is not None and not order.tempo:
        raise ReadError("A click without its tempo says nothing.", hint="Name the tempo too: --tempo 120")
    heard = heard_recording(order.recording)
    notes = notes_in(heard)
    if len(notes) < 2:
        raise ReadError(
            f"{order.recording.name} holds no line that could be written down.",
            hint="Record one instrument alone, near the microphone, one note at a time.",
        )
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / f"{order.recording.stem}.mid"
        file.write_bytes(midi_of(notes) if order.click_s is None else _on_the_click(notes, order))
        brought = _brought(order, file, Path(folder) / "none")
    remarks = tuple(
        remark for report in brought.reports for remark in report.remarks if remark.message != _FRAMES_REMARK
    )
    return Transcribed(
        heard, notes, brought, _unsure(notes, tuple(one.phrase for one in brought.phrases)), remarks
    )


def notes_in(heard: Heard) -> tuple[PlayedNote, ...]:
    """Return every note of a recording of which nothing is known."""
    found: list[PlayedNote] = []
    for piece in pieces_of(heard):
        evidence = evidence_of(samples_between(heard, *piece), heard.rate)
        tones = [note for note in free_notes(evidence) if is_tone(note, evidence)]
        notes = with_octaves_mended(tones, evidence)
        found += played_notes(notes, evidence, piece.start_s)
    return tuple(found)


def _brought(order: TranscribeOrder, file: Path, nowhere: Path) -> BroughtIn:
    """Return the phrases of a MIDI file, cut where the line is too long for one."""

    def bring(cut: str, *, preview: bool) -> BroughtIn:
        return bring_in(
            BringInOrder(
                (file,),
                order.into if order.into is not None else nowhere,
                split="none",
                key=order.key,
                changes=order.changes,
                cut=cut,
                tempo=order.tempo if order.click_s is None else 0,
                metre=order.metre,
                preview=preview,
            )
        )

    cut = order.cut
    if not cut:
        whole = bring("", preview=True)
        long = not whole.phrases or any(new.phrase.full_bars > MOST_BARS for new in whole.phrases)
        if long:
            cut = _EVERYTHING if order.changes.strip() else _RESTS
        elif order.into is None:
            return whole
    return bring(cut, preview=order.into is None)


def midi_of(notes: Sequence[PlayedNote]) -> bytes:
    """Return notes as a Standard MIDI File 1.0 that counts milliseconds and has no beats."""
    from mido import MidiFile, MidiTrack  # noqa: PLC0415 - loaded only where it is needed
    from mido.messages import Message  # noqa: PLC0415

    rows: list[tuple[int, int, int]] = []
    for index, note in enumerate(notes):
        start, end = (round(_TICKS_A_SECOND * at) for at in (note.start_s, note.end_s))
        if index + 1 < len(notes):
            end = min(end, round(_TICKS_A_SECOND * notes[index + 1].start_s))
        rows += [(start, 1, note.midi), (max(start + 1, end), 0, note.midi)]
    track, before = MidiTrack(), 0
    for tick, on, midi in sorted(rows):
        kind = "note_on" if on else "note_off"
        track.append(Message(kind, note=midi, velocity=80 if on else 0, time=tick - before))
        before = tick
    file = MidiFile(type=0, ticks_per_beat=_TICKS_A_SECOND)
    file.tracks.append(track)
    out = BytesIO()
    file.save(file=out)
    content = bytearray(out.getvalue())
    content[_DIVISION_AT] = _DIVISION
    return bytes(content)


def _on_the_click(notes: Sequence[PlayedNote], order: TranscribeOrder) -> bytes:
    """Return notes as a MIDI file on the beats of a click; notes before bar 1 are in a bar before it."""
    metre = order.metre or Metre()
    bar_s = float(metre.bar_quarters) * 60 / order.tempo
    click = order.click_s or 0.0
    before = max(0, ceil((click - notes[0].start_s) / bar_s - 0.02))
    shift = before * bar_s - click
    keys = [PlayedKey(note.midi, 80, max(0.0, note.start_s + shift), note.end_s + shift) for note in notes]
    return midi_on_beats(keys, Fraction(order.tempo), metre.beats, metre.unit)


def _unsure(notes: Sequence[PlayedNote], phrases: Sequence[Phrase]) -> tuple[UnsureNote, ...]:
    """Return the notes to look at; with bar and beat where every note heard was written in one phrase."""
    places: list[str] = [""] * len(notes)
    written = sounding_notes(phrases[0]) if len(phrases) == 1 else ()
    if len(written) == len(notes):
        places = [f"bar {note.bar}, beat {beat_words(note.beat)}" for note in written]
    found = []
    for note, where in zip(notes, places, strict=True):
        name = pitch_with_octave(spellings(note.midi)[0])
        why = why_unsure(note)
        if why:
            found.append(UnsureNote(note.start_s, name, why, where))
    return tuple(found)


def why_unsure(note: PlayedNote) -> str:
    """Return why a note should be looked at, "" where it need not be."""
    if note.end_s - note.start_s < _SHORT_S:
        return "it is very short"
    if note.cents is not None and abs(note.cents) > 42:
        return "it lies between two pitches"
    if note.doubt > UNSURE:
        return "its beginning or its pitch is hard to hear"
    return ""


def comparison(path: Path, done: Transcribed, font: Path | None = None) -> NDArray[np.float32]:
    """Return the recording on the left, and on the right what was heard of it, synthesised at its own times.

    Args:
        path: the recording.
        done: what came of it.
        font: a SoundFont of the author's own, None for the best one there.

    Raises:
        SoundError: if nothing that sounds can be made, or the recording cannot be read.
    """
    from shedbook.sound.audio.levelling import levelled  # noqa: PLC0415 - loaded only where it is needed
    from shedbook.sound.audio.soundfile_door import read_recording  # noqa: PLC0415
    from shedbook.sound.audio.synthesiser import synth_for  # noqa: PLC0415

    own = levelled(read_recording(path)).samples.mean(axis=1)
    copy = levelled(synth_for(font).render(_plain_midi(done.notes), len(own))).samples.mean(axis=1)
    return np.stack([own, copy], axis=1).astype(np.float32)


def _plain_midi(notes: Sequence[PlayedNote]) -> bytes:
    """Return notes as a MIDI file that every synthesiser plays: a thousand ticks a second, on a clarinet."""
    from mido import MetaMessage, MidiFile  # noqa: PLC0415 - loaded only where it is needed
    from mido.messages import Message  # noqa: PLC0415

    content = bytearray(midi_of(notes))
    content[_DIVISION_AT] = _TICKS_A_SECOND.to_bytes(2, "big")
    file = MidiFile(file=BytesIO(bytes(content)))
    file.tracks[0].insert(0, MetaMessage("set_tempo", tempo=1_000_000, time=0))
    file.tracks[0].insert(1, Message("program_change", program=71, time=0))
    out = BytesIO()
    file.save(file=out)
    return out.getvalue()
