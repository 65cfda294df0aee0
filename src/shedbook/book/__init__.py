"""The manuscript, the jobs and the store: what is built, in which order, from what.

Lives here: reading the author's folder, naming jobs by the hash of their inputs, running them, laying
out pages. May import every floor below. Everything an interface can do is one call in this package.
"""
