"""Tables of `exchange.musicxml`: rows with their sources, no logic and no imports of other rooms."""
