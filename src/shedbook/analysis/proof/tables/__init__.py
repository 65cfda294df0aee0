"""Tables of the proof."""
