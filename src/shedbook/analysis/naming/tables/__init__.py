"""Tables of names: rows of words, no logic and no imports of other rooms."""
