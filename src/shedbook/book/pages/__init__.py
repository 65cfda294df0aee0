"""From the artefacts of phrases to the pages of an edition: what the template prints, and the Typst door.

It may import the scores and the rooms below them.
"""
