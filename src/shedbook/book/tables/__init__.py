"""Tables of the book floor: data only."""
