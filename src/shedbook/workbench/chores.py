"""What a worker does: each chore is a function of plain values that gives plain values."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from shedbook.book.ground.words import language_of_words
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.engraving import Reading, read_card
from shedbook.book.scores.inputs import card_input
from shedbook.book.verbs.listen import WITH_BAND, listen, palette, timeline
from shedbook.book.verbs.look import in_all_keys, look, read_fields, small_score, with_scale
from shedbook.book.verbs.played_in import PlayedKey, played_line
from shedbook.book.verbs.propose import Proposals, Wishes, new_lines, variants
from shedbook.engrave.drawing.kept_systems import KeptSystems
from shedbook.errors import ShedbookError
from shedbook.workbench.phrase_json import drawing_json, looked_json, timeline_json
from shedbook.workbench.plain_json import error_json, fields_json

Json = dict[str, Any]
_SIZE = re.compile(r'width="[\d.]+mm" height="[\d.]+mm" ')


def look_at(fields: Mapping[str, Any], settings: Settings, width_mm: float) -> Json:
    """Return all that is shown of a phrase, and in which language findings are said; or the error."""
    try:
        looked = looked_json(look(fields, settings, width_mm=width_mm, kept=_kept_systems()))
    except ShedbookError as error:
        return {"error": error_json(error)}
    return {**looked, "language": language_of_words(settings.language)}


@cache
def _kept_systems() -> KeptSystems:
    """Return what this worker has drawn of scores that are being written."""
    return KeptSystems()


def rows(phrases: Sequence[Mapping[str, Any]], settings: Settings) -> list[Json]:
    """Return for each phrase a small score and what a list says of it."""
    found: list[Json] = []
    for fields in phrases:
        try:
            drawing = small_score(fields, settings)
            text = PhraseText({"title": " ", **settings.defaults.fields, **fields})
            card = read_card(card_input(text, settings), Reading())
        except ShedbookError as error:
            found.append({"error": error_json(error)})
            continue
        found.append(
            {
                "score": drawing_json(drawing),
                "key": card.home,
                "progression": card.progression,
                "progressions": card.progressions,
                "scales": card.scale_names,
                "level": card.level,
                "findings": [finding.severity for finding in card.findings],
                "outline": [int(step) for step in card.outline.split()],
            }
        )
    return found


def outlines(phrases: Sequence[Mapping[str, Any]], settings: Settings) -> list[Json | None]:
    """Return for each phrase what it is searched by; None for one that cannot be read."""
    found: list[Json | None] = []
    for fields in phrases:
        try:
            text = PhraseText({"title": " ", **settings.defaults.fields, **fields})
            card = read_card(card_input(text, settings), Reading())
        except ShedbookError:
            found.append(None)
            continue
        outline = [int(step) for step in card.outline.split()]
        found.append(
            {"outline": outline, "progressions": list(card.progressions), "scales": list(card.scale_names)}
        )
    return found


def keys(
    fields: Mapping[str, Any], settings: Settings, edition: str, tonic: str, width_mm: float
) -> list[Json]:
    """Return a phrase in every key for an edition, or in one."""
    (reader, *_) = chosen_editions((edition,), settings)
    drawn = in_all_keys(fields, settings, reader, tonic=tonic, width_mm=width_mm)
    return [{"name": one.name, "score": drawing_json(one.drawing)} for one in drawn]


def scales(fields: Mapping[str, Any], settings: Settings, change: int, name: str) -> Json:
    """Return the text of a phrase's scales with a scale named over a change."""
    return {"scales": with_scale(fields, read_fields(fields, settings), change, name)}


def times(fields: Mapping[str, Any], settings: Settings, tempo: int | None) -> Json:
    """Return when the line alone sounds."""
    return timeline_json(timeline(read_fields(fields, settings), settings, tempo_bpm=tempo))


