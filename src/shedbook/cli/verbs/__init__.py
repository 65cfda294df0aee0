"""The verbs of the command line, a module each, named as the verb is.

Each module has `add_arguments(parser)` and `run(options) -> int`, the exit status. May import the modules of
`cli` that serve all verbs, except `cli.main`; loads the floor that does the work only when it is called.
"""
