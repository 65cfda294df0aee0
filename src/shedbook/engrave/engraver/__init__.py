"""Verovio, and how its picture is read.

Lives here: the one door to Verovio, the reading of the SVG that it draws, and the geometry of SVG paths. May
import `engrave.notation`. Knows nothing of our own lettering.
"""
