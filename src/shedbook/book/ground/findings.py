"""Findings as the book keeps and lists them: plain values that are cheap to store, to send and to print."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shedbook.errors import BuildError


class PhraseFinding(NamedTuple):
    """A finding of one phrase; `beat` in words ("2½"), "" for the whole bar, `bar` None for the whole phrase.

    One of a single edition names it and the key in which its reader finds the place. `message` and `mend` are
    English, for the command line; `own_message` and `own_mend` are the same in the language of the book, ""
    where that has no other words.
    """

    rule: str
    severity: str
    bar: int | None
    beat: str
    message: str
    mend: str
    edition: str = ""
    key: str = ""
    own_message: str = ""
    own_mend: str = ""


class BookFinding(NamedTuple):
    """A finding with the phrase it belongs to: its number in the book, its title, its file.

    Number 0 is the book itself. The other fields are those of a `PhraseFinding`.
    """

    number: int
    title: str
    file: str
    rule: str
    severity: str
    bar: int | None
    beat: str
    message: str
    mend: str
    edition: str = ""
    key: str = ""
    own_message: str = ""
    own_mend: str = ""


def of_phrase(number: int, title: str, file: str, finding: PhraseFinding) -> BookFinding:
    """Return a finding of a phrase as the book lists it.

    Args:
        number: the phrase's number in the book, from 1.
        title: the phrase's title.
        file: its file, named from the manuscript's folder.
        finding: the finding itself.
    """
    return BookFinding(number, title, file, *finding)


def of_book(file: str, finding: PhraseFinding) -> BookFinding:
    """Return a finding that belongs to no phrase, but to the book itself or to one of its files."""
    return BookFinding(0, "", file, *finding)


def finding_values(finding: BookFinding, *, own: bool = False) -> dict[str, object]:
    """Return a finding as plain values with one message and one mend.

    They are English, or those in the language of the book where these are its `own`.
    """
    values = finding._asdict()
    message, mend = values.pop("own_message"), values.pop("own_mend")
    return {**values, "message": message, "mend": mend} if own and message else values


def finding_line(finding: BookFinding) -> str:
    """Return a finding in one line, as in "3 “Low tide”, bar 2, beat 2½: warning (range): It is high."."""
    place = "".join(
        [
            "" if finding.bar is None else f", bar {finding.bar}",
            f", beat {finding.beat}" if finding.beat else "",
        ]
    )
    if finding.edition:
        place += f", {finding.edition} edition"
    mend = f" {finding.mend}" if finding.mend else ""
    whose = f"{finding.number} “{finding.title}”" if finding.number else finding.file
    return f"{whose}{place}: {finding.severity} ({finding.rule}): {finding.message}{mend}"


def refuse_final(findings: Sequence[BookFinding], *, final: bool) -> None:
    """Stop a final build that has error findings; no PDF has been written then.

    Raises:
        BuildError: with every error finding, if the build is `final`.
    """
    errors = [finding for finding in findings if finding.severity == "error"]
    if final and errors:
        count = "one finding is an error" if len(errors) == 1 else f"{len(errors)} findings are errors"
        raise BuildError(
            f"The final book was not made: {count}.\n" + "\n".join(finding_line(one) for one in errors),
            hint="Mend them, silence them with a reason, or build without --final.",
        )
