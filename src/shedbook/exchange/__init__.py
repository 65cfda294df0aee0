"""Phrases to and from the files of other programs: MusicXML and Standard MIDI Files.

The rooms, from the top down; each may import the rooms below it, and `analysis`, `editions` and everything
below those floors:

- `musicxml` and `midi` know the two formats, and nothing of each other;
- `phrases` makes phrases of a line as long as its file; `rhythm` makes written notes of played ones;
- `ground` holds what all of them use: the long line, lengths, the report, and the guards against bad files.
"""
