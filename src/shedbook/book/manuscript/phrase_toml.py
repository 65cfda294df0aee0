"""A phrase written out as a phrase file, texts in the normal form."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from shedbook.phrase.fields import fields_from_phrase
from shedbook.phrase.model import Phrase

_LONGEST_LINE = 100


def phrase_toml(phrase: Phrase, links: Sequence[tuple[str, str]] = ()) -> str:
    """Return the text of a phrase file, from which the same phrase is read again.

    Args:
        phrase: the phrase; its texts are written in their normal form.
        links: names and web addresses that belong to it.
    """
    fields = dict(fields_from_phrase(phrase))
    if links:
        fields["links"] = dict(links)
    return "".join(_entry(name, value) for name, value in fields.items())


def _entry(name: str, value: object) -> str:
    """Return a key and its value, on one line or several."""
    if name == "line":
        return f'{name} = """\n{_folded(str(value))}\n"""\n'
    if isinstance(value, str) and "\n" in value:
        text = value.replace("\\", "\\\\").replace('"""', '""\\"')
        return f'{name} = """\n{text}\n"""\n'
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{_quoted(key)} = {_quoted(text)}" for key, text in value.items())
        return f"{name} = {{ {pairs} }}\n"
    return f"{name} = {_quoted(value) if isinstance(value, str) else value}\n"


def _quoted(text: str) -> str:
    """Return a text between quotation marks; TOML escapes what JSON does, in the same way."""
    return json.dumps(text, ensure_ascii=False)


def _folded(line: str) -> str:
    """Return the text of a line over several lines, broken after bar lines."""
    lines: list[str] = []
    for bar in line.split(" | "):
        if lines and len(lines[-1]) + len(bar) + 5 <= _LONGEST_LINE:
            lines[-1] += f" | {bar}"
        else:
            lines.append(bar)
    return " |\n".join(lines)
