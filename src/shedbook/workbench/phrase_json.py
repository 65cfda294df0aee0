"""A phrase that was looked at, as the page reads it: plain values for JSON, with the words for each note."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from shedbook.analysis.account import Account
from shedbook.analysis.account_json import account_json, finding_json
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.naming.spoken_names import pitch_words
from shedbook.book.verbs.listen import Timeline
from shedbook.book.verbs.look import Looked
from shedbook.engrave.drawing.picture import Drawing
from shedbook.theory.metre import beat_words
from shedbook.workbench.note_words import note_words

Json = dict[str, Any]
_GROUP = re.compile(r"<g\b|</g>")
_BOX = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')


def drawing_json(drawing: Drawing) -> Json:
    """Return a score: its glyphs and its systems as SVG, its edges and cuts, and where bars and notes stand.

    All numbers are user units of the picture but `mm`, its width and height in millimetres.
    """
    box = _BOX.search(drawing.svg)
    assert box is not None
    left, top, width, height = (float(number) for number in box.groups())
    unit = drawing.width_mm / width
    head, _, body = drawing.svg.partition("</defs>")
    return {
        "defs": head[head.index("<defs>") :] + "</defs>",
        "systems": _groups(body),
        "cuts": [round(top + cut / unit) for cut in drawing.cuts_mm],
        "mm": [round(drawing.width_mm, 2), round(drawing.height_mm, 2)],
        "box": [left, top, width, height],
        "lines": [
            {"first": line.first_bar, "edges": line.edges, "top": line.top, "notes": dict(line.notes)}
            for line in drawing.lines
        ],
    }


def _groups(body: str) -> list[str]:
    """Return the outermost groups of a picture, which are its systems."""
    found, depth, start = [], 0, 0
    for mark in _GROUP.finditer(body):
        if mark.group() == "</g>":
            depth -= 1
            if not depth:
                found.append(body[start : mark.end()])
        else:
            if not depth:
                start = mark.start()
            depth += 1
    return found


def looked_json(looked: Looked) -> Json:
    """Return all that is shown of a phrase while it is written."""
    phrase, account = looked.phrase, looked.account
    whole = account_json(account, [one.finding for one in looked.findings], [])
    kept = ("notes", "figures", "landings", "links", "coverage", "progressions")
    return {
        **{name: whole[name] for name in kept},
        "level": account.difficulty.level,
        "key": str(phrase.key),
        "key_inferred": phrase.key_inferred,
        "score": drawing_json(looked.drawing),
        "said": [note_words(account, index, looked.tensions[index]) for index in range(len(account.notes))],
        "names": [pitch_words(note.pitch) for note in account.notes],
        "midi": [note.midi for note in account.notes],
        "starts": [float(note.start) for note in account.notes],
        "targets": [note.target for note in account.notes],
        "spans": looked.spans,
        "tensions": looked.tensions,
        "spelling": looked.names,
        "inside": looked.inside,
        "changes": [
            {"bar": one.bar, "beat": float(one.beat), "chord": one.chord.text, "at": beat_words(one.beat)}
            for one in phrase.changes
        ],
        "tempo": phrase.tempo_bpm,
        "feel": phrase.feel,
        "metre": [phrase.metre.beats, phrase.metre.unit],
        "bars": phrase.full_bars,
        "pickup": phrase.bars[0].number == 0,
        "over": [_change_of(looked, index) for index in range(len(account.notes))],
        "spansOver": [_start(looked, account.spans[one.spans[0]]) for one in account.coverage],
        "scales": _scales(account),
        "sentences": [one._asdict() for one in looked.sentences],
        "findings": [
            {
                **finding_json(one.finding),
                "at": "" if one.finding.beat is None else beat_words(one.finding.beat),
                "note": one.finding.note,
                "mends": dict(one.mends),
            }
            for one in looked.findings
        ],
    }


def _change_of(looked: Looked, index: int) -> int:
    note = looked.account.notes[index]
    return looked.phrase.change_index_at(note.arrival)


def _start(looked: Looked, span: Span) -> Json:
    """Return the bar and beat where a span begins, both from 1."""
    metre = looked.phrase.metre
    bar, rest = divmod(max(span.start, Fraction(0)), metre.bar_quarters)
    return {"bar": int(bar) + 1, "beat": float(rest / metre.beat_quarters) + 1}


def _scales(account: Account) -> list[Json]:
    """Return for each change its scale and the ranked list, each with what it leaves outside."""
    found = []
    for place, (change, fit) in enumerate(zip(account.phrase.changes, account.fits, strict=True)):
        root = change.chord.root
        found.append(
            {
                "change": place,
                "chord": change.chord.text,
                "scale": "" if fit.scale is None else fit.scale.name,
                "stated": fit.stated,
                "candidates": [
                    {
                        "name": one.scale.name if one.scale.root == root else str(one.scale),
                        "notes": [str(name) for name in one.scale.notes],
                        "reason": one.reason,
                        "outside": list(one.outside),
                    }
                    for one in fit.candidates
                ],
            }
        )
    return found


def timeline_json(line: Timeline) -> Json:
    """Return when notes and bars sound, in seconds."""
    return {
        "notes": [[one.note, one.start_s, one.end_s, one.midi, one.velocity] for one in line.notes],
        "bars": line.bars_s,
        "seconds": line.seconds,
    }
