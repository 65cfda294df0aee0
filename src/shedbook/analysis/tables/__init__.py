"""Tables of the analysis: rows with their sources, no logic and no imports of other rooms."""
