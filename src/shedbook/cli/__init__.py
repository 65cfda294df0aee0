"""The command line: it reads arguments, calls one function of `book` and prints what comes back.

Lives here:

    main, known_verbs   finds the verb, runs it, and prints errors; which verbs there are, with their parsers
    verbs               a module for each verb, which loads the floor that does the work when it is called
    batch               verbs that answer for several items one after another
    argument_types, error_text, terminal_text, colour   what several verbs need
    command_reference, manual_page, completion_scripts  pages and scripts that are made from the parsers

May import every floor. `shedbook --help` loads no floor below, so that it stays quick.
"""
