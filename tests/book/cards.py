"""Cards of an invented phrase: what a book knows of one that was read and placed."""

from shedbook.book.scores.artefacts import CycleKey, PhraseCard, PlacingCard

CARD = PhraseCard(
    title="Low tide",
    key="C minor",
    key_inferred=False,
    home="C minor",
    keys=("C minor",),
    metre="4/4",
    tempo=132,
    feel="swing",
    commentary="One\nline.\n\nAnother.",
    progression="minor ii–V–i",
    outline="0 3 7",
    links=(),
    progressions=("minor ii–V–i",),
    scale="locrian",
    scale_names=("locrian", "altered"),
    devices=("enclosure",),
    level=2,
)

HOME_KEY = CycleKey("C minor", "C minor")

PLACING = PlacingCard(
    home=HOME_KEY,
    keys=(HOME_KEY,),
    cycle=(HOME_KEY,),
    explanation=("It works.",),
    scales=(),
    transposes=False,
    names_concert=False,
)
