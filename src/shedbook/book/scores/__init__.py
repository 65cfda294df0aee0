"""A phrase becomes artefacts: what is known of it, where it lies in each key of an edition, its pictures.

It may import the workshop, the manuscript and the ground. A job is a function of one frozen value of
`inputs`, and gives one of the values of `artefacts`.
"""
