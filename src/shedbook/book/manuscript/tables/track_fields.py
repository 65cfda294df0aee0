"""The keys of the table [tracks] in manuscript.toml, and those of a recording in it.

Row format: as in the table of a phrase's keys. The source of every row is the design of the manuscript.
"""

from __future__ import annotations

from shedbook.phrase.tables.fields import FieldRow

TRACK_FIELDS: tuple[FieldRow, ...] = (
    FieldRow("kinds", "text or list", False, "none",
             'which tracks the build makes: "demonstration", "play-along", "line", "click", '
             '"call-and-answer", "twelve-keys", "loop", "tuning"'),
    FieldRow("phrases", "text, whole number or list", False, "every phrase",
             "the phrases that get tracks, by id, title or number"),
    FieldRow("formats", "text or list", False, "mp3", '"mp3", "flac", "opus", "wav", "mid"'),
    FieldRow("keys", "text or list", False, "home",
             '"home" for the phrase\'s own key, "all" for the keys of the book, or tonics: "C F Bb"'),
    FieldRow("tempos", "text or list of whole numbers", False, "book",
             '"book" for the tempos of the book, or the phrase\'s where it has none, "own" for the '
             'phrase\'s, "ladder" for slow, medium and goal, or beats a minute: [80, 120]'),
    FieldRow("rounds", "whole number", False, "4", "how often the phrase is played in a track"),
    FieldRow("count_in", "whole number", False, "what fits the tempo", "bars counted in"),
    FieldRow("loudness", "number", False, "-16", "how loud a track is as a whole, in LUFS"),
    FieldRow("sides", "true or false", False, "false",
             "the bass left and the piano right, so that either can be turned off"),
    FieldRow("sound_font", "text", False, "the best one there",
             "your own SoundFont, a .sf2 file; its place is counted from the manuscript's folder"),
    FieldRow("line_instrument", "text", False, "clarinet", "who plays the line"),
    FieldRow("comping_instrument", "text", False, "piano", "who plays the chords"),
    FieldRow("seed", "whole number", False, "0", "another number gives another bass line and other chords"),
    FieldRow("recordings", "list of tables", False, "",
             "your own recordings: each takes the place of one demonstration"),
)  # fmt: skip

RECORDING_FIELDS: tuple[FieldRow, ...] = (
    FieldRow("phrase", "text or whole number", True, "", "the phrase's id, title or number"),
    FieldRow("key", "text", False, "the phrase's own", "the tonic of the key that you play in"),
    FieldRow("tempo", "whole number", False, "the phrase's own", "the tempo that you play at"),
    FieldRow("file", "text", True, "", "the recording, from the manuscript's folder: media/low-tide.wav"),
)  # fmt: skip
