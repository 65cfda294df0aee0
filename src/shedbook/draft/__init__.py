"""New phrases, variants, drills and études: the rules by which a phrase is accounted for, turned round.

This floor proposes, and nothing that it makes lands in a manuscript by itself. It stands beside the renderers
and imports `dense_chains`, `editions`, `analysis` and what is below them. What may be asked:

- `drafting`: new phrases over changes. `order` is what is asked for and the hard rules that follow,
`rhythms` and
  `lines` the two exact lattices, `reading` what a draft must have, `likeness` what makes a set diverse.
- `variants`: a phrase transformed. `drills`: scales through patterns. `etudes`: studies over a form.

`ground` is what all of them stand on: changes, scales, and what every pitch class is there. Places are ticks,
twelve to a quarter; pitches are MIDI numbers until a line is written.
"""
