"""Tables of the players: patterns, costs and figures, a source a row."""
