"""What stands in a score, before anything is drawn. Pure.

Lives here: the notes and rests of a phrase as they are written one by one, how bars are shared out on
systems, the phrase as MEI, the look of a score and its study marks. May import `editions` and what is below
it; nothing from the other rooms of `engrave`.
"""
