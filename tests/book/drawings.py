"""What the jobs of the room scores draw of a phrase, without a store."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.artefacts import Picture, PlacingCard, Score
from shedbook.book.scores.engraving import Reading, draw_pictures, place_card
from shedbook.book.scores.inputs import PictureInput, pictures_of, placing_input
from shedbook.editions.instruments.edition import Edition


def text_of(**fields: Any) -> PhraseText:
    """Return the text of a phrase with these keys."""
    return PhraseText(fields)


def inputs_of(
    text: PhraseText, edition: Edition, settings: Settings, asked: tuple[str, ...] = ()
) -> tuple[PlacingCard, dict[str, PictureInput]]:
    """Return the card of a phrase in an edition, and the inputs of its pictures by their names."""
    card = place_card(placing_input(text, edition, settings, asked), Reading())
    return card, pictures_of(text, edition, card, settings)


def drawn(pictures: Mapping[str, PictureInput]) -> dict[str, Picture]:
    """Return the pictures of one phrase in one edition by their names; each must be drawn."""
    names = {id(picture): name for name, picture in pictures.items()}
    found: dict[str, Picture] = {}
    for picture, made in draw_pictures(list(pictures.values()), Reading()):
        assert isinstance(made, Picture), made
        found[names[id(picture)]] = made
    return found


def score_of(picture: Picture, key: str) -> Score:
    """Return a picture as the pages have it; no file lies anywhere."""
    return Score(path="", key=key, **asdict(picture.facts))
