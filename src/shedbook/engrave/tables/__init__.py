"""Tables of the engraver: letter outlines."""
