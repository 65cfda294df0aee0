"""The `shedbook` command: finds the verb, runs it, and prints errors as people read them.

Exit status: 0 when the work was done; 1 when something could not be read or written, or `check` found an
error; 2 for a call that was not understood; 130 when stopped from the keyboard.
"""

from __future__ import annotations

import argparse
import errno
import importlib
import keyword
import os
import sys
from collections.abc import Sequence
from types import ModuleType
from typing import NamedTuple

from shedbook.errors import ShedbookError, TableError


class Verb(NamedTuple):
    """A verb and its line in `--help`.

    Its module in `cli.verbs` has the same name, with "_" added where that is a keyword of Python.
    """

    name: str
    says: str


FULL_DISK = frozenset((errno.ENOSPC, errno.EDQUOT))
"""The numbers of the errors by which an operating system says that a disk is full."""

VERBS = (
    Verb("new", "write a small starter manuscript that builds as it is"),
    Verb("check", "proof-read a manuscript and list what should be mended"),
    Verb("explain", "say in words why a phrase works"),
    Verb("build", "make the book: every phrase in twelve keys, one PDF an edition"),
    Verb("show", "draw one phrase in one key, to look at"),
    Verb("play", "hear one phrase with a trio, or write it as a sound file"),
    Verb("export", "write phrases for other programs: MusicXML, MIDI, MEI, pictures"),
    Verb("import", "bring phrases in from MusicXML or MIDI files"),
    Verb("chord", "the tones of a chord symbol and the scales that go with it"),
    Verb("scale", "the notes of a scale and the chords it serves"),
    Verb("changes", "what a row of chords does: key, functions, progressions, scales"),
)

_ABOUT = """\
Phrases go in, each written once in concert pitch over its changes; a study book in all
twelve keys comes out. A manuscript is a folder: manuscript.toml and a file for each phrase.
"""
_START = """\
Start here:
  shedbook new my-book          a manuscript to change into your own
  shedbook check my-book        what should be mended, with file, line, bar and beat
  shedbook build my-book        the book
Every verb has its own help: shedbook build --help
"""


def module_name(verb: str) -> str:
    """Return what the module of a verb is called: that of import is import_."""
    return f"{verb}_" if keyword.iskeyword(verb) else verb


def _module(verb: str) -> ModuleType:
    """Load the module of a verb.

    Raises:
        TableError: if there is none, or it lacks one of the two functions that a verb is made of.
    """
    name = f"shedbook.cli.verbs.{module_name(verb)}"
    file = f"src/shedbook/cli/verbs/{module_name(verb)}.py"
    try:
        module = importlib.import_module(name)
    except ModuleNotFoundError as error:
        if error.name != name:
            raise
        raise TableError(
            f'The verb "{verb}" stands in VERBS, but has no module.',
            hint=f"Write {file} with add_arguments(parser) and run(options) -> int.",
        ) from None
    for function in ("add_arguments", "run"):
        if not callable(getattr(module, function, None)):
            raise TableError(f'The verb "{verb}" has no function "{function}".', hint=f"Write it in {file}.")
    return module


def parser_of(verb: str) -> argparse.ArgumentParser:
    """Return the argument parser of one verb."""
    return _parsers(verb)[1][verb]


def _parsers(verb: str) -> tuple[argparse.ArgumentParser, dict[str, argparse.ArgumentParser]]:
    """Return the main parser and those of all verbs.

    Only the parser of `verb` has its arguments, so that no other module has to be loaded.
    """
    parser = argparse.ArgumentParser(
        prog="shedbook",
        description=_ABOUT,
        epilog=_START,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="store_true", help="print the version and stop")
    # With `prog` the parser need not find out its own name, for which it would load how wide a screen is.
    verbs = parser.add_subparsers(dest="verb", metavar="VERB", title="verbs", prog="shedbook")
    subs = {}
    for row in VERBS:
        # The line of a verb in the list of verbs is also the description in its own help.
        sub = subs[row.name] = verbs.add_parser(
            row.name, help=row.says, description=f"{row.says[0].upper()}{row.says[1:]}."
        )
        if row.name == verb:
            _module(verb).add_arguments(sub)
    return parser, subs


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and return the exit status.

    Args:
        argv: the arguments after the name of the command; None for those of this process.
    """
    arguments = list(sys.argv[1:] if argv is None else argv)
    verb = next((argument for argument in arguments if not argument.startswith("-")), "")
    try:
        parser, _ = _parsers(verb)
    except TableError as error:
        from shedbook.cli.error_text import error_text

        print(error_text(error), file=sys.stderr)
        return 1
    options = parser.parse_args(arguments)
    if options.version:
        from importlib.metadata import version

        print(f"shedbook {version('shedbook')}")
        return 0
    if options.verb is None:
        parser.print_help()
        return 0
    try:
        status: int = _module(options.verb).run(options)
        sys.stdout.flush()
    except ShedbookError as error:
        if getattr(options, "json", False):
            # With --json standard output holds one JSON document even where nothing could be read.
            from shedbook.cli.batch import print_json
            from shedbook.cli.error_text import error_item

            asked = " ".join(argument for argument in arguments[1:] if argument != "--json")
            print_json([error_item(error, asked)])
        from shedbook.cli.error_text import error_text

        print(error_text(error), file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("shedbook: stopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        # Whoever reads the output has stopped, as in `shedbook … | head`. Nothing more is printed, and
        # standard output is closed in a way that brings no second error at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except OSError as error:
        if error.errno not in FULL_DISK:
            raise
        print("shedbook: the disk is full: the output cannot be written. Make room on it.", file=sys.stderr)
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    return status


if __name__ == "__main__":
    sys.exit(main())
