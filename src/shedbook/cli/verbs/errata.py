"""`shedbook errata OLD NEW` lists what changed between two editions of a book."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path
from shedbook.cli.batch import print_json

if TYPE_CHECKING:
    from shedbook.catalogue.downloads import Download, Reach
    from shedbook.catalogue.errata import Difference, Errata, Erratum


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "old",
        metavar="OLD",
        help="the book as it was: a manuscript, FOLDER@VERSION of git, or a bundle (its folder or a zip)",
    )
    parser.add_argument("new", metavar="NEW", help="the book as it is, likewise")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--page", metavar="FILE", type=named_path, help="write a page for customers too, to print, as PDF"
    )
    parser.epilog = "Ends with status 0 whether or not something changed."


def run(options: argparse.Namespace) -> int:
    """Compare and print; return 0."""
    from shedbook.catalogue.comparing import compared_states
    from shedbook.catalogue.errata_page import write_page

    found = compared_states(options.old, options.new)
    if options.page is not None:
        write_page(found, options.page)
    if options.json:
        print_json([_json(found)])
    else:
        print(_text(found))
    return 0


def _json(found: Errata) -> dict[str, object]:
    from dataclasses import asdict

    from shedbook.catalogue.downloads import downloads

    return {
        "phrases": list(phrase_rows(found)),
        "settings": list(found.settings),
        "versions": [None if one is None else one.version for one in (found.old, found.new)],
        "download": [asdict(one) for one in downloads(found)],
    }


def phrase_rows(found: Errata) -> tuple[dict[str, object], ...]:
    """Return what happened to each phrase as the objects of its JSON."""
    from shedbook.catalogue.downloads import reach_of

    return tuple(
        [
            {
                "happened": one.happened,
                "number": one.number,
                "was_number": one.was_number,
                "title": one.title,
                "anew": sorted(one.anew),
                "progress_goes_on": one.goes_on,
                "where": [_reach(each) for each in reach_of(one, found)],
                "differences": [
                    {"what": each.what, "bar": each.bar, "beat": each.beat, "was": each.was, "now": each.now}
                    for each in one.differences
                ],
            }
            for one in found.errata
        ]
    )


def _reach(one: Reach) -> dict[str, object]:
    return {
        "edition": one.edition,
        "keys": list(one.keys),
        "pages": list(one.pages),
        "tracks": list(one.tracks),
    }


def _text(found: Errata) -> str:
    """Return what a person reads."""
    from shedbook.catalogue.downloads import downloads

    parts = [_phrase(one, found) for one in found.errata]
    if found.settings:
        parts.append(f"Settings of the book: {', '.join(found.settings)}.")
    if not parts:
        return "Nothing changed."
    had = downloads(found)
    if had:
        parts.append("\n".join(("To be downloaded again:", *map(_download, had))))
    elif found.any_scores:
        parts.append("Every edition that holds one of these phrases must be had anew.")
    return "\n\n".join(parts)


def _download(one: Download) -> str:
    files = ", ".join(
        f"{len(names)} {word}"
        for names, word in ((one.changed, "changed"), (one.new, "new"), (one.gone, "gone"))
        if names
    )
    changed = f"{one.changed_bytes / 1e6:.1f} MB of {one.size / 1e6:.1f}"
    return f"  {one.file} ({one.edition}): {files}, {changed}"


def _phrase(one: Erratum, found: Errata) -> str:
    from shedbook.catalogue.downloads import reach_of

    heads = {
        "new": f"{one.number}. {one.title} is new.",
        "gone": f"{one.was_number}. {one.title} is gone.",
        "moved": f"{one.number}. {one.title} was number {one.was_number}.",
        "changed": f"{one.number}. {one.title}",
    }
    lines = [heads[one.happened]]
    if one.happened == "changed" and one.was_number != one.number:
        lines[0] += f", number {one.was_number} before"
    lines += [f"  {_difference(each)}" for each in one.differences]
    anew = {"scores": "scores in every key", "tracks": "tracks", "words": "words on its pages"}
    if one.anew:
        lines.append(f"  Made anew: {', '.join(anew[name] for name in anew if name in one.anew)}.")
    lines += [f"  {_where(each)}" for each in reach_of(one, found)]
    if one.happened == "changed" and not one.goes_on:
        lines.append(
            "  Ticks and notes of customers do not go on: it has another id, or a new title and no id."
        )
    return "\n".join(lines)


def _difference(one: Difference) -> str:
    place = "" if one.bar is None else f"bar {one.bar}, beat {one.beat}: "
    return f"{place}{one.what} {one.was or 'nothing'} is now {one.now or 'nothing'}"


def _where(one: Reach) -> str:
    parts = [f"in {', '.join(one.keys)}" if one.keys else ""]
    parts.append(f"pages {', '.join(map(str, one.pages))}" if one.pages else "")
    parts.append(f"{len(one.tracks)} tracks" if one.tracks else "")
    return f"{one.edition}: {'; '.join(part for part in parts if part) or 'tracks only'}"
