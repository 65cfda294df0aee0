"""Tables of drafting: rules, leanings, patterns, progressions, and figures counted and fitted on real lines."""
