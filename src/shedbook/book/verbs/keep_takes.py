"""The takes to keep, cut out, brought to their loudness and filed where the book expects recordings.

Beside each lies the JSON that says when each of its notes sounds. Nothing is written over unless asked.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from shedbook.book.ground.toml_edits import written_value
from shedbook.book.ground.toml_files import inside, read_text, read_toml
from shedbook.book.ground.writing import write_whole
from shedbook.book.manuscript.file_names import MEDIA, offsets_beside, recording_name
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, Manuscript
from shedbook.book.manuscript.settings.tracks import TRACKS, Recording
from shedbook.book.tracks.orders import is_called
from shedbook.book.verbs.takes import Take, TakesFound, same_tempo
from shedbook.errors import ManuscriptError, OutputError
from shedbook.sound.audio.file_tags import Tags, tagged
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.soundfile_door import encode, recording_part
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.theory.metre import beat_words
from shedbook.theory.pitch import NoteName

_LEAD_S, _TAIL_S = 0.5, 1.2
_BETWEEN_S = 0.15
_FADE_IN_S, _FADE_OUT_S = 0.01, 0.3
_OWN_RECORDING = "the author's own recording"


@dataclass(frozen=True, slots=True)
class KeepOrder:
    """How takes are kept: the ending of the files, and whether a recording that is there may be replaced."""

    ending: str = ".wav"
    replace: bool = False


class KeptFile(NamedTuple):
    """A take that was filed: its file, the file of its offsets, and the seconds that were cut out."""

    take: Take
    path: Path
    offsets: Path
    start_s: float
    end_s: float


def keep_takes(found: TakesFound, order: KeepOrder) -> tuple[KeptFile, ...]:
    """File the takes to keep: sound, offsets, and their places in manuscript.toml.

    Raises:
        OutputError: if one is there already and may not be replaced, or cannot be written; nothing is then.
        ManuscriptError: if manuscript.toml has no room for more recordings as it is written.
    """
    chosen = [take for take in found.takes if take.kept]
    if not chosen:
        return ()
    row = format_of(order.ending)
    manuscript = found.manuscript
    files = [_file_of(take, manuscript, order) for take in chosen]
    text = read_text(manuscript.root / MANUSCRIPT_FILE, MANUSCRIPT_FILE)
    longer = text + "".join(
        _entry(take, file, manuscript)
        for take, file in zip(chosen, files, strict=True)
        if recording_of(take, manuscript) is None
    )
    _check(longer, len(chosen))
    written = []
    for take, file in zip(chosen, files, strict=True):
        path = inside(manuscript.root, file, MANUSCRIPT_FILE, hint=f"Recordings lie in {MEDIA}.")
        start, end = _span(take, found.takes)
        content = tagged(
            encode(levelled(_cut(take.recording, start, end)).samples, row), row, _tags(take, manuscript)
        )
        offsets = offsets_beside(path)
        write_whole(path, content)
        write_whole(offsets, offsets_json(take, path.name, start).encode())
        written.append(KeptFile(take, path, offsets, start, end))
    if longer != text:
        write_whole(manuscript.root / MANUSCRIPT_FILE, longer.encode())
    return tuple(written)


def offsets_json(take: Take, recording: str, start_s: float = 0.0) -> str:
    """Return when each note of a take sounds, as the score video reads it.

    Args:
        take: the take.
        recording: the name of the file.
        start_s: the second of the whole recording at which that file begins.
    """
    notes = []
    for note, played in zip(take.line.notes, take.reading.played, strict=True):
        at = None if played is None else round(played.start_s - start_s, 4)
        notes.append({"bar": note.bar, "beat": beat_words(note.beat), "at_s": at})
    whole = {
        "recording": recording,
        "phrase": str(take.source.fields.get("id") or take.source.number),
        "key": str(take.key.tonic),
        "notes": notes,
    }
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _file_of(take: Take, manuscript: Manuscript, order: KeepOrder) -> str:
    """Return where a take is filed, from the manuscript's folder."""
    there = recording_of(take, manuscript)
    if there is not None:
        if not order.replace:
            raise OutputError(
                f"Phrase {take.source.number} in {take.key} has its recording already: {there.file}.",
                hint="Say --replace to put the new one in its place.",
            )
        return str(Path(there.file).with_suffix(order.ending)) if _same(there.file, order) else there.file
    name = recording_name(take.source.number, take.source.title, str(take.key), _tempo(take), order.ending)
    if (manuscript.root / name).exists() and not order.replace:
        raise OutputError(
            f"{name} is there already, though manuscript.toml does not name it.",
            hint="Move it away, or say --replace.",
        )
    return name


