"""Tables of the arrangement: instruments, chords that lead back, the count-in."""
