"""The tables of reading back: data, one row each, with its source."""
