"""Tables of the roles: rows with their sources, no logic and no imports of other rooms."""
