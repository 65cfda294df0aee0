"""The command line: it reads arguments, calls one function of `book` and prints what comes back.

Lives here:

    main                finds the verb, runs it, and prints errors
    verbs               a module for each verb, which loads the floor that does the work when it is called
    batch               verbs that answer for several items one after another
    argument_types, error_text, terminal_text   what several verbs need
    command_reference   the page of all commands, made from their help

May import every floor. `shedbook --help` loads nothing but `main` and `errors`, so that it stays quick.
"""
