"""Tables of the keys that manuscript.toml may hold."""
