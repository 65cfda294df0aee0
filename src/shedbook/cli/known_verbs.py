"""The verbs of the command, and the parsers of their arguments."""

from __future__ import annotations

import argparse
import importlib
import keyword
import re
from types import ModuleType
from typing import NamedTuple, NoReturn

from shedbook.errors import TableError, nearest


class Verb(NamedTuple):
    """A verb and its line in `--help`.

    Its module in `cli.verbs` has the same name, with "_" added where that is a keyword of Python.
    """

    name: str
    says: str


VERBS = (
    Verb("new", "write a small starter manuscript that builds as it is"),
    Verb("check", "proof-read a manuscript and list what should be mended"),
    Verb("explain", "say in words why a phrase works"),
    Verb("build", "make the book: every phrase in twelve keys, one PDF an edition"),
    Verb("verify", "prove a finished bundle: every page, file and track of it"),
    Verb("workbench", "see, hear and mend the manuscript in the browser, while you type"),
    Verb("show", "draw one phrase in one key, to look at"),
    Verb("lesson", "write the plan of a lesson from phrases: what to say, to play and to show"),
    Verb("cards", "make pictures of phrases for the screen: to show in a lesson, to post"),
    Verb("film", "make score videos: the page still, the sounding note marked, in step with the sound"),
    Verb("session", "prepare a recording session: takes in order with rests, a sheet, guides, slates"),
    Verb("play", "hear one phrase with a trio, or write it as a sound file"),
    Verb("export", "write phrases for other programs: MusicXML, MIDI, MEI, pictures"),
    Verb("takes", "listen to recordings of a book's phrases: what is wrong, which take to keep"),
    Verb("transcribe", "write a recorded line down as a draft phrase"),
    Verb("import", "bring phrases in from MusicXML or MIDI files"),
    Verb("find", "look for phrases in a folder of books: by melody, changes, scale, level, words"),
    Verb("share", "list the phrases that a book takes from other books, or pin them"),
    Verb("twins", "list phrases of a folder of books that are nearly the same"),
    Verb("gaps", "say what a folder of books lacks"),
    Verb("errata", "list what changed between two editions of a manuscript"),
    Verb("draft", "propose new phrases over changes"),
    Verb("vary", "make variants of a phrase, each with what was done"),
    Verb("drill", "write drills: a scale and a pattern, or a pattern through changes"),
    Verb("etude", "put a study over a whole form together from a book's phrases"),
    Verb("fits", "which phrases of a book fit where in some changes"),
    Verb("chord", "the tones of a chord symbol and the scales that go with it"),
    Verb("scale", "the notes of a scale and the chords it serves"),
    Verb("changes", "what a row of chords does: key, functions, progressions, scales"),
    Verb("tidy", "say how much the store of a book holds, and throw away what is not used"),
    Verb("setup", "what is installed, what is missing, and what to do about it on this system"),
    Verb("completion", "print what lets a shell complete verbs and options"),
    Verb("help", "say what a verb does and takes"),
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
Every verb has its own help: shedbook help build
"""


def module_name(verb: str) -> str:
    """Return what the module of a verb is called: that of import is import_."""
    return f"{verb}_" if keyword.iskeyword(verb) else verb


def verb_module(verb: str) -> ModuleType:
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


class Parser(argparse.ArgumentParser):
    """A parser that adds the nearest name to what it says of one that it does not know."""

    def error(self, message: str) -> NoReturn:
        """Print what is wrong and end with status 2."""
        found = _NOT_AMONG.search(message)
        near = nearest(found[1], re.findall(r"[\w-]+", found[2])) if found else ""
        super().error(f"{message}\n{near}" if near else message)


_NOT_AMONG = re.compile(r"invalid choice: '([^']*)' \(choose from (.*)\)")


def parser_of(verb: str) -> argparse.ArgumentParser:
    """Return the argument parser of one verb; for "" that of the command itself."""
    parser, verbs = parsers(verb)
    return verbs[verb] if verb else parser


def parsers(verb: str) -> tuple[argparse.ArgumentParser, dict[str, argparse.ArgumentParser]]:
    """Return the main parser and those of all verbs.

    Only the parser of `verb` has its arguments, so that no other module has to be loaded.
    """
    parser = Parser(
        prog="shedbook",
        description=_ABOUT,
        epilog=_START,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="store_true", help="print the version and stop")
    verbs = parser.add_subparsers(dest="verb", metavar="VERB", title="verbs", prog="shedbook")
    subs: dict[str, argparse.ArgumentParser] = {}
    for row in VERBS:
        # The line of a verb in the list of verbs is also the description in its own help.
        sub = subs[row.name] = verbs.add_parser(
            row.name, help=row.says, description=f"{row.says[0].upper()}{row.says[1:]}."
        )
        if row.name == verb:
            verb_module(verb).add_arguments(sub)
    return parser, subs
