"""What a phrase means: the account of every note, links, coverage, findings and the explanation.

Lives here: pure functions from a phrase to values. May import `phrase` and the floors below it. Nothing here
prints, and nothing is guessed silently: a note that cannot be accounted for is called unaccounted.

The rooms, from the ground up; imports only go down:

    hearing   a phrase becomes harmony, chord scales, and notes as they are heard
    naming    the words of a language, and what notes, chords and scales are called in it
    roles     what each note does: explanations compete, and the cheapest set of them wins
    account   everything that is known of a phrase, in one value
    proof     rules, and what the proof-reader finds by them
    telling   the sentences of the explanation

`account_json` stands above all rooms: it writes account, findings and explanation as plain values for JSON.
"""
