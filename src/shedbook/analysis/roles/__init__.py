"""What each note does: reasons compete, and the cheapest set of them that covers the phrase wins.

Lives here: the names of the roles, the line as nodes, the reasons that a node can be given, their costs, and
the search for the cheapest cover. May import the room `hearing`, and `phrase` with the floors below it.
"""
