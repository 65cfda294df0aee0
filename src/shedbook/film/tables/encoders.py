"""The encoders of a video, and what is asked of each.

Row format: the name by which an author asks for it, the encoders of picture and sound by FFmpeg's names,
their options, and what is said of it. The first is the default.

What is in the wheel of PyAV 18.1 (read from the files in it, and from what it lists): FFmpeg 8.1 under the
LGPL, SVT-AV1 (BSD-3-Clause-Clear, with the patent licence of the Alliance for Open Media), libvpx and libopus
(BSD-3-Clause), and x264 and x265, which are under the GPL-2.0-or-later and are linked by the same library.
AV1, VP9 and Opus ask no fee of anybody; H.264 and AAC are covered by patents in some countries.
A `preset` of SVT-AV1 above 10 shows small marks on a flat picture up to four frames early, 10 itself leaves
blocks behind where a mark has been (measured); `scm=1` is for pictures of a screen and keeps both away.
"""

from __future__ import annotations

from typing import NamedTuple


class EncoderRow(NamedTuple):
    """One way to encode a video."""

    name: str
    picture: str
    picture_options: tuple[tuple[str, str], ...]
    sound: str
    sound_rate: int
    says: str
    source: str


ENCODERS = (
    EncoderRow(
        "av1", "libsvtav1", (("preset", "9"), ("crf", "36"), ("svtav1-params", "scm=1")), "libopus", 160_000,
        "AV1 and Opus, free to use", "SVT-AV1's own list of parameters; measured",
    ),
    EncoderRow(
        "vp9", "libvpx-vp9",
        (("deadline", "realtime"), ("cpu-used", "6"), ("crf", "34"), ("row-mt", "1"), ("lag-in-frames", "0")),
        "libopus", 160_000, "VP9 and Opus, free to use, for older players", "libvpx's own list; measured",
    ),
    EncoderRow(
        "h264", "libx264", (("preset", "veryfast"), ("crf", "23")), "aac", 192_000,
        "H.264 and AAC, for anything that plays; the encoder is under the GPL, and patents may hold",
        "x264's own list, from memory",
    ),
)  # fmt: skip

KEY_FRAME_S = 4
"""How many seconds lie between two places to which a player can jump (common practice)."""
