"""The bundle: what the author uploads and the customer unpacks, and the proof that it holds what it should.

Lives here: what a bundle says of itself (`manifest`, `music`), the zip files (`zip_file`, `zips`), what goes
in besides books and tracks (`student_readme`, `listing`, `pictures`, `sound_preview`), and one module for
each kind of file that is checked (`check_files`, `check_pdf`, `check_scores`, `check_tracks`). May import
`reading_back`, `pages`, `tracks` and what is below them.
"""
