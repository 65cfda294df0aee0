"""The author's files changed while they are open: what is written, merged, undone. It never loses a note.

Lives here: files with their line ends, three-way merging, the history of steps, and the steps themselves. May
import the rooms `manuscript` and `workshop`, and the ground. It knows no notes: a line is a text with bars.
"""
