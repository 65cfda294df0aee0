"""The keys and kits by which MIDI calls the drums.

Sources: keys, General MIDI 1 Percussion Key Map (MMA RP-003); for the brushes, drum set 40 of General MIDI 2
(from memory: 38 tap, 39 slap, 40 swirl).
"""

from __future__ import annotations

KICK, RIM, SNARE, TAP, SLAP, SWIRL = 36, 37, 38, 38, 39, 40
CLOSED, FOOT, OPEN, RIDE, BELL, CRASH = 42, 44, 46, 51, 53, 49
HIGH_TOM, MID_TOM, LOW_TOM = 48, 47, 43
FLOOR_TOM = 41
"""The deepest drum of the map; it stands for the low surdo of a samba, the low tom for the higher one."""
SHAKER = 70
CONGA_SLAP, CONGA_OPEN = 62, 63

STANDARD_KIT, BRUSH_KIT = 0, 40
"""Programs of channel 10, counted from 0."""
