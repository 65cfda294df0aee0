"""`shedbook verify FILE|DIR` proves a finished bundle."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.batch import print_json

if TYPE_CHECKING:
    from shedbook.book.verbs.verify import Verified


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "bundle", metavar="FILE|DIR", type=Path, help="the folder of a bundle, or one of its zip files"
    )
    parser.add_argument(
        "--against", metavar="DIR", type=Path, help="the manuscript that it should be made from"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object in an array")
    parser.epilog = (
        "Every file is opened: the manifest, each PDF with its scores read back, each MusicXML and MIDI "
        "file, each track. Ends with status 1 if anything is not as it should be."
    )


def run(options: argparse.Namespace) -> int:
    """Check and print what is wrong; return 1 if anything is, else 0."""
    from shedbook.book.verbs.verify import verify

    found = verify(options.bundle, options.against)
    if options.json:
        print_json([_json(found)])
    else:
        for fault in found.faults:
            print(f"{fault.file}: {fault.says}")
        print(_summary(found), file=sys.stderr)
    return 1 if found.faults else 0


def _json(found: Verified) -> dict[str, object]:
    return {
        "faults": [fault._asdict() for fault in found.faults],
        "zips": found.zips,
        "pages": found.pages,
        "scores": found.scores,
        "files": found.files,
        "tracks": found.tracks,
    }


def _summary(found: Verified) -> str:
    wrong = f"{len(found.faults)} things are wrong" if len(found.faults) != 1 else "One thing is wrong"
    zips = f"{found.zips} zip{'' if found.zips == 1 else 's'}"
    pages = f"{found.pages} pages with {found.scores} scores"
    read = f"{zips}, {pages}, {found.files} files for other programs, {found.tracks} tracks"
    return f"Read: {read}. {wrong if found.faults else 'All is as it should be'}."
