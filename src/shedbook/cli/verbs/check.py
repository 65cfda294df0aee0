"""`shedbook check DIR` lists what should be mended, with file, line, bar and beat."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

from shedbook.cli.batch import print_json
from shedbook.cli.colour import coloured
from shedbook.errors import Place, ReadError

if TYPE_CHECKING:
    from shedbook.book.verbs.check import Placed


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("dir", metavar="DIR", help="the manuscript's folder, or one phrase file")
    parser.add_argument("--json", action="store_true", help="print the findings as one JSON array")
    parser.add_argument("--quiet", action="store_true", help="list only what is an error")
    parser.epilog = "Ends with status 1 where a finding is an error, else with 0."


def run(options: argparse.Namespace) -> int:
    """Proof-read and print the findings; return 1 if one of them is an error, else 0."""
    from shedbook.book.verbs.check import check, unreadable

    try:
        checked = check(options.dir)
    except ReadError as error:
        if not options.json:
            raise
        whole = error if error.place else error.at(Place(file=options.dir))
        _print_json([unreadable(whole)])
        return 1
    found = [placed for placed in checked.found if not options.quiet or placed.finding.severity == "error"]
    if options.json:
        _print_json(found)
    else:
        for placed in found:
            print(finding_text(placed), end="\n\n")
        print(_summary(len(checked.manuscript.phrases), checked.found), file=sys.stderr)
    return 1 if checked.errors else 0


def _print_json(found: Iterable[Placed]) -> None:
    print_json([as_item(placed) for placed in found])


def as_item(placed: Placed) -> dict[str, object]:
    """Return the JSON object of a finding; line and column count from 1, the beat is a fraction as text."""
    from shedbook.analysis.account_json import finding_json

    place = placed.place
    where = {
        "file": place.file, "line": place.line, "column": place.column,
        "width": None if place.column is None else place.width, "phrase": place.phrase,
    }  # fmt: skip
    return {**where, **finding_json(placed.finding)}


def finding_text(placed: Placed) -> str:
    """Return a finding as a person reads it."""
    finding, place = placed.finding, placed.place
    named = f"  “{place.phrase}”" if place.phrase else ""
    lines = [f"{place}{named}", place.picture()]
    severity = coloured(finding.severity, finding.severity, sys.stdout)
    lines.append(f"{severity} ({finding.rule}): {finding.message}")
    if finding.mend:
        lines.append(f"  {finding.mend}")
    return "\n".join(line for line in lines if line)


def _summary(phrases: int, found: tuple[Placed, ...]) -> str:
    """Return the closing line."""
    read = "1 phrase read" if phrases == 1 else f"{phrases} phrases read"
    if not found:
        return f"{read}, nothing to mend."
    counts = {
        "error": "errors", "warning": "warnings", "advice": "pieces of advice",
    }  # fmt: skip
    parts = []
    for severity, many in counts.items():
        number = sum(1 for placed in found if placed.finding.severity == severity)
        if number:
            one = "piece of advice" if severity == "advice" else severity
            parts.append(f"{number} {one if number == 1 else many}")
    return f"{read}: {', '.join(parts)}."
