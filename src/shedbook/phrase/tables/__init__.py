"""Tables of the phrase floor: data only, a source in every row."""