def _same(file: str, order: KeepOrder) -> bool:
    return Path(file).suffix.lower() == order.ending


def recording_of(take: Take, manuscript: Manuscript) -> Recording | None:
    """Return the recording that the book has of this phrase in this key at this tempo.

    A take at no tempo that was asked for is at that of the nearest recording, where that is near enough.
    """
    found = []
    for one in manuscript.settings.tracks.recordings:
        tonic = NoteName.parse(one.tonic) if one.tonic else take.home.tonic
        if is_called(take.source, one.phrase) and tonic.pitch_class == take.key.tonic.pitch_class:
            found.append((abs((one.tempo_bpm or take.line.tempo_bpm) - take.filed_bpm), one))
    away, nearest = min(found, key=lambda row: row[0], default=(0, None))
    is_it = not away or (
        take.filed_bpm != take.meant_bpm and same_tempo(take.filed_bpm + away, take.filed_bpm)
    )
    return nearest if is_it else None


def _tempo(take: Take) -> int:
    """Return the tempo that a take is filed under; 0 for the phrase's own."""
    return 0 if take.filed_bpm == take.line.tempo_bpm else take.filed_bpm


def _entry(take: Take, file: str, manuscript: Manuscript) -> str:
    """Return the table of a recording as manuscript.toml has it."""
    name = str(take.source.fields.get("id") or take.source.title)
    if sum(is_called(source, name) for source in manuscript.phrases) != 1:
        name = str(take.source.number)
    lines = [f"\n[[{TRACKS}.recordings]]", f"phrase = {written_value(name)}"]
    if take.reading.moved % 12:
        lines.append(f"key = {written_value(str(take.key.tonic))}")
    if _tempo(take):
        lines.append(f"tempo = {_tempo(take)}")
    lines.append(f"file = {written_value(file)}")
    return "\n".join(lines) + "\n"


def _check(text: str, many: int) -> None:
    """See that manuscript.toml can still be read."""
    try:
        fields: dict[str, Any] = read_toml(text, MANUSCRIPT_FILE)
    except ManuscriptError:
        raise ManuscriptError(
            f"{MANUSCRIPT_FILE} has its recordings in a list of its own form, to which none can be added.",
            hint=f"Write each recording as a table of its own, begun with [[{TRACKS}.recordings]].",
        ) from None
    if len(fields.get(TRACKS, {}).get("recordings", ())) == 0 and many:
        raise ManuscriptError(
            f"{MANUSCRIPT_FILE} cannot take recordings.", hint=f"Is there a table [{TRACKS}]?"
        )


def _span(take: Take, every: Sequence[Take]) -> tuple[float, float]:
    """Return what of its recording is kept: no note of the takes around it, no slate."""
    own = [one.reading for one in every if one.recording == take.recording and one.number != take.number]
    before = max([one.end_s + _BETWEEN_S for one in own if one.end_s <= take.reading.start_s], default=0.0)
    after = min(
        [one.start_s - _BETWEEN_S for one in own if one.start_s >= take.reading.end_s], default=float("inf")
    )
    before, after = max(before, take.reading.since_s), min(after, take.reading.until_s)
    start = min(take.reading.start_s, max(before, take.reading.start_s - _LEAD_S))
    return max(0.0, start), max(take.reading.end_s, min(after, take.reading.end_s + _TAIL_S))


def _cut(path: Path, start_s: float, end_s: float) -> NDArray[np.float32]:
    """Return a part of a recording, faded in and out."""
    samples = recording_part(path, start_s, end_s).copy()
    for seconds, side in ((_FADE_IN_S, 1), (_FADE_OUT_S, -1)):
        frames = min(len(samples), round(seconds * RATE_HZ))
        ramp = np.linspace(0, 1, frames, dtype=np.float32)[:, None]
        if side > 0:
            samples[:frames] *= ramp
        elif frames:
            samples[-frames:] *= ramp[::-1]
    return samples


def _tags(take: Take, manuscript: Manuscript) -> Tags:
    bpm = _tempo(take) or take.line.tempo_bpm
    return Tags(
        take.source.title,
        manuscript.title,
        manuscript.settings.author,
        bpm=bpm,
        key=take.key,
        sound=_OWN_RECORDING,
    )
