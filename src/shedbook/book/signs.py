"""Flats and sharps for the page: the text fonts have none, so they are small pictures of the music font's."""

from __future__ import annotations

from shedbook.engrave.tables.outlines import OUTLINES

_SIGNS = (("flat", "♭"), ("sharp", "♯"))
_RISE, _FALL = 760, 300
"""How far a picture reaches over and under the base line, in thousandths of the type size."""


def sign_pictures() -> dict[str, str]:
    """Return the accidentals as SVG, by name; the base line lies at 760 of 1060 from the top."""
    found = {}
    for name, character in _SIGNS:
        _, left, right, outline = OUTLINES["music"][character]
        found[name] = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left - 20} {-_RISE} {right - left + 40} '
            f'{_RISE + _FALL}" width="{right - left + 40}" height="{_RISE + _FALL}">'
            f'<path transform="translate(0 -250)" fill="#1a1816" d="{outline}"/></svg>'
        )
    return found
