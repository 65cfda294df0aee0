"""Tables of `exchange.phrases`: rows with their sources, no logic and no imports of other rooms."""
