"""The tables of the screen: the sizes of cards, and the encoders. Data only."""
