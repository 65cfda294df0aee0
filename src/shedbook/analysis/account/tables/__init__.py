"""Tables of the account: rows with their sources, no logic and no imports of other rooms."""
