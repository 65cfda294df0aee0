"""Tables of the ground: the fixed words of the pages, papers, styles of chord symbols."""
