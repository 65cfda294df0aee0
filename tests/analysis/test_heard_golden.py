"""How lines are heard, in two texts that a person can read: tests/analysis/golden/heard.txt and devices.txt.

The first has lines of the demo. For each its notes with degree and role, the scales that its notes ask for,
its landings, crossings and figures, its shape, how hard it is, all that could be told of it with what that is
worth, what the proof-reader finds, and the likeliest slips with their odds. The second has our own lines at
the borders of figures and devices (`device_lines`), with what is told of them and of which notes. Whoever
changes a rule on purpose writes the texts anew with UPDATE_GOLDEN=1, and reads them before they are kept.
Source: our own hearing of invented lines; what is expected of a role or a remark stands in the tests of each.
"""

from __future__ import annotations

import heapq
import os
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import asdict
from itertools import groupby
from pathlib import Path

from analysis.device_lines import LINES
from analysis.helpers import read
from shedbook.analysis.account import Account, account
from shedbook.analysis.devices.everything import devices
from shedbook.analysis.devices.skeleton import skeleton
from shedbook.analysis.proof import proof
from shedbook.analysis.proof.slips.suspicions import suspected
from shedbook.analysis.telling import explain, notes_of_sentences
from shedbook.analysis.telling.explanation import offers
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

GOLDEN = Path(__file__).parent / "golden" / "heard.txt"
DEVICES = GOLDEN.with_name("devices.txt")
DEMO = Path(__file__).parents[2] / "examples" / "tidewater" / "phrases"
EVERY = 3
LIKELIEST = 6


def lines() -> list[Phrase]:
    found = []
    for path in sorted(DEMO.glob("*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        found += [phrase_from_fields(fields) for fields in table.get("phrase", [table])]
    return found[::EVERY]


def heard(found: Account) -> Iterator[str]:
    yield f"# {found.phrase.title}, {found.harmony.key}"
    for note in found.notes:
        target = "" if note.target is None else f" > {note.target}"
        other = note.rival
        rival = "" if other is None else f"  (or {other.role} {other.detail}: {other.margin})"
        what = f"{note.role} {note.detail}".strip()
        yield f"  {note.index:2} {note.bar}:{note.beat} {note.written} {note.degree} {what}{target}{rival}"
    yield from scales(found)
    yield from laid_out(found)
    yield from offered(found)
    for finding in proof(found):
        yield f"  finding {finding.rule} {finding.severity} {finding.bar}:{finding.beat}"
    for slip in heapq.nlargest(LIKELIEST, suspected(found), key=lambda one: (one.log_odds, one)):
        yield f"  slip {slip.kind} {slip.first}-{slip.last} {slip.shift}: {slip.log_odds}"
    for sentence in explain(found):
        yield f"  {sentence}"
    yield ""


def scales(found: Account) -> Iterator[str]:
    """Each change with the scales that its notes ask for, the best three, and the points against each."""
    for change, fit in zip(found.phrase.changes, found.fits, strict=True):
        points = [f"{one.scale} {one.points}" for one in fit.candidates[:3]]
        outside = f", outside {' '.join(map(str, fit.outside))}" if fit.outside else ""
        yield f"  scale over {change.chord.text}: {fit.scale}{outside} ({', '.join(points)})"


def laid_out(found: Account) -> Iterator[str]:
    """The landings, crossings and figures of a line, its shape, and how hard it is."""
    for landing in found.landings:
        place = "strong" * landing.on_strong_beat + " first" * landing.first_over_chord
        yield f"  landing {landing.note} {place.strip()} {landing.strength} {landing.excuse}".rstrip()
    for link in found.links:
        says = [f"{link.semitones}", "step" * link.by_step, "wrapped" * link.wrapped]
        says += [f"{'-'.join(link.guide)} from {link.guide_note}"] if link.guide else []
        says += [f"held {link.held}"] if link.held is not None else []
        said = " ".join(filter(None, says))
        yield f"  {link.kind} {link.bar}:{link.beat} {link.before} {link.after} {said}"
    for figure in found.figures:
        cell = f" cell {figure.cell}" if figure.cell else ""
        way = ("", " up", " down")[figure.direction]
        yield f"  figure {figure.kind} {figure.first}-{figure.last} {figure.target}{cell}{way}"
    shape = found.contour
    leaps = " ".join(f"{one.first}:{one.semitones}{'*' * one.recovered}" for one in shape.leaps)
    yield f"  shape {shape.turns} turns, range {shape.range}, top {shape.highest}, bottom {shape.lowest}"
    prime = " ".join(map(str, shape.prime))
    yield f"  prime {prime}, depth {shape.depth}, run {shape.longest_run}, leaps {leaps}"
    chord, half = shape.arpeggio_share, shape.chromatic_share
    yield f"  moves {shape.scale_share} scale, {chord} chord, {half} half steps"
    for entry in found.whole_coverage:
        yield f"  uses {' '.join(entry.used)} of {' '.join((*entry.used, *entry.missing))}"
    hard = found.difficulty
    rates = f"{float(hard.steady_rate):.2f} notes and {float(hard.chord_rate):.2f} chords a second"
    yield f"  level {hard.level}, {rates}, scales {hard.scale_grade}"


def offered(found: Account) -> Iterator[str]:
    """All that could be told of a line, with what that is worth."""
    for remark in sorted(offers(found), key=lambda one: (-one.worth, one.first, one.kind)):
        about = " ".join(map(str, sorted(remark.about)))
        leads = ", leads" * remark.leads
        yield f"  worth {remark.worth} {remark.kind} at {remark.first}, of {about or 'all'}{leads}"


def devices_of(found: Account) -> Iterator[str]:
    """A line at the border of a device: its notes, how it is laid out, and what could be told of it."""
    yield f"# {found.phrase.title}: {' | '.join(span.chord.text for span in found.spans)}"
    yield "  " + " ".join(f"{note.written}={note.degree or '-'}" for note in found.notes)
    yield from _together(laid_out(found))
    for name, value in asdict(devices(found)).items():
        for one in value if value and isinstance(value[0], dict) else [value]:
            if one:
                fields = one.items() if isinstance(one, dict) else [("notes", one)]
                said = ", ".join(f"{field} {_plain(value)}" for field, value in fields)
                yield f"  {name.replace('_', ' ')}: {said}"
    bones = skeleton(found)
    if bones:
        yield f"  skeleton {_plain(bones)}"
    yield from _together(offered(found))
    for sentence, shown in zip(explain(found), notes_of_sentences(found), strict=True):
        yield f"  | {sentence} [{_plain(shown)}]"
    yield ""


def _together(rows: Iterable[str]) -> Iterator[str]:
    """Yield rows that begin with the same word as one row."""
    for word, group in groupby(rows, key=lambda row: row.split()[0]):
        yield f"  {word} " + "; ".join(row.strip().removeprefix(word).strip() for row in group)


def _plain(value: object) -> str:
    return " ".join(map(_plain, value)) if isinstance(value, tuple) else str(value)


def compared(golden: Path, rows: Iterable[str]) -> None:
    found = "\n".join(rows)
    if os.environ.get("UPDATE_GOLDEN"):
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(found, encoding="utf-8")
    assert found == golden.read_text(encoding="utf-8")


def test_how_the_demo_is_heard() -> None:
    compared(GOLDEN, (row for one in lines() for row in heard(account(one))))


def test_what_is_seen_at_the_borders_of_devices() -> None:
    found = (read(changes, line, scales, title=title, tempo=160) for title, changes, scales, line in LINES)
    compared(DEVICES, (row for one in found for row in devices_of(one)))
