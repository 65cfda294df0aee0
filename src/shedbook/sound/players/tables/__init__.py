"""Tables of the players: costs, weights and figures, a source in every row."""
