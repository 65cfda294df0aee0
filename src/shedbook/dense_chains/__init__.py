"""Chains of choices on NumPy arrays: what `lattice.chain` does, for tables of hundreds of choices a side.

It is a floor of its own under the renderers, because the floors below it import the standard library only. It
knows no music either, and it gives what `lattice` gives, by the same rule for ties; the tests compare the
two.

- `least_cost`: the cheapest row of choices, where weights hang on one choice, on two neighbours or on three;
  the k cheapest rows.
- `sums`: exact counts, logarithms of sums, and samples in proportion to weights.

`single[place]` are the weights of the choices at a place, `pair[place]` those of a choice and the next one,
as [before, after], which is the other way round than in `lattice.chain`. There is a table fewer than there
are places. It imports `lattice` and NumPy, and nothing imports it but renderers and what stands above them.
"""
