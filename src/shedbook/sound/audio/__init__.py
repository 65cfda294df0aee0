"""From a performance to an audio file: synthesiser, loudness, encoding, tags, and playing it at once.

Each outside library has one module that imports it. May import `sound.score` and the floors below `sound`.
"""
