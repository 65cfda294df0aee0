"""The format of a track, found by the ending of its file."""

from __future__ import annotations

from shedbook.errors import OutputError, nearest
from shedbook.sound.audio.tables.formats import FORMATS, FormatRow


def format_of(ending: str) -> FormatRow:
    """Return the format of a file's ending, such as ".mp3".

    Raises:
        OutputError: if there is none.
    """
    found = next((row for row in FORMATS if row.ending == ending.lower()), None)
    if found is None:
        said = f'A track cannot be written as "{ending}".' if ending else "The file's name has no ending."
        known = ", ".join(row.ending for row in FORMATS)
        hint = nearest(ending, [row.ending for row in FORMATS]) if ending else ""
        raise OutputError(said, hint=f"{hint} Endings that can be written: {known}.".strip())
    return found
