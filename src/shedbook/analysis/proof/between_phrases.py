"""The proof-reader between the phrases of a book: the same phrase twice, or the same line shifted."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.proof.finding import RULE, Finding


def proof_book(accounts: Sequence[Account], *, silenced: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return the findings between the phrases of a book; each names two phrases by their place."""
    found: list[Finding] = []
    whole: dict[object, int] = {}
    lines: dict[object, int] = {}
    for place, account in enumerate(accounts):
        quiet = {*silenced, *(rule for rule, _ in account.phrase.silence)}
        if not account.notes:
            continue
        line = _line_shape(account)
        everything = (line, account.notes[0].start, _harmony_shape(account))
        twin, relative = whole.setdefault(everything, place), lines.setdefault(line, place)
        if twin != place:
            found += _twins("duplicate-phrase", accounts, place, twin, quiet)
        elif relative != place:
            found += _twins("shifted-phrase", accounts, place, relative, quiet)
    return tuple(found)


def _twins(
    rule: str, accounts: Sequence[Account], place: int, other: int, quiet: Collection[str]
) -> list[Finding]:
    if rule in quiet:
        return []
    row = RULE[rule]
    title = accounts[other].phrase.title
    kind = "is the same phrase as" if rule == "duplicate-phrase" else "has the same line as"
    message = f'This {kind} "{title}" (number {other + 1})'
    if rule == "duplicate-phrase":
        same_key = accounts[other].notes[0].midi % 12 == accounts[place].notes[0].midi % 12
        message += "." if same_key else ", in another key."
    else:
        message += ", over other chords or from another beat."
    return [Finding(rule, row.severity, None, None, message, row.mend, None, place, other)]


def _line_shape(account: Account) -> tuple[tuple[int, Fraction, Fraction], ...]:
    """The line with neither its key nor the beat it starts from."""
    first = account.notes[0]
    return tuple((note.midi - first.midi, note.start - first.start, note.quarters) for note in account.notes)


def _harmony_shape(account: Account) -> tuple[tuple[object, ...], ...]:
    """The changes relative to the first note of the line, and where they stand."""
    first = account.notes[0].midi
    return tuple(
        (
            span.start,
            None if span.chord.root is None else (span.chord.root.pitch_class - first) % 12,
            span.chord.family,
            span.chord.degrees,
        )
        for span in account.spans
    )
