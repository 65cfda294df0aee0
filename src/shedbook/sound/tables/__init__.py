"""Tables that the whole floor reads: the kinds of tracks, the keys of the drums."""
