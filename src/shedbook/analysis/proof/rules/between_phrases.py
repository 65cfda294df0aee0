"""Rules between the phrases of a book: the same phrase twice, and the same line in another place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import Saying, saying
from shedbook.analysis.proof.finding import Found
from shedbook.analysis.proof.rule import Example, RuleRow, book_rule


@book_rule(
    RuleRow(
        "duplicate-phrase",
        "warning",
        "Two phrases of the book are the same up to transposition.",
        fires=Example(
            "Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4",
            changes_2="Em7 | A7", line_2="1/4 e4 g b d5 | c#5 e5 d5 c#5",
        ),
        silent=Example(
            "Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4",
            changes_2="Em7 | A7", line_2="1/4 e4 g b d5 | c#5 e5 d5 e5",
        ),
        source="the project's design",
    )
)  # fmt: skip
def duplicate_phrase(accounts: Sequence[Account]) -> Iterator[Found]:
    """Find phrases with the line and the changes of an earlier one, in any key."""
    for place, other, whole in _repeats(accounts):
        if whole:
            same_key = accounts[other].notes[0].midi % 12 == accounts[place].notes[0].midi % 12
            row = f"finding.duplicate-phrase.{'alike' if same_key else 'moved'}"
            yield Found(None, None, _of_other(row, accounts, other), phrase=place, other=other)


@book_rule(
    RuleRow(
        "shifted-phrase",
        "advice",
        "Two phrases of the book have the same line, over other chords or from another beat.",
        fires=Example(
            "Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 -",
            changes_2="Dm7 | G7", line_2="1/4 - d4 f a | c5 b4 d5 c5",
        ),
        silent=Example(
            "Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 -",
            changes_2="Dm7 | G7", line_2="1/4 - f4 a d5 | c5 b4 g4 f4",
        ),
        source="the project's design",
    )
)  # fmt: skip
def shifted_phrase(accounts: Sequence[Account]) -> Iterator[Found]:
    """Find phrases with the line of an earlier one, but not its changes or not its beat."""
    for place, other, whole in _repeats(accounts):
        if not whole:
            message = _of_other("finding.shifted-phrase", accounts, other)
            yield Found(None, None, message, phrase=place, other=other)


def _of_other(row: str, accounts: Sequence[Account], place: int) -> Saying:
    return saying(row, title=accounts[place].phrase.title, n=place + 1)


def _repeats(accounts: Sequence[Account]) -> Iterator[tuple[int, int, bool]]:
    """Yield each phrase whose line came before: its place, that of the earlier one, and whether all is alike.

    All is alike when the changes and the beat that the line starts from are the same too.
    """
    whole: dict[object, int] = {}
    lines: dict[object, int] = {}
    for place, account in enumerate(accounts):
        if not account.notes:
            continue
        line = _line_shape(account)
        everything = (line, account.notes[0].start, _harmony_shape(account))
        same, same_line = whole.setdefault(everything, place), lines.setdefault(line, place)
        if same != place:
            yield place, same, True
        elif same_line != place:
            yield place, same_line, False


def _line_shape(account: Account) -> tuple[tuple[int, Fraction, Fraction], ...]:
    """Return the line with neither its key nor the beat it starts from."""
    first = account.notes[0]
    return tuple((note.midi - first.midi, note.start - first.start, note.quarters) for note in account.notes)


def _harmony_shape(account: Account) -> tuple[tuple[object, ...], ...]:
    """Return the changes counted from the first note of the line, and where they stand."""
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
