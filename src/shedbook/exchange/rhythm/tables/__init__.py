"""Tables of `exchange.rhythm`: rows with their sources, no logic and no imports of other rooms."""
