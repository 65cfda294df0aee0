"""How loud each player is in the mix: MIDI's channel volume, 0 to 127.

General MIDI 2 gives 40·log10(127/volume) dB of attenuation. Aim (common practice): the bass and the ride
cymbal are the pulse; the drums together lie 4 to 8 dB under the bass, brushes some 9, the kick in swing is
felt rather than heard. Measured as LUFS of each player alone over four rounds, in ten feels with both
fonts of the table: the line 0 to 7 dB over the bass, the piano 1 dB over to 4 under, the drums 4 to 10 under.
"""

from __future__ import annotations

from types import MappingProxyType

VOLUMES = MappingProxyType({"line": 84, "bass": 100, "comping": 116, "drums": 127})
"""Player to channel volume."""
