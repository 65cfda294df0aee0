"""What every room of `exchange` stands on.

Lives here: the line as long as its file that readers make (`long_line`), lengths and the note values that
make them (`note_lengths`), the values that a reader expects at a place of the bar (`written_values`), the
report of what could not be kept (`report`), guarded XML and zip files (`safe_xml`, `mxl_container`), and what
kind of file some bytes are (`file_kinds`). May import `phrase`, `theory`, `lattice` and `errors`, and no
other room of `exchange`.
"""
