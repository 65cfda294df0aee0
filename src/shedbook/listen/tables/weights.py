"""Weights by which evidence is read. Fitted, not written by hand.

Both are fitted by `tools/fit_listening.py` (scikit-learn, SciPy) on 88 invented takes through eleven programs
of FluidR3 GM, none of which is among those on which the figures of docs/listening.md are measured. Another
run gives other figures in the second place. Those of REPEAT come of 132 more takes through the same programs.
"""

from __future__ import annotations

PITCH = [2.05, 2.05, 0.04, 1.27, -1.82, 0.63, 0.66, -0.96, -1.38, -2.83, 1.39, -3.15, 3.98, -0.88, 0.19]
"""What of a pitch's likeness speaks for it, in natural logarithms, in the order of `evidence.pitch_features`:
its own, its own in three ways of −log(1 − likeness), and that of its octaves, twelfths and others."""

VOICED = (0.241, 0.174, 4.525)
"""That a note sounds: for each dB from the loud tenth of the sound, for −log(1 − likeness), and at all. These
are of an earlier fit, in whose takes some notes were lost: the takes have no ghost notes, and weights of
nothing but loud ones would call a soft note silence."""

ONSET_FRAMES = range(-7, 10)
"""The frames around the beginning of a note that are looked at."""

ONSET = (
    (-0.561, -1.058, -1.586, -1.200, 0.595, 1.381, 1.200, -0.535),
    (0.571, 0.168, -0.286, -0.111, 0.176, 0.457, 1.065, -0.152),
    (0.692, 0.364, -0.347, 0.163, 0.739, 0.550, 0.377, 0.104),
    (-0.300, 0.227, -0.335, 0.297, 0.441, 0.210, -0.220, 0.122),
    (0.141, 0.465, 1.122, 0.138, -0.476, -0.507, 0.158, 0.292),
    (-0.523, 1.111, 1.575, 0.828, -0.647, -0.793, 0.550, 0.397),
    (0.115, 0.288, 0.993, 1.138, 0.062, -0.581, 0.206, 0.996),
    (0.553, 0.289, 0.997, 1.232, -0.536, -0.757, 0.260, 1.255),
    (0.139, 0.494, 1.006, 0.484, -1.021, -0.507, -0.353, 1.469),
    (-0.051, 0.386, 1.015, 0.481, -0.146, -0.145, -0.232, 0.946),
    (-0.271, -0.081, 1.173, -0.193, 0.372, -0.025, -0.223, 1.087),
    (-0.273, 0.212, 0.624, -0.724, -0.020, -0.130, -0.201, 0.719),
    (0.075, -0.247, -0.224, -0.204, -0.339, -0.142, -0.216, 0.623),
    (0.107, -0.307, 0.275, -0.070, 0.077, -0.047, 0.112, 0.621),
    (-0.149, -0.047, 0.028, 0.120, -0.118, -0.025, 0.258, 0.154),
    (0.298, 0.119, 0.206, -0.125, -0.423, 0.052, 0.310, 0.305),
    (0.283, -0.324, -0.423, -0.119, 0.063, 0.329, 0.596, -0.232),
)
"""That a note begins: a row a frame of ONSET_FRAMES; rise of the level, rise of the spectrum in five bands,
likeness of the best pitch, change of the pitch."""

ONSET_AT_ALL = -16.339
"""The same where nothing is seen, less what the share of beginnings in the data said beforehand."""

BANDS_HZ = (0, 600, 1500, 3500, 7000, 12000)
"""The bounds of the five bands."""

REPEAT = (0.138, 0.253, -0.421, 0.060, 0.531, 0.033, 0.023, 3.537, -5.858, -4.655)
"""That a note begins again at the pitch that sounds, in the order of `repeat_evidence.repeat_features`."""

REPEAT_AT_ALL = -2.859
"""The same where nothing is seen, less what the share of such beginnings in the data said beforehand."""
