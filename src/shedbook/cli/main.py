"""The `shedbook` command: finds the verb, runs it, and turns errors into two plain lines.

Exit status: 0 when the work was done, 1 when something could not be read or written or `check` found
an error, 2 for a call that was not understood, 130 when stopped from the keyboard.
"""

from __future__ import annotations

import argparse
import importlib
import keyword
import os
import sys
from collections.abc import Sequence
from types import ModuleType
from typing import NamedTuple

from shedbook.errors import ReadError, ShedbookError, TableError


class Verb(NamedTuple):
    """A verb and what `--help` says of it; its module has the same name, after which a keyword takes "_"."""

    name: str
    says: str


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
    name = f"shedbook.cli.{module_name(verb)}"
    file = f"src/shedbook/cli/{module_name(verb)}.py"
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
    """Return the parser of one verb, with its arguments."""
    return _parsers(verb)[1][verb]


def _parsers(verb: str) -> tuple[argparse.ArgumentParser, dict[str, argparse.ArgumentParser]]:
    """Return the parser and those of the verbs; only the one in hand has arguments: help stays quick."""
    parser = argparse.ArgumentParser(
        prog="shedbook",
        description=_ABOUT,
        epilog=_START,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="store_true", help="print the version and stop")
    verbs = parser.add_subparsers(dest="verb", metavar="VERB", title="verbs")
    subs = {}
    for row in VERBS:
        # Each verb's line of help is its description too.
        sub = subs[row.name] = verbs.add_parser(
            row.name, help=row.says, description=f"{row.says[0].upper()}{row.says[1:]}."
        )
        if row.name == verb:
            _module(verb).add_arguments(sub)
    return parser, subs


def error_text(error: ShedbookError) -> str:
    """Return what a person should see of an error: the place, the picture, what is wrong, the mend."""
    lines = []
    if isinstance(error, ReadError) and error.place is not None:
        lines += [text for text in (str(error.place), error.place.picture()) if text]
        lines.append(error.message)
    else:
        lines.append(f"shedbook: {error.message}")
    if error.hint:
        lines.append(f"  {error.hint}")
    return "\n".join(lines)


def error_item(error: ShedbookError, asked: str) -> dict[str, str]:
    """Return the object that stands, with --json, for what could not be read."""
    place = str(error.place) if isinstance(error, ReadError) and error.place is not None else ""
    return {"input": place or asked, "error": f"{error.message} {error.hint}".strip()}


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and return the exit status."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    verb = next((argument for argument in arguments if not argument.startswith("-")), "")
    try:
        parser, _ = _parsers(verb)
    except TableError as error:
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
            # Standard output holds one JSON document even where nothing at all could be read.
            from shedbook.cli.items import print_json

            asked = " ".join(argument for argument in arguments[1:] if argument != "--json")
            print_json([error_item(error, asked)])
        print(error_text(error), file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("shedbook: stopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        # The reader went away (`shedbook … | head`): nothing more to say, and no second error at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    return status


if __name__ == "__main__":
    sys.exit(main())
