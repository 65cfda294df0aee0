"""`shedbook new DIR` writes a starter manuscript."""

from __future__ import annotations

import argparse
import shlex
from pathlib import Path

from shedbook.cli.argument_types import named_path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "folder", metavar="DIR", type=named_path, help="the folder to make; it may exist, but must be empty"
    )


def run(args: argparse.Namespace) -> int:
    """Write the starter, print what is in it and what to do next, and return 0."""
    from shedbook.book.manuscript.starter import write_starter

    folder: Path = args.folder
    names = write_starter(folder)
    print(f"A manuscript with three invented phrases is in {folder}:")
    for name in names:
        print(f"  {name}")
    shown = shlex.quote(str(folder))
    print("Change them in any text editor. Then:")
    print(f"  shedbook check {shown}    what should be mended")
    print(f"  shedbook build {shown}    the book")
    return 0
