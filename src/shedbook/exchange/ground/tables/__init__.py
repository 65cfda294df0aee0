"""Tables of `exchange.ground`: rows with their sources, no logic and no imports of other rooms."""
