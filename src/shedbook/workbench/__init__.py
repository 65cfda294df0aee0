"""The workbench: the manuscript in a browser on the author's machine, seen, heard, mended while it is typed.

It has no logic of its own: everything it does is a call of `book.verbs`. Lives here:

    serve            opens the port and the browser, and ends when told
    application      which address answers with what
    calls            what the scripts of the screens ask for
    guard            who may ask: this machine only, no other page, nothing too long
    room             the manuscript that is open, who is looking at it, what is being made
    helpers          worker processes that draw, read and play; each watches its parent
    chores           what a worker does, from plain values to plain values
    phrase_json      a phrase that was looked at, as the page reads it; plain_json, errors and keys
    note_words       why a note is there, in words
    making           a build in a process of its own, which can be stopped
    wording          the words of the screens; every one is a row of tables/words
    pages, static    the screens; static/vendor holds what was bundled from tools/editor

It stands beside `cli` and may import every floor below; nothing may import it but the verb that starts it.
"""
