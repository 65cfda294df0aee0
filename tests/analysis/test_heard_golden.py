"""How lines of the demo are heard, in one text that a person can read: tests/analysis/golden/heard.txt.

For each line its notes with degree and role, its landings, crossings and figures, how hard it is, all that
could be told of it with what that is worth, what the proof-reader finds, and the likeliest slips with their
odds. UPDATE_GOLDEN=1 writes the text anew; read it before it is kept. Source: our own hearing of invented
lines; what is expected of a role or a remark stands in the tests of each.
"""

from __future__ import annotations

import heapq
import os
import tomllib
from collections.abc import Iterator
from pathlib import Path

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import proof
from shedbook.analysis.proof.slips.suspicions import suspected
from shedbook.analysis.telling import explain
from shedbook.analysis.telling.explanation import offers
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

GOLDEN = Path(__file__).parent / "golden" / "heard.txt"
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
        yield f"  figure {figure.kind} {figure.first}-{figure.last} {figure.target}"
    hard = found.difficulty
    rates = f"{float(hard.steady_rate):.2f} notes and {float(hard.chord_rate):.2f} chords a second"
    yield f"  level {hard.level}, {rates}"
    for remark in sorted(offers(found), key=lambda one: (-one.worth, one.first, one.kind)):
        about = " ".join(map(str, sorted(remark.about)))
        yield f"  worth {remark.worth} {remark.kind} at {remark.first}, of {about or 'all'}"
    for finding in proof(found):
        yield f"  finding {finding.rule} {finding.severity} {finding.bar}:{finding.beat}"
    for slip in heapq.nlargest(LIKELIEST, suspected(found), key=lambda one: (one.log_odds, one)):
        yield f"  slip {slip.kind} {slip.first}-{slip.last} {slip.shift}: {slip.log_odds}"
    for sentence in explain(found):
        yield f"  {sentence}"
    yield ""


def test_how_the_demo_is_heard() -> None:
    found = "\n".join(row for phrase in lines() for row in heard(account(phrase)))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
