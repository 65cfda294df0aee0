"""`shedbook help VERB` prints what `shedbook VERB --help` prints."""

from __future__ import annotations

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("about", metavar="VERB", nargs="?", default="", help="a verb (default: all of them)")


def run(options: argparse.Namespace) -> int:
    """Print the help of a verb, or of the command, and return 0.

    Raises:
        UnknownNameError: if there is no such verb.
    """
    from shedbook.cli.known_verbs import VERBS, parser_of
    from shedbook.errors import UnknownNameError

    names = [row.name for row in VERBS]
    if options.about and options.about not in names:
        raise UnknownNameError(
            f'There is no verb "{options.about}".', hint="Known: " + ", ".join(names) + "."
        )
    parser_of(options.about).print_help()
    return 0
