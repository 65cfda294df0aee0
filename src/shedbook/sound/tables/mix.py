"""How loud each player is in the mix: MIDI's channel volume, 0 to 127.

General MIDI 2 gives 40·log10(127/volume) dB of attenuation. Measured on three demonstrations, both fonts
of the table and five instruments for the line: with these numbers the bass lies about 1 to 4 dB (LUFS)
under the line, the piano 2 to 6 dB, the drums 5 to 10 dB; with equal numbers piano and drums were lost
(12 and 17 dB under it).
"""

from __future__ import annotations

from types import MappingProxyType

VOLUMES = MappingProxyType({"line": 84, "bass": 100, "comping": 116, "drums": 127})
"""Player to channel volume."""
