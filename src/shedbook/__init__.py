"""shedbook: improvisation phrases, each written once, become a study book in all twelve keys.

The floors and what may import what stand in ARCHITECTURE.md. This package root imports nothing.
"""
