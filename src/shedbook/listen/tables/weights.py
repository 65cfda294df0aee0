"""Weights by which evidence is read. Fitted, not written by hand.

Both are fitted by `tools/fit_listening.py` (scikit-learn, SciPy) on 88 invented takes through eleven programs
of FluidR3 GM, none of which is among those on which the figures of docs/listening.md are measured. Another
run gives other figures in the second place. Those of REPEAT come of 132 more takes through the same programs.
"""

from __future__ import annotations

PITCH = [1.93, 1.81, 0.35, 1.64, -1.45, 2.11, -0.02, -0.51, -1.3, -2.08, 1.27, -3.59, 4.28, -1.32, 0.32]
"""What of a pitch's likeness speaks for it, in natural logarithms, in the order of `evidence.pitch_features`:
its own, its own in three ways of −log(1 − likeness), and that of its octaves, twelfths and others."""

VOICED = (0.241, 0.174, 4.525)
"""That a note sounds: for each dB from the loud tenth of the sound, for −log(1 − likeness), and at all."""

ONSET_FRAMES = range(-7, 10)
"""The frames around the beginning of a note that are looked at."""

ONSET = (
    (-0.296, -0.848, -1.946, -1.104, 0.466, 1.181, 0.545, -0.685),
    (-0.086, -0.246, -0.271, -0.028, 0.043, 0.556, 0.787, -0.211),
    (0.307, 0.891, -0.190, 0.547, 0.343, 0.399, 0.470, -0.209),
    (0.198, -0.294, 0.031, 0.441, 0.172, 0.142, 0.363, 0.042),
    (-0.390, 0.527, 1.264, -0.235, -0.141, -0.130, 0.567, 0.295),
    (-0.202, 0.966, 1.254, 0.520, -0.279, -0.817, 0.120, 0.593),
    (-0.257, 0.688, 1.132, 0.921, -0.274, -0.667, -0.166, 0.942),
    (-0.035, 0.052, 1.411, 0.786, -0.873, -0.706, -0.009, 1.002),
    (0.702, 1.123, 0.599, 0.308, -0.488, -0.525, -0.293, 1.102),
    (-0.256, 0.295, 0.900, 0.616, 0.283, -0.405, -0.177, 0.883),
    (-0.019, 0.083, 1.228, -0.194, 0.323, -0.428, -0.286, 1.057),
    (-0.098, -0.086, 0.385, -0.528, -0.005, -0.385, -0.182, 0.762),
    (0.043, 0.110, 0.199, -0.341, -0.029, -0.195, -0.236, 0.640),
    (0.120, -0.086, 0.524, -0.269, -0.120, -0.218, -0.029, 0.463),
    (0.145, -0.078, -0.283, -0.156, -0.069, -0.150, 0.237, 0.522),
    (0.192, 0.086, -0.463, -0.071, -0.194, 0.191, 0.467, 0.246),
    (0.184, -0.101, -0.392, 0.323, 0.109, 0.383, 0.526, 0.102),
)
"""That a note begins: a row a frame of ONSET_FRAMES; rise of the level, rise of the spectrum in five bands,
likeness of the best pitch, change of the pitch."""

ONSET_AT_ALL = -14.745
"""The same where nothing is seen, less what the share of beginnings in the data said beforehand."""

BANDS_HZ = (0, 600, 1500, 3500, 7000, 12000)
"""The bounds of the five bands."""

REPEAT = (0.131, 0.243, -0.41, 0.065, 0.538, 0.027, 0.025, 3.541, -6.058, -4.533)
"""That a note begins again at the pitch that sounds, in the order of `repeat_evidence.repeat_features`."""

REPEAT_AT_ALL = -2.833
"""The same where nothing is seen, less what the share of such beginnings in the data said beforehand."""
