"""The stage: where each player stands, how loud he is, how much of the room is heard, what a phone is given.

Source of all rows: common practice of mixing a small band; the figures are our own, measured with
`benchmarks.band_levels`.
"""

from __future__ import annotations

from types import MappingProxyType

PLACES = MappingProxyType({"line": 0.0, "bass": -0.12, "comping": 0.42, "drums": -0.2})
"""Player to his place: -1 is quite left, 1 quite right. The drums keep the width of their own samples."""

LOUDNESS_DB = MappingProxyType({"line": 4.0, "bass": 0.0, "comping": -2.0, "drums": -6.0})
"""Player to how loud he is alone, in LU over the bass; a feel may have its drums elsewhere
(`FeelDrums.level_db`).
Measured over the band's bars, the count-in left out."""

SIDES_DB = MappingProxyType({"line": 4.0, "bass": 0.0, "comping": 0.0, "drums": -6.0})
"""The same where bass and piano stand on sides of their own, each as loud as the other."""

ROOM_DB = MappingProxyType({"line": -21.0, "bass": -36.0, "comping": -22.0, "drums": -24.0})
"""Player to how much of him the room gives back, in dB under himself."""

ROOM_SECONDS, ROOM_LENGTH_SECONDS = 0.45, 0.4
"""In how long the room's sound falls by 60 dB, and after how long it is cut off."""

ROOM_DELAY_SECONDS, ROOM_HZ = 0.012, (220, 6500)
"""When the room first answers, and between which frequencies."""

DRIVE, DRIVE_DB, PHONE_BAND_HZ = 5.0, -8.5, (230, 2400)
"""How hard the bass is driven, how loud what that adds in the band of a phone is, in dB under the bass
itself: its fundamentals (41 to 196 Hz) do not come out of a phone, their overtones do."""

COUNT_IN_DB, MOST_COUNT_IN_DB = -1.0, 14.0
"""How loud the count-in is against the band, in LU, and by how many dB it is raised at most."""

VOICE_DB = 1.0
"""How loud a voice that counts is against the band, in LU: it must be understood."""

HEARD_SECONDS = 16
"""How much of a player is measured, from the middle of the track."""
