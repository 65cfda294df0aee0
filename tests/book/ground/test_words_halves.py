"""A book has words for every edition and clef of the tables. Source: our own design."""

import pytest

from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import check_names
from shedbook.editions.tables.editions import EDITIONS
from shedbook.editions.tables.instruments import CLEFS, ClefRow
from shedbook.errors import TableError


@pytest.mark.parametrize(
    ("edition", "word"),
    [
        (EDITIONS[1]._replace(name="d"), "edition.name.d"),
        (EDITIONS[1]._replace(written_above=(1, 3)), "interval.1.3"),
    ],
)
def test_an_edition_without_words(edition: object, word: str) -> None:
    with pytest.raises(TableError) as caught:
        check_names(ENGLISH, (*EDITIONS, edition), CLEFS)  # type: ignore[arg-type]
    assert caught.value.message == f'A book has no word "{word}".'
    assert "src/shedbook/book/ground/tables/words.py" in caught.value.hint


def test_a_clef_without_words() -> None:
    with pytest.raises(TableError, match=r'no word "clef\.C2"'):
        check_names(ENGLISH, EDITIONS, (*CLEFS, ClefRow(("mezzo",), "C2")))
