"""Many books at once: finding phrases in them, near-duplicates, what they lack, and what an edition changed.

A catalogue is a folder with manuscripts anywhere beneath it. What is known of their phrases is kept in one
SQLite file, which can be thrown away at any time: it is made again from the text. Lives here: how a line is
written down for searching (`tune`), what is kept of a phrase (`entry`), the file (`index_file`), bringing it
up to date (`keeping`), what is asked (`asked`), the answers (`melodies`, `search`, `twins`, `gaps`), and the
comparison of two manuscripts (`errata`). May import `book` and the floors below it.
"""
