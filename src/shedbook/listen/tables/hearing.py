"""What is heard of a sound, and how finely.

The lowest and the highest pitch hold the sounding ranges of the instruments of the editions (common
practice: from the baritone saxophone's and the trombone's low notes to the flute's highest).
"""

from __future__ import annotations

LOWEST_MIDI, HIGHEST_MIDI = 36, 98
"""The lowest and the highest pitch that is heard."""

STEPS_A_SEMITONE = 5
"""How many pitches are tried in a half step."""

HOP_S = 128 / 24_000
"""The time from one frame to the next."""

WINDOW_S = 512 / 24_000
"""How much sound is compared with itself, and how much is looked at for its spectrum."""

LEVEL_S = 192 / 24_000
"""Over how much sound its level is taken."""

NEAR_RATE_HZ = 24_000
"""A recording is heard at its own rate over a whole number, as near to this as that comes."""

LEAST_RATE_HZ = 11_025
"""Under this rate too little is left of a high note to tell where it begins."""

SILENT_DBFS = -60.0
"""A recording whose loudest tenth lies under this holds nothing that could be judged (common practice)."""

PIECE_GAP_S, PIECE_MARGIN_S = 1.0, 0.35
"""Silence that parts two pieces of a recording, and how much of it stays with each."""
UNDER_LOUD_DB, OVER_FLOOR_DB = 38.0, 8.0
"""Silence lies so far under the loud tenth of a recording, or not farther than that over its quietest."""
LONGEST_PIECE_S = 180.0
"""Nobody plays longer without a breath of PIECE_GAP_S; a longer piece is cut."""
