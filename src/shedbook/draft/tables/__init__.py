"""Tables of drafting: rules, leanings, patterns, progressions, figures of real lines."""
