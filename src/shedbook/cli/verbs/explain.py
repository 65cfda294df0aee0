"""`shedbook explain FILE` says in words why a phrase works."""

from __future__ import annotations

import argparse
import sys
import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shedbook.analysis.proof import Finding
    from shedbook.book.verbs.explain import Explained


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("file", metavar="FILE", help="a phrase file, or a manuscript's folder")
    parser.add_argument("--phrase", metavar="N|TITLE", help="only this phrase of the file")
    parser.add_argument(
        "--edition", metavar="NAME", default="concert",
        help="name notes and chords as this edition's reader sees them (default: concert)",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print the whole account as one JSON array")


def run(options: argparse.Namespace) -> int:
    """Explain and print; return 1 if a phrase could not be read, else 0."""
    from shedbook.book.verbs.explain import Explained, explain_file
    from shedbook.cli.batch import print_json
    from shedbook.cli.error_text import error_item, error_text
    from shedbook.errors import ReadError

    found = explain_file(options.file, phrase=options.phrase, edition=options.edition)
    explained = [item for item in found if isinstance(item, Explained)]
    unread = [item for item in found if isinstance(item, ReadError)]
    if options.json:
        items = [
            item.json if isinstance(item, Explained) else error_item(item, options.file) for item in found
        ]
        print_json(items)
    elif explained:
        print("\n\n".join(_text(item) for item in explained))
    for error in unread:
        print(error_text(error), file=sys.stderr)
    return 1 if unread else 0


def _text(item: Explained) -> str:
    """Return what a person reads of one phrase: title, changes, the author's words, ours, the findings."""
    phrase = item.phrase
    head = [phrase.title, f"{phrase.key}:  {item.changes}", ", ".join(item.progressions)]
    parts = ["\n".join(line for line in head if line)]
    own = 1 if phrase.commentary.strip() else 0  # the author's own words are the first sentence
    said = (" ".join(sentences) for sentences in (item.sentences[:own], item.sentences[own:]))
    parts += [textwrap.fill(text, 96) for text in said if text]
    parts += [_finding(finding) for finding in item.findings]
    return "\n\n".join(parts)


def _finding(finding: Finding) -> str:
    from shedbook.theory.metre import beat_words

    place = "" if finding.bar is None else f"Bar {finding.bar}"
    if finding.beat is not None:
        place += f", beat {beat_words(finding.beat)}"
    said = f"{finding.severity} ({finding.rule}): {finding.message}"
    return "\n".join(line for line in (place, said, f"  {finding.mend}") if line.strip())
