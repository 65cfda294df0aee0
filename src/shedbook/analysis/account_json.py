"""The account as plain values for JSON, which is the form that other programs read.

The names of the keys and of their values stand in the schema in the docs; nothing here is an opinion.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from shedbook.analysis.account import Account
from shedbook.analysis.account.contour import Contour
from shedbook.analysis.account.coverage import Coverage
from shedbook.analysis.account.difficulty import Difficulty
from shedbook.analysis.account.figures import Figure
from shedbook.analysis.account.landings import Landing
from shedbook.analysis.account.melodic_links import Link
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.proof import Finding
from shedbook.theory.progression import Progression

Json = dict[str, object]


def account_json(account: Account, findings: Sequence[Finding], explanation: Sequence[str]) -> Json:
    """Return the object that stands for one phrase in the document of `docs/account.schema.json`.

    `findings` are the proof-reader's and `explanation` the sentences of the same phrase. Every value is text,
    a whole number, true, false, null, a list or another such object; exact fractions are text: "3/2".
    """
    beat = account.phrase.metre.beat_quarters
    return {
        "title": account.phrase.title,
        "key": str(account.harmony.key),
        "notes": [note_json(note, beat) for note in account.notes],
        "figures": [figure_json(figure) for figure in account.figures],
        "landings": [_landing(account, landing) for landing in account.landings],
        "links": [_link(account, link) for link in account.links],
        "coverage": [_coverage(account, entry) for entry in account.coverage],
        "coverage_of_phrase": [_coverage(account, entry) for entry in account.whole_coverage],
        "contour": _contour(account.contour),
        "difficulty": _difficulty(account.difficulty),
        "progressions": [_progression(one) for one in account.harmony.progressions],
        "scales": _scales(account),
        "findings": [finding_json(finding) for finding in findings],
        "explanation": list(explanation),
    }


def note_json(note: NoteAccount, beat_quarters: Fraction) -> Json:
    """Return the object of one note.

    `beat_quarters` is the length of the metre's beat in quarters: beats and lengths are counted in it, and
    written as exact fractions.
    """
    rival = note.rival
    return {
        "bar": note.bar,
        "beat": str(note.beat),
        "duration": str(note.quarters / beat_quarters),
        "pitch": str(note.pitch),
        "written": str(note.written),
        "chord": note.span.chord.text,
        "scale": note.span.scale_name,
        "degree": note.degree,
        "membership": note.membership,
        "role": note.role,
        "detail": note.detail,
        "target": note.target,
        "landing": note.landing,
        "runner_up": None
        if rival is None
        else {
            "role": rival.role,
            "detail": rival.detail,
            "target": rival.target,
            "margin": rival.margin,
        },
    }


def figure_json(figure: Figure) -> Json:
    """Return the object of one figure; its places are indices of notes."""
    return {"kind": figure.kind, "first": figure.first, "last": figure.last, "target": figure.target}


def finding_json(finding: Finding) -> Json:
    """Return the object of one finding; `beat` is an exact fraction, or null where no beat is meant."""
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "bar": finding.bar,
        "beat": None if finding.beat is None else str(finding.beat),
        "message": finding.message,
        "mend": finding.mend,
    }


def _landing(account: Account, landing: Landing) -> Json:
    note, span = account.notes[landing.note], account.spans[landing.span]
    return {
        "note": landing.note,
        "bar": landing.bar,
        "beat": str(landing.beat),
        "chord": span.chord.text,
        "degree": span.degrees[note.midi % 12],
        "strong_beat": landing.on_strong_beat,
        "first_over_chord": landing.first_over_chord,
        "strength": landing.strength,
        "excuse": landing.excuse or None,
    }


def _link(account: Account, link: Link) -> Json:
    notes = account.notes
    return {
        "kind": link.kind,
        "bar": link.bar,
        "beat": str(link.beat),
        "from": link.before,
        "to": link.after,
        "from_chord": None if link.before is None else notes[link.before].span.chord.text,
        "to_chord": None if link.after is None else notes[link.after].span.chord.text,
        "semitones": link.semitones,
        "by_step": link.by_step,
        "wrapped": link.wrapped,
        "guide_tone": None if link.guide is None else list(link.guide),
        "held": link.held,
    }


def _coverage(account: Account, entry: Coverage) -> Json:
    span = account.spans[entry.spans[0]]
    return {
        "chord": span.chord.text,
        "scale": span.scale_name,
        "used": list(entry.used),
        "missing": list(entry.missing),
    }


def _contour(shape: Contour) -> Json:
    run = shape.longest_run
    return {
        "turns": shape.turns,
        "leaps": [
            {"first": leap.first, "semitones": leap.semitones, "recovered": leap.recovered}
            for leap in shape.leaps
        ],
        "range": shape.range,
        "highest": shape.highest,
        "lowest": shape.lowest,
        "longest_run": None if run is None else {"first": run[0], "last": run[1]},
        "sequences": [figure_json(figure) for figure in shape.sequences],
        "scale_share": str(shape.scale_share),
        "arpeggio_share": str(shape.arpeggio_share),
        "chromatic_share": str(shape.chromatic_share),
        "prime": list(shape.prime),
        "depth": shape.depth,
    }


def _difficulty(hard: Difficulty) -> Json:
    return {
        "level": hard.level,
        "range": hard.range,
        "leaps": hard.leaps,
        "widest_leap": hard.widest_leap,
        "chromatic_density": str(hard.chromatic_density),
        "notes_a_second": str(hard.fastest_rate),
        "steady_notes_a_second": str(hard.steady_rate),
        "chords_a_second": str(hard.chord_rate),
        "scale_grade": hard.scale_grade,
    }


def _progression(one: Progression) -> Json:
    return {
        "name": one.name,
        "key": str(one.key),
        "first_bar": one.first_bar,
        "last_bar": one.last_bar,
    }


def _scales(account: Account) -> list[Json]:
    """Return how the scale of each change was chosen; neighbouring changes with the same answer are one."""
    pairs = zip(account.phrase.changes, account.fits, strict=True)
    joined = groupby(pairs, key=lambda pair: (pair[0].chord.text, pair[1]))
    return [
        {
            "chord": symbol,
            "scale": "" if fit.scale is None else fit.scale.name,
            "stated": fit.stated,
            "reason": fit.reason,
            "better": None if fit.better is None else str(fit.better),
            "candidates": [
                {"scale": str(one.scale), "reason": one.reason, "outside": list(one.outside)}
                for one in fit.candidates
            ],
        }
        for (symbol, fit), _ in joined
    ]
