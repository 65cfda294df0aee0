"""What counts against keeping a take, in points; the least points are kept. Common practice; no source.

Wrong notes cannot be mended, cut-off sound can hardly be; a take a little out of tune can be used.
"""

from __future__ import annotations

A_WRONG_NOTE, A_MISSING_NOTE, AN_EXTRA_NOTE = 4.0, 4.0, 3.0
A_CLIPPED_PLACE = 3.0
NOISE_FROM_DB, A_DB_OF_NOISE = 35.0, 0.3
"""A take whose notes lie less than so many dB over the noise; points for each dB that it lies lower."""
SPREAD_FROM_CENTS, A_CENT_OF_SPREAD = 8.0, 0.25
"""Notes that lie farther than that from the take's own tuning (median)."""
TUNING_FROM_CENTS, A_CENT_OF_TUNING = 12.0, 0.15
"""The whole take, from the A4 asked for."""
DRIFT_FROM, A_PERCENT_OF_DRIFT = 0.03, 0.4
"""The tempo from beginning to end."""
OFF_TEMPO_FROM, A_PERCENT_OFF_TEMPO = 0.04, 0.3
"""The tempo from that of the phrase."""
MOST_SLIPS_SHARE = 0.25
"""A take with more slips than this share of its notes is not kept by itself."""
OUT_OF_TUNE_CENTS = 20.0
"""A single note this far from the take's own tuning is named (common practice: clearly heard in a line)."""
