"""`shedbook scale` gives the notes and degrees of a scale, and the chords that it serves."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from types import MappingProxyType
from typing import TypedDict, cast

from shedbook.cli.batch import STDIN, read_items, run_items
from shedbook.cli.terminal_text import columns, pretty, wrapped
from shedbook.errors import UnknownNameError


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "name",
        nargs="+",
        metavar="NAME",
        help='the name of a scale, such as dorian, "half-whole diminished" or Eb altered, '
        'with or without quotes; "-" reads one a line from standard input, NAME or ROOT NAME',
    )
    parser.add_argument("--root", metavar="R", help="the note on which it starts (C when nothing is said)")
    parser.add_argument("--json", action="store_true", help="print one JSON array, an element a scale")


def run(args: argparse.Namespace) -> int:
    """Describe every scale, and return 1 if any could not be read, else 0."""
    items = args.name if args.name == [STDIN] else [" ".join(args.name)]
    return run_items(read_items(items), lambda item: describe(item, args.root), show, args.json)


class ServesEntry(TypedDict):
    """The JSON object of a chord that a scale goes with; `place` counts from 1 for the first choice."""

    chord: str
    kind: str
    context: str
    place: int


class ScaleEntry(TypedDict):
    """The JSON object of one scale."""

    name: str
    aliases: list[str]
    root: str
    notes: list[str]
    degrees: list[str]
    serves: list[ServesEntry]


def describe(text: str, root: str | None = None) -> ScaleEntry:
    """Return the JSON object of one scale.

    Args:
        text: the scale, with or without its root.
        root: the root where the text names none; None for C.

    Raises:
        UnknownNameError: if the scale or the root is not known.
    """
    from shedbook.theory.chord_scales import serves
    from shedbook.theory.chord_symbol import parse_chord
    from shedbook.theory.pitch import NoteName
    from shedbook.theory.scale import parse_scale

    try:
        start = NoteName.parse(root or "C")
    except ValueError as error:
        raise UnknownNameError(f'"{root}" is not a note.', hint="A root is written C, Eb or F#.") from error
    scale = parse_scale(text, root=start)
    from_c = NoteName(0).interval_to(scale.root)
    return {
        "name": scale.name,
        "aliases": list(scale.row.aliases),
        "root": str(scale.root),
        "notes": [str(note) for note in scale.notes],
        "degrees": list(scale.row.degrees),
        "serves": [
            {
                "chord": parse_chord(service.chord).transposed(from_c).text,
                "kind": service.kind,
                "context": service.context,
                "place": service.place,
            }
            for service in serves(scale.row)
        ],
    }


def show(described: Mapping[str, object]) -> str:
    """Return the text that a person reads, for what `describe` gave."""
    entry = cast(ScaleEntry, described)
    lines = [pretty(f"{entry['root']} {entry['name']}")]
    lines += [f"  {line}" for line in columns(entry["notes"], entry["degrees"])]
    if entry["aliases"]:
        also = wrapped(pretty("also called " + ", ".join(entry["aliases"])), 76)
        lines += ["", *(f"  {line}" for line in also)]
    services = _shortest(entry["serves"])
    if services:
        lines += ["", "  goes with"]
        width = max(len(service["chord"]) for service in services)
        lines += [
            pretty(f"    {service['chord'].ljust(width)}  {_PLACES[service['place']]}{_when(service)}")
            for service in services
        ]
    return "\n".join(lines)


def _shortest(services: list[ServesEntry]) -> list[ServesEntry]:
    """Return the services without those that another says already, for any context and the same place."""
    anywhere = {(one["chord"], one["place"]) for one in services if one["context"] == "any"}
    return [
        one for one in services if one["context"] == "any" or (one["chord"], one["place"]) not in anywhere
    ]


def _when(service: ServesEntry) -> str:
    return "" if service["context"] == "any" else f", {_CONTEXTS.get(service['context'], service['context'])}"


_PLACES = MappingProxyType({1: "first choice", 2: "second choice", 3: "third choice"})
_CONTEXTS = MappingProxyType({
    "to minor": "on the way to a minor chord",
    "tonic": "at rest on the tonic",
    "minor tonic": "at rest on a minor tonic",
    "dominant": "as the V of a key",
    "tritone substitute": "as a tritone substitute",
    "bVII7": "as bVII7",
    "bVI7": "as bVI7",
    "II7": "as II7",
    "off the dominant": "as bVII7, bVI7 or II7",
    "off the tonic": "as IV or bII",
    "ii": "as ii",
    "iii": "as iii",
    "vi": "as vi",
    "leading note": "on the leading note",
    "rising to minor": "climbing to a minor chord",
    "rising to major": "climbing to a major chord",
    "not rising": "where it does not climb",
})  # fmt: skip
