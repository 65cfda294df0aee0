"""Tables that the whole floor reads: the kinds of tracks."""
