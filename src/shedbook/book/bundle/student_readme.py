"""What a student reads first: which files there are, and what opens with what. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.book.bundle.manifest import (
    BOOK,
    MANIFEST,
    MIDI,
    MUSICXML,
    PRACTICE,
    TRACK,
    About,
)
from shedbook.book.ground.words import Words

README, LICENCE, CHANGES = "readme.txt", "licence.txt", "changes.txt"
_FOLDERS = ((BOOK, "pdf"), (TRACK, "tracks"), (MIDI, "midi"), (MUSICXML, "musicxml"), (PRACTICE, "practice"))
"""What the names of files begin with that are told of, and the row that says what opens them."""


def readme(
    about: About, edition: str, book: str, roles: Sequence[str], words: Words, *, transposes: bool
) -> str:
    """Return the text of the readme.

    Args:
        about: the book.
        edition: the title of the edition.
        book: the name of its PDF.
        roles: what there is in the zip: the roles of its files, and the names of its texts.
        words: the words of the book's language.
        transposes: whether the reader's keys have other names than those that sound.
    """
    heading = f"{about.title} · {edition} · {words('bundle.version', number=about.version)}"
    lines = [heading, "=" * len(heading), "", words("bundle.read me"), "", words("bundle.unpack"), ""]
    for role, row in _FOLDERS:
        if role in roles:
            name = book if role == BOOK else f"{row}/"
            lines.append(f"{name}: {words(f'bundle.{row}')}")
    for name, row in ((LICENCE, "licence"), (CHANGES, "changes"), (MANIFEST, "manifest")):
        if name in roles:
            lines.append(f"{name}: {words(f'bundle.{row}')}")
    if transposes and TRACK in roles:
        lines += ["", words("bundle.sounds")]
    lines += ["", words("bundle.care")]
    if about.licensee:
        lines += ["", words("licensee", name=about.licensee)]
    return "\n".join(lines) + "\n"
