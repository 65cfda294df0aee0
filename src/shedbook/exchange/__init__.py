"""Phrases to and from the files of other programs: MusicXML and Standard MIDI Files.

Lives here: readers that trust nothing, writers, and the report of what could not be kept. May import
`analysis`, `editions` and everything below.
"""
