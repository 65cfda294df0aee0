"""What is said in a lesson, and in which order a session is recorded; no pictures and no sound.

Rooms, from the top down; each may import those below it:

    plan | session           the plan of a whole lesson | takes in an order that spares lips, hands and ears
    talk | edits | timing    what is said of one phrase | the author's words kept beside new ones | lengths
    script                   the text that is read from, printed and read

May import `analysis`, `editions` and the floors under them. The words come in as a value of a language.
"""
