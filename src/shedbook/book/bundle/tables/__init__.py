"""Tables of the bundle: sizes of cover pictures, and what files of it are called."""
