"""What surrounds a recorded lesson: cards, videos, the plan, the session; from phrases to pictures and files.

Lives here: phrases engraved for the screen and printed on cards, videos put together, the pages of a lesson
plan and of a take sheet. May import `pages`, `tracks`, `scores` and the rooms under them, and the floors
`film`, `lesson`, `engrave` and `sound`.
"""
