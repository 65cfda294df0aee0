"""Wrong glyphs planted into a score's SVG, one a picture, chosen by seeded chance.

Each changes what a player would read: a fault that no reader could see is none.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path
from random import Random

from shedbook.engrave.tables.outlines import OUTLINES

Plant = Callable[[str, Random], str | None]
"""Returns the picture with one fault, or None where there is nothing to spoil."""

_SIGN = re.compile(r'<use href="#sE26[0-4]" (?:x="-?\d+" y="-?\d+"|transform="[^"]*")/>')
_HEAD = re.compile(r'<use href="#s(E0A[34])" x="(-?\d+)" y="(-?\d+)"/>')
_BEAM = re.compile(r'<polygon points="(-?\d+),(-?\d+) (-?\d+),(-?\d+) (-?\d+),(-?\d+) (-?\d+),(-?\d+)"/>')
_TIE = re.compile(
    r'<path d="M[^"]*C[^"]*" stroke="currentColor" stroke-width="\d+" stroke-linejoin="round"/>'
)
_LETTER = re.compile(
    r'<use href="#(sb[0-9a-f]{2}|sm266[df])" '
    r'transform="translate\(-?\d+ -?\d+\)scale\((\.441|\.362|\.494)\)"/>'
)


def _verovio_data() -> Path:
    spec = find_spec("verovio")
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent / "data" / "Leipzig"


def _with_music(svg: str, code: str) -> str:
    """Return a picture that defines this glyph of the music font."""
    if f'id="s{code}"' in svg:
        return svg
    data = re.search(r' d="([^"]*)"', (_verovio_data() / f"{code}.xml").read_text("utf-8"))
    assert data is not None
    definition = f'<path id="s{code}" transform="scale(0.72 -0.72)" d="{data[1]}"/>'
    return svg.replace("<defs>", f"<defs>{definition}", 1)


def _with_letter(svg: str, character: str) -> str:
    """Return a picture that defines this semibold letter."""
    name = f"sb{ord(character):x}"
    if f'id="{name}"' in svg:
        return svg
    path = OUTLINES["sans-semibold"][character][3]
    return svg.replace("<defs>", f'<defs><path id="{name}" d="{path}"/>', 1)


def _pick(pattern: re.Pattern[str], svg: str, dice: Random) -> re.Match[str] | None:
    found = list(pattern.finditer(svg))
    return dice.choice(found) if found else None


def _put(svg: str, match: re.Match[str], text: str) -> str:
    return svg[: match.start()] + text + svg[match.end() :]


def wrong_accidental(svg: str, dice: Random) -> str | None:
    """Take an accidental away, put another in its place, or move it by half a space."""
    match = _pick(_SIGN, svg, dice)
    if match is None:
        return None
    way = dice.randrange(3)
    if way == 0:
        return _put(svg, match, "")
    if way == 1:
        code = match[0][13:17]
        other = dice.choice([one for one in ("E260", "E261", "E262") if one != code])
        return _with_music(_put(svg, match, match[0].replace(code, other)), other)
    moved = re.sub(r' y="(-?\d+)"', lambda y: f' y="{int(y[1]) + dice.choice((-90, 90))}"', match[0])
    return _put(svg, match, moved) if moved != match[0] else _put(svg, match, "")


def wrong_head(svg: str, dice: Random) -> str | None:
    """Move a head by half a space, make a black one white or a white one black, or take it away."""
    match = _pick(_HEAD, svg, dice)
    if match is None:
        return None
    code, x, y = match.groups()
    way = dice.randrange(3)
    if way == 0:
        return _put(svg, match, f'<use href="#s{code}" x="{x}" y="{int(y) + dice.choice((-90, 90))}"/>')
    if way == 1:
        other = "E0A3" if code == "E0A4" else "E0A4"
        return _with_music(_put(svg, match, f'<use href="#s{other}" x="{x}" y="{y}"/>'), other)
    return _put(svg, match, "")


def wrong_beam(svg: str, dice: Random) -> str | None:
    """Take a beam away, shorten it by its last note, or put a second one beside one that stands alone."""
    match = _pick(_BEAM, svg, dice)
    if match is None or _is_covered(svg, match):
        return None
    x1, y1, x2, y2, x3, y3, x4, y4 = map(int, match.groups())
    others = [one for one in _BEAM.finditer(svg) if one[0] != match[0]]
    alone = all(abs(int(one[1]) - x1) > 40 or abs(int(one[2]) - y1) > 400 for one in others)
    hook = x2 - x1 < 400
    way = dice.randrange(3)
    if way == 0 or (way == 1 and hook) or (way == 2 and not alone):
        return _put(svg, match, "")
    if way == 1:
        short = x2 - 250
        return _put(svg, match, f'<polygon points="{x1},{y1} {short},{y2} {short},{y3} {x4},{y4}"/>')
    side = 135 if _stems_reach_down_from(svg, x1, y1) else -135
    second = f"{x1},{y1 + side} {x2},{y2 + side} {x3},{y3 + side} {x4},{y4 + side}"
    return _put(svg, match, f'{match[0]}<polygon points="{second}"/>')


def _is_covered(svg: str, beam: re.Match[str]) -> bool:
    """Say whether another beam lies over the end of this one, so that nobody sees it go."""
    x1, y1, x2, y2 = (int(number) for number in beam.groups()[:4])
    for other in _BEAM.finditer(svg):
        if other[0] != beam[0]:
            left, start, right, end = (int(number) for number in other.groups()[:4])
            for x, y in ((x1, y1), (x2, y2)):
                if left - 30 <= x <= right + 30 and right > left:
                    level = start + (end - start) * (x - left) / (right - left)
                    if abs(level - y) < 60 or abs(level - y) in (90, 91):
                        return True
    return False


def _stems_reach_down_from(svg: str, x: int, y: int) -> bool:
    """Say whether the heads of a beam that begins here lie below it."""
    for stem in re.finditer(r'<path d="M(-?\d+) (-?\d+)V(-?\d+)"', svg):
        if abs(int(stem[1]) - x) < 30 and abs(int(stem[3]) - y) < 120:
            return int(stem[2]) > int(stem[3])
    return False


def wrong_tie(svg: str, dice: Random) -> str | None:
    """Take a tie or a slur away."""
    match = _pick(_TIE, svg, dice)
    return None if match is None else _put(svg, match, "")


def wrong_chord_symbol(svg: str, dice: Random) -> str | None:
    """Put another letter or figure into a chord symbol, or turn or drop its accidental."""
    match = _pick(_LETTER, svg, dice)
    if match is None:
        return None
    name = match[1]
    if name in ("sm266d", "sm266f"):
        return _put(svg, match, "")
    character = chr(int(name[2:], 16))
    others = "ABCDEFG" if character in "ABCDEFG" else "6m79" if character in "m679" else ""
    if not others:
        return _put(svg, match, "")
    other = dice.choice([one for one in others if one != character])
    return _with_letter(_put(svg, match, match[0].replace(name, f"sb{ord(other):x}")), other)


_ARTICULATION = re.compile(r'<use href="#s(E4A[0-5])" x="(-?\d+)" y="(-?\d+)"/>')
_GHOST = re.compile(r'(<use href="#sE26A"[^>]*/>)(<use href="#sE26B"[^>]*/>)')
_STROKE = re.compile(
    r'<path d="M(-?\d+) (-?\d+)(c[^"]*)" fill="none" stroke="currentColor" stroke-width="24"[^>]*>'
)
_DEGREE = re.compile(
    r'<use href="#(sa3[0-9]|sm266[df])" transform="translate\((-?\d+) (-?\d+)\)scale\((\.27|\.329)\)"/>'
)


def wrong_mark(svg: str, dice: Random) -> str | None:
    """Spoil an accent, a dot, a dash, a bracket of a ghost note, a fall or a scoop.

    It is taken away, put to another note or another place, or turned into another one.
    """
    match = _pick(dice.choice((_ARTICULATION, _GHOST, _STROKE)), svg, dice)
    if match is None:
        return None
    way = dice.randrange(3)
    if match.re is _GHOST:
        return _put(svg, match, ("", match[1], match[2])[way])
    if way == 0:
        return _put(svg, match, "")
    x, y = (int(match[2]), int(match[3])) if match.re is _ARTICULATION else (int(match[1]), int(match[2]))
    if match.re is _STROKE:
        moved = f"M{x + dice.choice((-400, 400))} {y}" if way == 1 else f"M{x} {y + dice.choice((-180, 180))}"
        return _put(svg, match, match[0].replace(f"M{x} {y}", moved))
    if way == 1:
        return _put(svg, match, match[0].replace(f'x="{x}"', f'x="{x + dice.choice((-400, 400))}"'))
    kinds = ("E4A0", "E4A2", "E4A4") if match[1] in ("E4A0", "E4A2", "E4A4") else ("E4A1", "E4A3", "E4A5")
    other = dice.choice([one for one in kinds if one != match[1]])
    return _with_music(_put(svg, match, match[0].replace(match[1], other)), other)


def wrong_degree(svg: str, dice: Random) -> str | None:
    """Put another figure into a degree, turn or drop its accidental, or drop a figure."""
    match = _pick(_DEGREE, svg, dice)
    if match is None:
        return None
    if match[1] in ("sm266d", "sm266f"):
        other = "sm266f" if match[1] == "sm266d" else "sm266d"
        turned = match[0].replace(match[1], other) if f'id="{other}"' in svg and dice.random() < 0.5 else ""
        return _put(svg, match, turned)
    others = [name for name in re.findall(r'id="(sa3[0-9])"', svg) if name != match[1]]
    put = match[0].replace(match[1], dice.choice(others)) if others and dice.random() < 0.7 else ""
    return _put(svg, match, put)


_TEMPO = re.compile(
    r'<use href="#(ss[0-9a-f]{2}|smquarter|smhalf|smeighth|smdot)" '
    r'transform="translate\([^)]*\)scale\([^)]*\)"/>'
)


def wrong_tempo(svg: str, dice: Random) -> str | None:
    """Put another letter, figure or note into feel and tempo, or drop one."""
    match = _pick(_TEMPO, svg, dice)
    if match is None:
        return None
    kind = match[1][:2]
    others = [name for name in re.findall(r'id="(ss[0-9a-f]{2}|smquarter|smhalf)"', svg) if name[:2] == kind]
    others = [name for name in others if name != match[1]]
    put = match[0].replace(match[1], dice.choice(others)) if others and dice.random() < 0.7 else ""
    return _put(svg, match, put)


PLANTS: dict[str, Plant] = {
    "accidental": wrong_accidental,
    "head": wrong_head,
    "beam": wrong_beam,
    "tie": wrong_tie,
    "chord symbol": wrong_chord_symbol,
    "mark": wrong_mark,
    "degree": wrong_degree,
    "tempo": wrong_tempo,
}
