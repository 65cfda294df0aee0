"""What is said in a lesson, and in which order a session is recorded; no pictures and no sound.

Rooms, from the top down; each may import those below it:

    session              takes in an order that spares lips, hands and ears, with rests
    plan                 the plan of a whole lesson: opening, phrases, closing
    talk | edits         what a teacher says of one phrase | the author's words kept beside new ones
    script | timing      the text that is read from, printed and read | how long it takes

May import `analysis`, `editions` and the floors under them. The words come in as a value of a language.
"""
