"""The screens for which cards and videos are made, and how large things must be on them.

Row format: name, width and height in pixels; the least and the greatest height of a staff; the sizes of the
title, of other words and of a caption. All in pixels.

How high a staff must be. A part on a stand has a staff of 7 mm, read at about 70 cm: a hundredth of the
distance (common practice). A phone is held at about 30 cm, where the same angle is 3 mm. An upright phone
shows a picture about 68 mm wide (from memory: the common sizes of screens): 1920 pixels of a wide picture
then have 28 to the millimetre, so that 3 mm are 84 pixels; 1080 pixels of an upright or a square picture
have 16, so that 3 mm are 48. Words are at least half as high as that staff.

What stands inside the middle nine tenths of each side is seen on any screen (the safe title area of SMPTE
ST 2046-1, from memory). On an upright picture the lowest part is often covered by the buttons of whatever
shows it (common practice), so that nothing stands there.
"""

from __future__ import annotations

from typing import NamedTuple


class ScreenRow(NamedTuple):
    """One size of card and video, in pixels; `covered` is the height at the foot that stays empty."""

    name: str
    width: int
    height: int
    least_staff: int
    most_staff: int
    title: int
    words: int
    caption: int
    covered: int
    source: str


SCREENS = (
    ScreenRow("wide", 1920, 1080, 84, 132, 56, 42, 44, 0, "1080 lines, 16:9 (ITU-R BT.709)"),
    ScreenRow("upright", 1080, 1920, 48, 96, 56, 36, 42, 240, "the same, on its side"),
    ScreenRow("square", 1080, 1080, 48, 84, 50, 34, 38, 0, "common practice"),
)

SAFE = 0.05
"""The share of each side that stays empty all round (SMPTE ST 2046-1, from memory)."""
