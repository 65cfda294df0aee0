"""The text of a lesson: heads, what is said, and in brackets what is done. Printed as plain text, and read.

A head stands over a line of =, - or ~, by its level; paragraphs are divided by blank lines; a paragraph in
square brackets is a cue, which nobody says. Printing and reading give the same blocks again.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

HEAD, SAID, CUE = "head", "said", "cue"
_RULES = "=-~"
_WIDTH = 88


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph of the text: its kind, its words on one line, and of a head its level from 1 to 3."""

    kind: str
    text: str
    level: int = 0


def head(text: str, level: int) -> Block:
    """Return a head."""
    return Block(HEAD, _one_line(text), level)


def said(text: str) -> Block:
    """Return a paragraph that is said."""
    return Block(SAID, _one_line(text))


def cue(text: str) -> Block:
    """Return what is done and not said."""
    return Block(CUE, _one_line(text))


def printed(blocks: Sequence[Block]) -> str:
    """Return blocks as plain text, lines of at most 88 characters, to read from and to edit."""
    return "\n\n".join(map(_printed, blocks)) + "\n" if blocks else ""


def _printed(block: Block) -> str:
    if block.kind == HEAD:
        return f"{block.text}\n{_RULES[block.level - 1] * max(3, len(block.text))}"
    text = f"[{block.text}]" if block.kind == CUE else block.text
    # Neither an address nor a word with a hyphen is broken: what is read must be what was printed.
    return textwrap.fill(text, _WIDTH, break_long_words=False, break_on_hyphens=False)


def read(text: str) -> tuple[Block, ...]:
    """Return the blocks of a plain text, whoever wrote it; nothing in it is wrong."""
    found = []
    for part in re.split(r"\n\s*\n", text.replace("\r\n", "\n").strip("\ufeff\n ")):
        lines = [line.strip() for line in part.split("\n") if line.strip()]
        while len(lines) > 1 and (level := _level(lines[1])):
            found.append(Block(HEAD, _one_line(lines[0]), level))
            lines = lines[2:]
        if lines:
            whole = _one_line(" ".join(lines))
            is_cue = whole.startswith("[") and whole.endswith("]") and "]" not in whole[:-1]
            found.append(Block(CUE, whole[1:-1].strip()) if is_cue else Block(SAID, whole))
    return tuple(found)


def _level(line: str) -> int:
    return _RULES.index(line[0]) + 1 if len(line) > 2 and line[0] in _RULES and len(set(line)) == 1 else 0


def _one_line(text: str) -> str:
    """Return a text on one line; no-break spaces stay."""
    return re.sub(r"[ \t\n\r]+", " ", text).strip()
