"""Items on the command line or on standard input: each is described; one that cannot be read stops no other.

Conventions: with `as_json` standard output holds one JSON array with one element an item, and an item
that cannot be read stands there as {"input", "error"}; otherwise its error goes to standard error.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from shedbook.errors import ReadError, ShedbookError

STDIN = "-"
"""The argument that stands for the lines of standard input."""


def read_items(arguments: Iterable[str]) -> Iterator[str]:
    """Yield the arguments; "-" gives one item a line of standard input, blank lines skipped."""
    for argument in arguments:
        if argument == STDIN:
            yield from _stdin_lines()
        else:
            yield _readable(argument)


def _stdin_lines() -> Iterator[str]:
    """Yield the lines that hold something; bytes that are no UTF-8 become replacement characters."""
    raw = getattr(sys.stdin, "buffer", None)
    for line in sys.stdin if raw is None else raw:
        text = line if isinstance(line, str) else line.decode("utf-8", errors="replace")
        text = _readable(text.removeprefix("\ufeff").strip())
        if text:
            yield text


def _readable(text: str) -> str:
    """Replace what no encoding can print (undecodable bytes of an argument)."""
    return text.encode("utf-8", errors="replace").decode("utf-8")


def run_items(
    items: Iterable[str],
    describe: Callable[[str], Mapping[str, object]],
    show: Callable[[Mapping[str, object]], str],
    as_json: bool,
) -> int:
    """Describe every item and print it; return 1 if any could not be read, else 0.

    `describe` raises a `ShedbookError` for an item that it cannot read; `show` makes the text that a
    person reads of what `describe` gave.
    """
    status = 0
    collected: list[Mapping[str, object]] = []
    for item in items:
        try:
            described = describe(item)
        except ShedbookError as error:
            status = 1
            if as_json:
                collected.append({"input": item, "error": _sentence(error)})
            else:
                print(_complaint(item, error), file=sys.stderr)
            continue
        if as_json:
            collected.append(described)
        else:
            print(show(described), end="\n\n")
    if as_json:
        print_json(collected)
    return status


def print_json(items: Sequence[object]) -> None:
    """Print one JSON array for other programs."""
    print(json.dumps(items, ensure_ascii=False, indent=2))


def _sentence(error: ShedbookError) -> str:
    return f"{error.message} {error.hint}".strip()


def _complaint(item: str, error: ShedbookError) -> str:
    """Return the item with the meant characters underlined, what is wrong and how to mend it."""
    lines = []
    if isinstance(error, ReadError) and len(item) <= 200:
        lines = [f"    {item}", f"    {' ' * error.start}{'^' * max(1, error.end - error.start)}"]
    lines.append(f"shedbook: {error.message}")
    if error.hint:
        lines.append(f"  {error.hint}")
    return "\n".join(lines)
