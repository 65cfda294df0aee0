"""The manual page, made from the parsers: `python -m shedbook.cli.manual_page > docs/shedbook.1`.

Source: man(7), the macros of manual pages.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from shedbook.cli.known_verbs import VERBS, parser_of

_STATUSES = (
    ("0", "The work was done."),
    ("1", "Something could not be read or written, or check found an error."),
    ("2", "The call was not understood."),
    ("130, 143", "A signal has stopped it."),
)


def manual_page() -> str:
    """Return the page as man reads it."""
    return "\n".join([*_page(), ""])


def _page() -> Iterator[str]:
    yield '.\\" Made by python -m shedbook.cli.manual_page; not to be edited by hand.'
    yield ".TH SHEDBOOK 1"
    yield ".SH NAME"
    yield "shedbook \\- from improvisation phrases, each written once, to a study book in all twelve keys"
    yield ".SH SYNOPSIS"
    yield ".B shedbook\n.I VERB\n[arguments]\n.br\n.B shedbook help\n[\n.I VERB\n]"
    yield ".SH DESCRIPTION"
    yield _plain(" ".join((parser_of("").description or "").split()))
    yield ".SH VERBS"
    for row in VERBS:
        parser = parser_of(row.name)
        yield f".SS shedbook {_plain(row.name)}"
        yield _plain(f"{row.says[0].upper()}{row.says[1:]}.")
        for action in parser._actions:
            if "--help" not in action.option_strings:
                yield f".TP\n{_written(action)}\n{_plain((action.help or '').replace('%%', '%'))}"
        if parser.epilog:
            yield f".PP\n{_plain(parser.epilog)}"
    yield ".SH EXIT STATUS"
    for number, meaning in _STATUSES:
        yield f".TP\n.B {number}\n{meaning}"
    yield ".SH ENVIRONMENT"
    yield ".TP\n.B NO_COLOR\nWhere this is set to anything, nothing is printed in colour."


def _written(action: argparse.Action) -> str:
    value = action.metavar if isinstance(action.metavar, str) else action.dest.upper()
    if not action.option_strings:
        return f".I {_plain(value)}"
    named = _plain(", ".join(action.option_strings))
    return f".BI {named}" if action.nargs == 0 else f'.BI "{named} " {_plain(value)}'


def _plain(text: str) -> str:
    """Return a text in which nothing is taken for a command of the page."""
    safe = text.replace("\\", "\\e").replace("-", "\\-")
    return f"\\&{safe}" if safe[:1] in (".", "'") else safe


if __name__ == "__main__":
    print(manual_page(), end="")
