"""Standard MIDI Files read: from bytes to phrases.

The face of the room is `reader.read_midi`. May import `rhythm`, `phrases` and `ground` of `exchange`, and
`editions` and everything below.
"""
