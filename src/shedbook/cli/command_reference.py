"""The command reference as Markdown, made from the parsers: `python -m shedbook.cli.command_reference`."""

from __future__ import annotations

import argparse
from importlib import import_module
from pkgutil import iter_modules

from shedbook.cli import verbs
from shedbook.cli.known_verbs import VERBS, module_name, parser_of
from shedbook.table_index import need

_HEAD = """\
# Commands

Every verb and every option. This page is made from the commands' own help
(`python -m shedbook.cli.command_reference`).

Lists of keys, editions and phrases take commas or spaces. Errors and progress go to standard error;
with `--json` standard output holds one JSON array. Exit status: 0 done; 1 something could not be read
or written, or `check` found an error; 2 a call that was not understood; 130 or 143 stopped by a signal.
"""


def check_verbs() -> None:
    """See that every module that is a verb stands in the table of verbs.

    Raises:
        TableError: if one does not.
    """
    known = {module_name(row.name) for row in VERBS}
    for found in iter_modules(verbs.__path__):
        module = import_module(f"shedbook.cli.verbs.{found.name}")
        need(
            found.name in known or not {"add_arguments", "run"} <= set(vars(module)),
            f"src/shedbook/cli/verbs/{found.name}.py is a verb that nobody can call.",
            f'Write Verb("{found.name.rstrip("_")}", "…") into VERBS in src/shedbook/cli/known_verbs.py.',
        )


def command_page() -> str:
    """Return the page.

    Raises:
        TableError: if a verb is only half there.
    """
    check_verbs()
    return "\n".join([_HEAD, *(_verb(row.name, row.says) for row in VERBS)])


def _verb(name: str, says: str) -> str:
    parser = parser_of(name)
    rows = [_row(action) for action in parser._actions if "--help" not in action.option_strings]
    lines = [f"## shedbook {name}", "", f"{says[0].upper()}{says[1:]}.", "", "| | |", "|---|---|", *rows]
    if parser.epilog:
        lines += ["", parser.epilog]
    return "\n".join(lines) + "\n"


def _row(action: argparse.Action) -> str:
    """Return the table row of one argument: how it is written, and what it does."""
    value = action.metavar if isinstance(action.metavar, str) else action.dest.upper()
    takes_value = action.nargs != 0
    if action.option_strings:
        written = ", ".join(
            f"`{option} {value}`" if takes_value else f"`{option}`" for option in action.option_strings
        )
    else:
        written = f"`{value}`"
    return f"| {written.replace('|', chr(92) + '|')} | {(action.help or '').replace('%%', '%')} |"


if __name__ == "__main__":
    print(command_page(), end="")
