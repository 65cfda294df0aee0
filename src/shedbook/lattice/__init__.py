"""Least cost, k best, counts, sums and samples of paths. This room knows no music: weights in, paths out.

It stands under every other floor but `errors` and imports the standard library only. What may be asked:

- `graph`: any lattice, which is numbered nodes and weighted arcs from earlier to later ones. It gives totals
  in any semiring, from the start and from the goal, the least path, and samples.
- `ranked`: the paths of a lattice one by one, the best first.
- `chain`: layers of choices, with weights of choices and of neighbours. It gives totals in any semiring, the
  least row of choices, and samples.
- `cover`: a row of places to be covered by pieces. It gives the least cover.
- `grow`: states that are not known beforehand become a lattice, for everything above.
- `frontier`: the same where there are too many to be kept. It gives the least path alone.

A *semiring* (`semiring`) says how weights add up along a path and how paths are put together; one walk from
the start to the goal serves all of them, and one walk back chooses a path by what the first one found. With
numbers that is the forward filtering and backward sampling of hidden Markov models.

**The rule for ties**, the only one: *of equal paths the one is taken whose last arc was offered first; where
they share it, the one whose last arc but one was, and so on back to the start.* Whoever wants ties decided
from the front hands the lattice over the other way round, from its end to its start.

The k best follow in that order too. With whole or exact numbers everything here is the same on every
machine; sums of floating-point weights are rounded, so that equal paths may then differ in the last digit.

Sources, all from memory: Mohri 2002, "Semiring frameworks and algorithms for shortest-distance problems";
Goodman 1999, "Semiring parsing"; Huang and Chiang 2005, "Better k-best parsing"; Lawler 1972, "A procedure
for computing the K best solutions"; Carter and Kohn 1994 and Frühwirth-Schnatter 1994 (forward filtering,
backward sampling); Papadopoulos, Pachet, Roy and Sakellariou 2015, "Exact sampling for regular and Markov
constraints with belief propagation".
"""
