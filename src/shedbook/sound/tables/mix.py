"""How loud each player is in the mix: MIDI's channel volume, 0 to 127.

General MIDI 2 gives 40·log10(127/volume) dB of attenuation. Measured on three demonstrations, both fonts of the
table and five instruments for the line: with these numbers the bass lies 3 to 5 dB (LUFS) under the line, the
piano 4 to 6 dB, the drums 8 to 11 dB; with equal numbers piano and drums were lost (12 and 17 dB under).
"""

from __future__ import annotations

from types import MappingProxyType

VOLUMES = MappingProxyType({"line": 84, "bass": 100, "comping": 116, "drums": 127})
"""Player to channel volume."""
