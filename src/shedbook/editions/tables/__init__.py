"""Tables of the editions: costs and orders, one row each with its reason and its source."""
