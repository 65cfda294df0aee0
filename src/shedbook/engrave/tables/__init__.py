"""Tables of the engraver: letter outlines and the look of a score."""
