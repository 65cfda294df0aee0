"""`shedbook changes` says what a row of chords does: its key, functions, progressions and scales."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Any

from shedbook.analysis.hearing.harmony import ChordScale, Harmony, harmony_of
from shedbook.cli.batch import read_items, run_items
from shedbook.cli.terminal_text import pretty, wrapped
from shedbook.cli.verbs.chord import scale_entry
from shedbook.errors import ShedbookError
from shedbook.phrase.changes_text import Changes, parse_changes
from shedbook.phrase.model import ChangeAt
from shedbook.theory.chord_symbol import canonical
from shedbook.theory.metre import Metre, beat_words
from shedbook.theory.progression import Progression

_EPILOG = """\
Bars are divided by |, % repeats a bar, the chords of a bar share it evenly; "G7@4" starts on beat 4.
  shedbook changes "Dm7b5 | G7b9 | Cm6 | %"
  shedbook changes --metre 3/4 "Em7 | A7 | Dm7@1 G7@3"
"""
_REASON_WIDTH = 60
_FLAT_NUMERAL = re.compile(r"(?<![A-Za-z])b(?=[IViv])")
_CHORD = 2
_HEADINGS = ("bar", "beat", "chord", "function", "scale", "because")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "changes",
        nargs="+",
        metavar="CHANGES",
        help='chord symbols in bars, such as "Dm7 | G7 | Cmaj7"; - reads one row a line from standard input',
    )
    parser.add_argument("--metre", default="4/4", help="the metre, such as 3/4 (default 4/4)")
    parser.add_argument("--json", action="store_true", help="print one JSON array, an object for each row")


def run(args: argparse.Namespace) -> int:
    """Describe every row of chords, and return 1 if any could not be read, else 0.

    Raises:
        ShedbookError: if the metre cannot be read.
    """
    try:
        metre = Metre.parse(args.metre)
    except ValueError:
        raise ShedbookError(
            f'"{args.metre}" is not a metre.', hint="Write beats and note value, such as 4/4, 3/4 or 6/8."
        ) from None
    return run_items(read_items(args.changes), lambda text: describe(text, metre), show, args.json)


def describe(text: str, metre: Metre) -> dict[str, Any]:
    """Return the JSON object that says what the changes in a text do.

    Raises:
        NotationError: if the text cannot be read.
        ChordSymbolError: if one of its symbols cannot be read.
    """
    read = parse_changes(text, metre)
    found = harmony_of([change.chord for change in read.changes], [change.bar for change in read.changes])
    return {
        "input": text,
        "key": str(found.key),
        "bars": _bars(read, found),
        "progressions": [progression_object(one) for one in found.progressions],
    }


def progression_object(progression: Progression) -> dict[str, Any]:
    """Return the JSON object of a progression, which is the same for every verb."""
    return {
        "name": progression.name,
        "key": str(progression.key),
        "first_bar": progression.first_bar,
        "last_bar": progression.last_bar,
    }


def _bars(read: Changes, found: Harmony) -> list[list[dict[str, Any]]]:
    """Return the JSON objects of the chords of each bar; a bar in which none starts is an empty list."""
    bars: list[list[dict[str, Any]]] = [[] for _ in range(read.bars)]
    for change, numeral, scale in zip(read.changes, found.numerals, found.scales, strict=True):
        bars[change.bar - 1].append(_chord_object(change, numeral, scale))
    return bars


def _chord_object(change: ChangeAt, numeral: str, scale: ChordScale) -> dict[str, Any]:
    """Return the JSON object of one chord; for N.C. its function and its scale are null."""
    return {
        "symbol": change.chord.text,
        "canonical": canonical(change.chord),
        "beat": str(change.beat),
        "function": numeral or None,
        "scale": None if scale.scale is None else str(scale.scale),
        "scales": [scale_entry(choice, change.chord) for choice in scale.choices],
    }


def show(described: Mapping[str, Any]) -> str:
    """Return the text that a person reads: the key, a table of the chords, the progressions."""
    rows = [_HEADINGS, *_rows(described["bars"])]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_HEADINGS) - 1)]
    lines = [pretty(described["input"].strip()), f"key: {pretty(described['key'])}", ""]
    for before, row in pairwise([("",) * len(_HEADINGS), *rows]):
        # While chord and scale stay the same, the reason is given only once.
        same = row[_CHORD:] == before[_CHORD:]
        lines += _lines((*row[:-1], "as before") if same and row[-1] else row, widths)
    if described["progressions"]:
        lines += ["", "progressions:"]
        lines += [f"  {_told(one)}" for one in described["progressions"]]
    return "\n".join(lines)


def _rows(bars: Iterable[Sequence[Mapping[str, Any]]]) -> list[tuple[str, ...]]:
    """Return the cells of the table for each chord; the number of a bar stands at its first chord."""
    return [
        (
            str(number) if place == 0 else "",
            beat_words(Fraction(chord["beat"])),
            pretty(chord["symbol"]),
            _numerals(chord["function"] or "–"),
            pretty(chord["scale"] or "–"),
            pretty(chord["scales"][0]["reason"]) if chord["scales"] else "",
        )
        for number, bar in enumerate(bars, start=1)
        for place, chord in enumerate(bar)
    ]


def _lines(row: Sequence[str], widths: Sequence[int]) -> list[str]:
    """Return the lines of one row of the table, the last column being wrapped."""
    left = "".join(f"{cell.ljust(width)}  " for cell, width in zip(row, widths, strict=False))
    reason = wrapped(row[-1], _REASON_WIDTH) or [""]
    return [f"{left}{reason[0]}".rstrip(), *(" " * len(left) + line for line in reason[1:])]


def _told(progression: Mapping[str, Any]) -> str:
    """Return a progression in words."""
    first, last = progression["first_bar"], progression["last_bar"]
    bars = f"bar {first}" if first == last else f"bars {first}–{last}"
    return f"{_numerals(progression['name'])} in {pretty(progression['key'])}, {bars}"


def _numerals(text: str) -> str:
    """Return numerals with real accidental signs: bII becomes ♭II."""
    return _FLAT_NUMERAL.sub("♭", text).replace("#", "♯")
