"""MusicXML read and written, plain and compressed.

The faces of the room are `reader.read_musicxml` and `writer.musicxml`. May import `phrases` and `ground` of
`exchange`, and `editions` and everything below.
"""
