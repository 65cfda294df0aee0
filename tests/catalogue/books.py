"""Small invented books to look into."""

from __future__ import annotations

from pathlib import Path

PHRASES = {
    "01-quay": ('title = "Quay"\nid = "quay"\nchanges = "Dm7b5 | G7b9 | Cm6 | %"\ntempo = 132\n'
                'line = "1/8 d5 f ab c6 bb5 ab g f | 1/8 ab5 g f d b4 d5 f ab | 1/4 g5 eb 1/2 c | 1/1 -"\n'
                'commentary = "The flat nine leans on the root."\n'),
    "02-mole": ('title = "Mole"\nchanges = "Dm7 | G7 | Cmaj7 | %"\nfeel = "bossa"\n'
                'line = "1/8 d5 f a c6 b5 a g f | 1/8t e5 f g 1/4 f 1/2 d | 1/4 e5 g 1/2 c | 1/1 -"\n'),
}  # fmt: skip
UP_A_STEP = (
    'title = "Pier"\nchanges = "Em7b5 | A7b9 | Dm6 | %"\n'
    'line = "1/8 e5 g bb d6 c6 bb5 a g | 1/8 bb5 a g e c#5 e g bb | 1/4 a5 f 1/2 d | 1/1 -"\n'
)
"""The first phrase a whole step higher."""


def book(folder: Path, **phrases: str) -> Path:
    """Write a manuscript with phrases by the names of their files, and return its folder."""
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text(f'title = "{folder.name.title()}"\n', encoding="utf-8")
    for name, text in phrases.items():
        (folder / "phrases" / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder


def shelf(root: Path) -> Path:
    """Write two books, one in a folder of its own, and return the folder that holds both."""
    book(root / "harbour", **PHRASES)
    book(root / "more" / "pier", **{"01-pier": UP_A_STEP})
    return root
