"""How loudness is measured: the filters and gates of ITU-R BS.1770.

K_WEIGHTING has a row a filter, as (b0, b1, b2, 1, a1, a2) at 48 kHz: the head's shelf, then the high pass.
Sources: BS.1770-4, annex 1, tables 1 and 2 (filters), equations 2 to 7 (offset, windows of 400 ms that
overlap by three quarters, gates); annex 2 (four-fold oversampling).
"""

from __future__ import annotations

K_WEIGHTING = (
    (1.53512485958697, -2.69169618940638, 1.19839281085285, 1.0, -1.69065929318241, 0.73248077421585),
    (1.0, -2.0, 1.0, 1.0, -1.99004745483398, 0.99007225036621),
)

OFFSET_LU = -0.691
"""Brings a sine of 997 Hz at full scale in one channel to -3.01."""

HOPS_A_SECOND, HOPS_A_WINDOW = 10, 4

ABSOLUTE_GATE_LUFS, RELATIVE_GATE_LU = -70.0, -10.0

OVERSAMPLED = 4
