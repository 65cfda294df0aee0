"""The kinds of clicks: every beat; the backbeat; the first beat; each of them for some bars, round about."""

from __future__ import annotations

CLICKS = ("beats", "2 and 4", "1", "thinning")
"""Source: common practice of practising with a metronome."""

COUNTS = STRUCK, SPOKEN, BOTH = "struck", "spoken", "both"
"""How a track is counted in: with strokes, with a voice, with both. Source: common practice."""
