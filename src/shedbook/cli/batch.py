"""Answers for several items, such as chord symbols, given as arguments or on standard input.

An item that cannot be read does not stop the others. With `as_json` standard output holds one JSON array with
an element for each item, and an item that cannot be read stands there as {"input", "error"}. Otherwise its
error goes to standard error.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from shedbook.errors import ReadError, ShedbookError

STDIN = "-"
"""The argument in whose place the lines of standard input are read."""


def read_items(arguments: Iterable[str]) -> Iterator[str]:
    """Yield the arguments; in place of "-" each line of standard input, except blank ones."""
    for argument in arguments:
        if argument == STDIN:
            yield from _stdin_lines()
        else:
            yield _readable(argument)


def _stdin_lines() -> Iterator[str]:
    """Yield the lines of standard input that are not blank; bytes that are not UTF-8 are replaced."""
    raw = getattr(sys.stdin, "buffer", None)
    for line in sys.stdin if raw is None else raw:
        text = line if isinstance(line, str) else line.decode("utf-8", errors="replace")
        text = _readable(text.removeprefix("\ufeff").strip())
        if text:
            yield text


def _readable(text: str) -> str:
    """Return the text with a "?" for each byte of an argument that could not be decoded."""
    return text.encode("utf-8", errors="replace").decode("utf-8")


def run_items(
    items: Iterable[str],
    describe: Callable[[str], Mapping[str, object]],
    show: Callable[[Mapping[str, object]], str],
    as_json: bool,
) -> int:
    """Describe every item and print the answers; return the exit status, 1 if any item could not be read.

    Args:
        items: the items.
        describe: returns the JSON object for an item; raises a `ShedbookError` if it cannot be read.
        show: returns the text that a person reads, for what `describe` gave.
        as_json: whether one JSON array is printed instead of texts.
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
    """Return the item with the wrong characters underlined, what is wrong, and how to mend it."""
    lines = []
    if isinstance(error, ReadError) and len(item) <= 200:
        lines = [f"    {item}", f"    {' ' * error.start}{'^' * max(1, error.end - error.start)}"]
    lines.append(f"shedbook: {error.message}")
    if error.hint:
        lines.append(f"  {error.hint}")
    return "\n".join(lines)
