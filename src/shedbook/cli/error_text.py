"""What a person, or a program that reads JSON, is told about an error."""

from __future__ import annotations

from shedbook.cli.terminal_text import harmless
from shedbook.errors import ReadError, ShedbookError


def error_text(error: ShedbookError) -> str:
    """Return what a person sees: the place, the line with what is wrong underlined, the message, the hint."""
    lines = []
    if isinstance(error, ReadError) and error.place is not None:
        lines += [text for text in (str(error.place), error.place.picture()) if text]
        lines.append(error.message)
    else:
        lines.append(f"shedbook: {error.message}")
    if error.hint:
        lines.append(f"  {error.hint}")
    return harmless("\n".join(lines), lines=True)


def error_item(error: ShedbookError, asked: str) -> dict[str, str]:
    """Return the JSON object for something that could not be read; `asked` is used where it has no place."""
    place = str(error.place) if isinstance(error, ReadError) and error.place is not None else ""
    return {"input": place or asked, "error": f"{error.message} {error.hint}".strip()}
