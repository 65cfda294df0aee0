"""How real lines move: the figures of `draft/figures.py`, fitted to them.

Written by `python -m tools.draft_figures`; do not edit. Figures are hundredths of a natural logarithm, in the
order of `draft.figures.SHAPES`, the last index first.
Source: 21900 notes of two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside
the Jazzomat, 2017; Open Database Licence). Held out, a note costs 2.33 nats; by its interval alone 2.56.
"""

from __future__ import annotations

from typing import Final

# fmt: off
LINE_FIGURES: Final[dict[str, str]] = {
    "moves": """
-20 -17 -12 -20 -2 -45 -30 -23 -48 -2 5 32 22 60 46 47 -4 36 -22 -21 2 7 4 5 2
-19 -12 -20 -14 -14 -14 -25 9 -18 12 11 31 191 -7 -32 4 -31 -1 -17 -5 -3 -9 -4 -6 -8
9 -26 -23 -7 8 -26 -24 23 -3 28 -10 43 -22 50 71 32 -30 16 -40 -30 8 -12 -10 2 -26
-6 -18 -24 23 -10 -5 -11 12 2 26 38 -44 -20 84 88 58 -61 34 -40 -41 -8 -12 -28 -16 -18
-11 -23 -16 49 -10 -41 -12 33 -27 50 8 6 -32 -16 7 78 51 72 -39 -39 1 -17 -26 -19 -26
-10 -17 -17 11 11 10 19 78 -36 10 36 -24 -2 -22 -7 18 18 3 -27 -17 -10 -12 -1 -7 -6
9 -1 9 22 0 -10 21 26 -14 22 -13 5 -15 13 -1 -26 -14 -15 -4 -12 -3 2 -2 4 -2
-12 -14 -18 3 1 -46 -30 30 7 23 101 123 -13 26 -30 -2 -53 -24 -22 -36 14 8 -8 -9 -21
-23 -17 -28 19 19 -35 -29 66 -13 64 77 76 -25 8 21 -46 -54 24 -36 -27 2 -1 0 -16 -25
-25 -6 -21 -5 -10 -63 -24 80 46 61 2 -26 -33 24 11 10 -33 60 -2 -13 22 24 -40 -20 -19
-8 -5 -8 -5 -9 -27 -4 -4 19 19 -5 -48 -17 -4 -20 58 -4 75 7 6 3 4 -3 -9 -14
-1 -1 3 -2 -2 -6 -1 -4 -30 -29 -32 -23 -20 -3 19 42 -1 34 -8 22 33 15 11 -7 -9
""",
    "runs": """
0 0 8 -8 -15 15 -17 17 -18 18 -32 32 -35 35
""",
    "degrees": """
46 46 -57 -51 34 52 -17 18 47 37 -21 -23 -34 -51 50 56 -38 -53 22 1 -40 -18 7 -15 23
10 -28 -13 26 20 30 36 -47 -36 31 36 -11 10 31 17 -23 -20 -40 -46 4 -15 4 1 31 22
-11 -11 19 10 -16 8 -3 3 13 6 -33 -32 26 -8 -7 3 -4 11 -1 2 -14 -14 14 -3 -2
14 7 17 33 19 -27 -11 -6 -30 -3 6 -4 -9 20 8 -13 -1 15 -15 -34 5 -4 5 6 4
-17 -20 27 25 -23 0 15 7 -14 -16 -14 6 -8 -7 25 0 4 -1 3 -5 -12 0 -7 -10 -27
-12 -10 -20 17 5 -35 -19 37 24 -11 3 9 2 54 13 -10 -2 -4 16 0 0 0 0 0 0
0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0 0
""",
    "standings": """
54 41 33 13 17 11 -67 -58 -44
""",
    "endings": """
73 -29 -31 6 2 -2 -24 44 -2 8 -17 -29
""",
    "guides": """
6 -6
""",
    "enters": """
-7 17 -17 -20 12 15
""",
    "waits": """
-36 142 122 68 -77 -220 -24 121 120 68 -76 -208 40 59 78 47 -66 -158 33 41 72 43 -58 -131 0
0 0 0 0 0
""",
    "resolving": """
8 -23 -23 -19 -16 -2 -41 3 -11 15 18 13 55 55 13 31 -23 28 -28 4 -3 -4 -22 -23 -5
""",
    "register": """
10 -152
""",
    "starts": """
-286 -293 -193 -110 -32 -21 -13 0 -26 -102 -161 -300 -349
""",
    "start_degrees": """
0 -116 -38 -77 -79 -68 -116 -5 -125 -77 -72 -116
""",
    "progress": """
-13 2 10 -1 1 0 2 5 -6 15 -7 -8 11 11 -22
""",
    "fingering": """
0
""",
}

