"""What a teacher points at: lines of guide tones, motifs, frames, tension, rhythm, a skeleton, other homes.

Lives here: one module a device, each a pure function over an account that gives frozen values, whose places
are indices of notes and of spans. May import `account`, the rooms below it and the floors below; says nothing
in words.
"""
