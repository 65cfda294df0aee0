"""Data tables of listening: a source a row; no functions."""
