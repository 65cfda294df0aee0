"""`shedbook chord` gives the tones of a chord symbol and the scales that go with it, best first."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING, TypedDict, cast

from shedbook.cli.batch import read_items, run_items
from shedbook.cli.terminal_text import columns, pretty, wrapped

if TYPE_CHECKING:
    from shedbook.theory.chord import Chord
    from shedbook.theory.chord_scales import ScaleChoice


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "symbols",
        nargs="+",
        metavar="SYMBOL",
        help="chord symbols such as Cm7b5, Bb13#11, F#7alt, C6/9, Am7/G; "
        '"-" reads one a line from standard input',
    )
    parser.add_argument("--json", action="store_true", help="print one JSON array, an element a symbol")


def run(args: argparse.Namespace) -> int:
    """Describe every symbol, and return 1 if any could not be read, else 0."""
    return run_items(read_items(args.symbols), describe, show, args.json)


class ScaleEntry(TypedDict):
    """The JSON object of a scale that goes with a chord."""

    name: str
    root: str
    notes: list[str]
    degrees: list[str]
    reason: str


class ChordEntry(TypedDict):
    """The JSON object of one chord symbol."""

    symbol: str
    canonical: str
    root: str | None
    bass: str | None
    tones: list[str]
    degrees: list[str]
    scales: list[ScaleEntry]


def describe(symbol: str) -> ChordEntry:
    """Return the JSON object of one chord symbol.

    Raises:
        ChordSymbolError: if it cannot be read.
    """
    from shedbook.theory.chord_scales import ranked
    from shedbook.theory.chord_symbol import canonical, parse_chord

    chord = parse_chord(symbol)
    return {
        "symbol": symbol,
        "canonical": canonical(chord),
        "root": None if chord.root is None else str(chord.root),
        "bass": None if chord.bass is None else str(chord.bass),
        "tones": [str(tone) for tone in chord.tones],
        "degrees": list(chord.degrees),
        "scales": [scale_entry(choice, chord) for choice in ranked(chord)],
    }


def scale_entry(choice: ScaleChoice, chord: Chord) -> ScaleEntry:
    """Return the JSON object of a scale that goes with a chord; its degrees are those over the chord."""
    from shedbook.theory.slash_chords import over_bass

    return {
        "name": choice.scale.name,
        "root": str(choice.scale.root),
        "notes": [str(note) for note in choice.scale.notes],
        "degrees": [over_bass(chord).degree_of(note.pitch_class) for note in choice.scale.notes],
        "reason": choice.reason,
    }


def show(described: Mapping[str, object]) -> str:
    """Return the text that a person reads, for what `describe` gave."""
    entry = cast(ChordEntry, described)
    symbol, canonical = pretty(entry["symbol"]), pretty(entry["canonical"])
    title = symbol if symbol == canonical else f"{symbol}   (in one form: {canonical})"
    if not entry["tones"]:
        return f"{title}\n  no chord sounds here"
    lines = [title, *(f"  {line}" for line in columns(entry["tones"], entry["degrees"]))]
    if entry["bass"] is not None:
        lines.append(f"  over {pretty(entry['bass'])} in the bass")
    for place, scale in enumerate(entry["scales"], start=1):
        lines += ["", f"  {place}  {pretty(scale['root'])} {pretty(scale['name'])}"]
        lines += [f"     {line}" for line in columns(scale["notes"], scale["degrees"])]
        lines += [f"     {line}" for line in wrapped(pretty(scale["reason"]), 72)]
    return "\n".join(lines)