def hear(
    fields: Mapping[str, Any], settings: Settings, root: str, tempo: int | None, loop: bool
) -> tuple[bytes, Json]:
    """Return a phrase with the band as a WAV file, and when everything sounds in it."""
    phrase = read_fields(fields, settings)
    heard = listen(phrase, settings, Path(root), tempo_bpm=tempo, loop=loop, parts=WITH_BAND)
    return heard.wav, {**timeline_json(heard.timeline), "played_with": heard.played_with}


def notes(settings: Settings, root: str) -> tuple[bytes, Json]:
    """Return single notes of the line's instrument as a WAV file, and where each begins."""
    found = palette(settings, Path(root))
    return found.wav, {"starts": found.starts_s, "each": found.each_s, "played_with": found.played_with}


def played(
    events: Sequence[Sequence[float]], fields: Mapping[str, Any], settings: Settings, tempo: int
) -> Json:
    """Return the line that was played in against a click; a note is its key, velocity, start and end in s."""
    struck = [PlayedKey(int(one[0]), int(one[1]), one[2], one[3]) for one in events]
    line = played_line(struck, {**settings.defaults.fields, **fields}, tempo_bpm=tempo)
    return {"line": line}


def proposals(fields: Mapping[str, Any], settings: Settings, root: str, wishes: Mapping[str, Any]) -> Json:
    """Return new lines over a phrase's changes, each with a small score."""
    return _proposed(new_lines(fields, settings, Path(root), Wishes(**wishes)), fields, settings)


def variations(fields: Mapping[str, Any], settings: Settings, onto: str) -> Json:
    """Return variants of a phrase, each with a small score."""
    return _proposed(variants(fields, settings, onto), fields, settings)


def listen_to(recording: str, root: str, number: int) -> Json:
    """Return what was heard of a recording that was meant to be a phrase of the book."""
    from shedbook.book.verbs.recorded import recorded  # noqa: PLC0415 - only where a recording is there
    from shedbook.workbench.recording_json import recorded_json  # noqa: PLC0415

    return recorded_json(recorded(Path(root), number, Path(recording)), number)


def keep(recording: str, root: str, number: int, take: int, replace: bool) -> Json:
    """File a take; where the book has a recording of it that may not be replaced, return which instead."""
    from shedbook.book.verbs.recorded import keep_one, recorded, take_there  # noqa: PLC0415 - as above

    found = recorded(Path(root), number, Path(recording))
    there = take_there(found, take)
    if there and not replace:
        return {"there": there}
    return {
        "kept": keep_one(found, take, replace_it=replace).path.relative_to(Path(root).resolve()).as_posix()
    }


def write_down(recording: str, fields: Mapping[str, Any], settings: Settings, tempo: int) -> Json:
    """Return what was played as drafts, each with a small score."""
    from shedbook.book.verbs.recorded import written_down  # noqa: PLC0415 - as above

    return _proposed(written_down(Path(recording), fields, settings, tempo), fields, settings)


def heard_notes(recording: str) -> Json:
    """Return the notes of a recording, and which of them should be looked at."""
    from shedbook.book.verbs.recorded import notes_of  # noqa: PLC0415 - as above

    return {"notes": [one._asdict() for one in notes_of(Path(recording))]}


def _proposed(found: Proposals, fields: Mapping[str, Any], settings: Settings) -> Json:
    kept = {name: value for name, value in fields.items() if name in ("key", "tempo", "feel")}
    return {
        "instead": found.instead,
        "found": [
            {
                "title": one.title,
                "said": one.said,
                "level": one.level,
                "fields": fields_json(one.fields),
                "score": drawing_json(small_score({**kept, **one.fields}, settings)),
            }
            for one in found.found
        ],
    }


_ALL = (
    look_at,
    rows,
    outlines,
    keys,
    scales,
    times,
    hear,
    notes,
    played,
    proposals,
    variations,
    listen_to,
    keep,
    write_down,
    heard_notes,
)
CHORES: Mapping[str, Callable[..., Any]] = MappingProxyType({one.__name__: one for one in _ALL})
