"""`shedbook workbench DIR` opens the manuscript in the browser."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path

if TYPE_CHECKING:
    from shedbook.workbench.serve import Opened


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("dir", metavar="DIR", type=Path, help="the manuscript's folder")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path,
        help="where books and the history of your steps go (default: as for shedbook build)",
    )  # fmt: skip
    parser.add_argument(
        "--port", metavar="N", type=int, default=0, help="the port (default: 7245, or one that is free)"
    )
    parser.add_argument(
        "--host", metavar="ADDRESS", default="127.0.0.1",
        help="an address of this machine, for other devices such as a tablet, which need the token shown",
    )  # fmt: skip
    parser.add_argument("--no-browser", action="store_true", help="print the address and open no browser")
    parser.epilog = "It ends with Ctrl+C, or from the page. What you type is on disk within a second."


def run(options: argparse.Namespace) -> int:
    """Serve until it is ended; return 0."""
    from shedbook.workbench.serve import serve

    serve(
        options.dir,
        port=options.port,
        host=options.host,
        out=options.out,
        browser=not options.no_browser,
        tell=_tell,
    )
    print("The workbench has ended; everything is on disk.", file=sys.stderr)
    return 0


def _tell(opened: Opened) -> None:
    print(opened.address, flush=True)
    if opened.others:
        said = "Whoever has this address with its token can change the manuscript. It is not encrypted."
        print(said, file=sys.stderr)
    print("The workbench is open. End it with Ctrl+C, or from the page.", file=sys.stderr, flush=True)
