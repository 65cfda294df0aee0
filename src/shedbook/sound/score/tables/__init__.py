"""Tables of performance: swing by tempo, timing of the players, loudness of the parts."""
