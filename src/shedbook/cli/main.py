"""The `shedbook` command: finds the verb, runs it, and prints errors as people read them.

Exit status: 0 when the work was done; 1 when something could not be read or written, or `check` found an
error; 2 for a call that was not understood; 130 when stopped from the keyboard.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Sequence

from shedbook.cli.known_verbs import parsers, verb_module
from shedbook.errors import BuildError, ShedbookError, TableError

FULL_DISK = frozenset((errno.ENOSPC, errno.EDQUOT))
"""The numbers of the errors by which an operating system says that a disk is full."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and return the exit status.

    Args:
        argv: the arguments after the name of the command; None for those of this process.
    """
    arguments = list(sys.argv[1:] if argv is None else argv)
    verb = next((argument for argument in arguments if not argument.startswith("-")), "")
    try:
        parser, _ = parsers(verb)
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
        status: int = verb_module(options.verb).run(options)
        sys.stdout.flush()
    except ShedbookError as error:
        _tell(error, arguments, as_json=getattr(options, "json", False))
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


def _tell(error: ShedbookError, arguments: Sequence[str], *, as_json: bool) -> None:
    """Print what went wrong, every place of it; with --json standard output still holds one JSON document."""
    from shedbook.cli.error_text import error_item, error_text

    every = (*error.errors, error) if isinstance(error, BuildError) else (error,)
    if as_json:
        from shedbook.cli.batch import print_json

        asked = " ".join(argument for argument in arguments[1:] if argument != "--json")
        print_json([error_item(one, asked) for one in every])
    print("\n\n".join(error_text(one) for one in every), file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
