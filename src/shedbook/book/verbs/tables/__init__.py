"""Tables of the verbs: data alone, each row with its source."""