WHOLE_FIGURES: Final[dict[str, float]] = {
    "cells of three again": 4.0712,
    "cells of four again": -3.6179,
    "pitches": -16.0143,
    "span": -0.0277,
    "deviation": 4.0163,
    "back again": -6.6804,
    "longest run": -0.8833,
    "mean run": -2.6664,
    "turns": -5.4190,
    "end height": -0.0435,
    "start height": -0.0287,
    "peak": -1.5546,
    "up": 3.9999,
    "repeated notes": 2.5205,
    "half steps": 1.0988,
    "whole steps": -1.5950,
    "minor thirds": 3.4366,
    "major thirds": -1.8295,
    "fourths": 1.2026,
    "tritones": -6.8975,
    "fifths": -6.5336,
    "sixths": -1.9959,
    "sevenths": -28.3378,
    "octaves": -20.4118,
    "leaps turned back": -0.2177,
    "leaps to a step": 0.2985,
    "chord strong": -1.1332,
    "outside strong": 0.0254,
    "chord on the beat": -0.0638,
    "outside on the beat": -0.6134,
    "chord off the beat": -0.8076,
    "outside off the beat": -4.9613,
    "outside by half step": -0.2419,
    "outside twice": 0.5921,
    "links": 0.2144,
    "links by step": -0.4375,
    "guides at links": -0.1764,
    "last in chord": 0.1382,
    "last root": 0.0325,
    "no cells of three again": -0.2962,
    "no cells of four again": -0.3788,
    "no repeated notes": 1.2091,
    "no outside strong": 0.5315,
    "no half steps": 0.3859,
    "cells of three again squared": 6.3385,
    "cells of four again squared": 57.5414,
    "pitches squared": 4.5629,
    "span squared": -0.1037,
    "deviation squared": 0.1191,
    "back again squared": 4.2516,
    "longest run squared": 0.1987,
    "mean run squared": 0.2907,
    "turns squared": 1.9060,
    "end height squared": 0.1535,
    "start height squared": 0.0876,
    "peak squared": 1.3600,
    "up squared": -2.8609,
    "repeated notes squared": -22.7908,
    "half steps squared": -6.6502,
    "whole steps squared": -2.1024,
    "minor thirds squared": -5.2639,
    "major thirds squared": 14.1322,
    "fourths squared": 18.1638,
    "tritones squared": 55.0511,
    "fifths squared": 34.3296,
    "sixths squared": 47.9977,
    "sevenths squared": 152.5971,
    "octaves squared": 127.0099,
    "leaps turned back squared": 0.1499,
    "leaps to a step squared": -0.1121,
    "chord strong squared": 1.0476,
    "outside strong squared": 1.4641,
    "chord on the beat squared": 0.0313,
    "outside on the beat squared": 1.1217,
    "chord off the beat squared": 0.4753,
    "outside off the beat squared": 9.6683,
    "outside by half step squared": 0.8421,
    "outside twice squared": 2.5396,
    "links squared": 0.1360,
    "links by step squared": 0.6792,
    "guides at links squared": 0.2332,
}
