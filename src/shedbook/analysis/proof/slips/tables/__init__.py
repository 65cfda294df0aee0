"""The tables of the slips: aggregate figures of real lines, the kinds of slip, and the kinds of chord."""
