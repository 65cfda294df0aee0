"""A book in another language: no English row leaks through, and a real table of note names."""

import json
import re
import tomllib
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import pytest

from book import drawings
from shedbook.analysis.account import account
from shedbook.analysis.naming.spoken_names import symbol_words
from shedbook.analysis.naming.tables.findings import FINDINGS
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.analysis.telling import explain
from shedbook.book.ground.json_values import to_json
from shedbook.book.ground.language_page import language_page
from shedbook.book.ground.printed_text import printed_prose
from shedbook.book.ground.tables.bundle_words import BUNDLE
from shedbook.book.ground.tables.finding_words import OF_A_BOOK
from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.book.ground.tables.plan_words import PLAN
from shedbook.book.ground.tables.practice_words import PRACTICE
from shedbook.book.ground.tables.words import ENGLISH, LISTS, PAGES
from shedbook.book.ground.words import EN, Words, gaps, opened, words_of
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.pages.book_pages import page_data
from shedbook.book.pages.book_text import book_text
from shedbook.book.pages.data import BookData
from shedbook.book.pages.phrase_pages import PhrasePages
from shedbook.book.pages.prose import sentence_runs
from shedbook.book.scores.artefacts import CHANGES, HOME
from shedbook.book.scores.engraving import Reading, read_card
from shedbook.book.scores.inputs import card_input, looks_of, scale_name
from shedbook.book.scores.study import marks_of, spoken_of, study
from shedbook.book.scores.worker import PhraseOrder, picture_names, pictures_in, placing_name
from shedbook.book.verbs.explain import explain_file
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.tables.edition_rules import EDITION_WORDS
from shedbook.errors import ManuscriptError, ReadError
from shedbook.phrase.fields import phrase_from_fields

ROOT = Path(__file__).parents[3]
DEMO = ROOT / "examples/tidewater"


def marked(name: str, text: str) -> str:
    """Return a row in a language of marks: its gaps, and nothing that an English row has."""
    if name in LISTS:
        return " ".join(f"‹{name}{place}›" for place in range(len(text.split())))
    return f"‹{name}›" + "".join(f"⟨{{{gap}}}⟩" for gap in sorted(gaps(text))) + "‹›"


# Rows that only hand on what others give, and so cannot hide an English word, stay as they are: a row of
# marks would have the same gap twice.
HANDED_ON = {
    name
    for name, text in ENGLISH.items()
    if text in ("{usual}", "{symbol}", "{Text}", "{lower text}", "{tonic}")
}
MARKED = {
    name: text if name in HANDED_ON else marked(name, text) for name, text in ENGLISH.items()
}  # fmt: skip

WORD = re.compile(r"[A-Za-z]{2,}|[A-Z](?![a-z])")
"""An English word, or the name of a note."""


def leaks(text: str, allowed: set[str]) -> list[str]:
    """Return the words of a text that are no row's name, and not allowed."""
    bare = re.sub(r"‹[^›]*›", " ", text)
    bare = re.sub(r"⟨[A-G][♭♯]?m?\d[^⟩]*⟩", " ", bare)  # a chord that the phrase need not have
    for name in sorted(allowed, key=len, reverse=True):
        bare = bare.replace(name, " ")
    return WORD.findall(bare)


def manuscript(tmp_path: Path, rows: dict[str, str], fields: str = "") -> Manuscript:
    phrases = tmp_path / "phrases"
    phrases.mkdir(parents=True)
    (phrases / "01.toml").write_text(
        'title = "0"\nchanges = "Dm7b5 | G7b9 | Cm6 | %"\ntempo = 132\nkey = "C minor"\n'
        'line = """1/8 f4 ab c5 eb d c b4 ab | b d5 f ab g# f eb db | 1/4 c5 eb 1/8 g4 a b d5 | 1/1 c5"""\n',
        encoding="utf-8",
    )
    words = "\n".join(f"{json.dumps(name)} = {json.dumps(text)}" for name, text in rows.items())
    (tmp_path / "manuscript.toml").write_text(f'title = "0"\n{fields}\n[words]\n{words}\n', encoding="utf-8")
    return open_manuscript(tmp_path)


def data_of(book: Manuscript, edition_name: str) -> BookData:
    """Return the data of the pages of a book's first phrase, its scores drawn in the home key."""
    edition = edition_named(edition_name)
    source, settings = book.phrases[0], book.settings
    placing, pictures = drawings.inputs_of(source.text, edition, settings)
    scales = [scale_name(place) for place in range(len(placing.scales))]
    drawn = drawings.drawn({name: pictures[name] for name in (HOME, *scales, CHANGES)})
    score = {name: drawings.score_of(picture, placing.home.written) for name, picture in drawn.items()}
    pages = PhrasePages(
        1,
        read_card(card_input(source.text, settings), Reading()),
        replace(placing, keys=(placing.home,)),
        score[HOME],
        (score[HOME],),
        tuple(score[name] for name in scales),
        score[CHANGES],
    )
    book_of_edition = book_text(book, Request(book.root, book.root), edition, [placing])
    return page_data(book_of_edition, [pages], proof=False)


def names_of_scales(book: Manuscript) -> dict[int, str]:
    """Return the names of scales that stand over the notes of a book's first phrase."""
    look = looks_of(book.settings).key.score
    words = words_of(look.language.tag, dict(look.language.own))
    return dict(marks_of(study(read_phrase(book.phrases[0])), look.marks, words).scales)


def texts(value: object) -> list[str]:
    """Return every text in a JSON value."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        return [text for inner in value.values() for text in texts(inner)]
    return [text for inner in value for text in texts(inner)] if isinstance(value, (list, tuple)) else []


ROOTS = [letter + sign for letter in "CDEFGAB" for sign in ("", "♭", "♯")]


def test_no_english_row_leaks_into_an_explanation() -> None:
    words = Words(MARKED)
    symbols = set[str]()
    for source in open_manuscript(DEMO).phrases:
        phrase = read_phrase(source)
        symbols |= {symbol_words(change.chord) for change in phrase.changes}
        # The chords over which a phrase fits too are roots a minor third apart.
        symbols |= {f"{root}dim7" for root in ROOTS} | {f"{root}°7" for root in ROOTS}
        for sentence in explain(account(phrase), with_commentary=False, words=words):
            assert leaks(sentence, symbols) == [], sentence


def test_a_language_says_as_much_as_english() -> None:
    words = Words(MARKED)
    for source in open_manuscript(DEMO).phrases:
        found = account(read_phrase(source))
        assert len(explain(found, words=words)) == len(explain(found))


@pytest.mark.parametrize("edition", ["concert", "bflat", "alto saxophone"])
def test_no_english_row_leaks_into_the_pages(tmp_path: Path, edition: str) -> None:
    book = manuscript(tmp_path, MARKED)
    data = json.loads(to_json(data_of(book, edition)))
    # What is no word of the book: chord symbols; sizes, addresses and drawings; the names of keys by which
    # the program knows a score, and of papers.
    plain = {"Dm7b5", "G7b9", "Cm6", "Em7b5", "A7b9", "Dm6", "Bm7b5", "E7b9", "Am6"}
    symbols = plain | {printed_prose(symbol, EN) for symbol in plain}
    symbols |= {run.text for symbol in plain for run in sentence_runs(symbol, EN, "en")}
    for name in ("paper", "language", "words_language"):
        data["about"].pop(name)
    known = ("key", "path", "place", "look", "parts", "press")
    scales = names_of_scales(book)
    assert scales
    shown = [*texts(_without(data, known)), *scales.values()]
    said = [text for text in shown if not re.fullmatch(r"[A-G][b#]? (major|minor)|", text)]
    assert len(said) > 100
    assert [(text, leaks(text, symbols)) for text in said if leaks(text, symbols)] == []


@pytest.mark.parametrize("tag", SHIPPED)
@pytest.mark.parametrize("edition", ["concert", "alto saxophone", "guitar"])
def test_no_english_word_is_left_in_a_book_of_a_language_that_ships(
    tmp_path: Path, tag: str, edition: str
) -> None:
    """Pages and explanation have no word of the English table that is not also one of the language's own."""
    book = manuscript(tmp_path, {}, f'language = "{tag}"\nstudy_marks = true')
    data = json.loads(to_json(data_of(book, edition)))
    for name in ("paper", "language", "words_language"):
        data["about"].pop(name)
    shown = [*texts(_without(data, ("key", "path", "place", "look"))), *names_of_scales(book).values()]
    shown = [text for text in shown if not re.fullmatch(r"[A-G][b#]? (major|minor)", text)]
    own, english = words_in(words_of(tag).table.values()), words_in(ENGLISH.values())
    assert len(words_in(shown) & own) > 300
    assert sorted(words_in(shown) & english - own - {"pdf"}) == []


def words_in(rows: Iterable[str]) -> set[str]:
    """Return the words of rows, in small letters, without their gaps."""
    return {
        one.lower() for row in rows for one in re.findall(r"[^\W\d_]{3,}", re.sub(r"\{[^}]*\}", " ", row))
    }


def _without(value: object, names: tuple[str, ...]) -> object:
    if isinstance(value, dict):
        return {name: _without(inner, names) for name, inner in value.items() if name not in names}
    return [_without(inner, names) for inner in value] if isinstance(value, list) else value


def test_every_row_can_be_marked_and_is_read(tmp_path: Path) -> None:
    assert dict(manuscript(tmp_path, MARKED).settings.pages.words) == MARKED
    assert not set(ENGLISH) - set(MARKED)


# German note names: H is B natural, B is B flat (common practice).
GERMAN = {
    "note.B": "H", "note.Bb": "B", "note.flat": "{letter}es", "note.sharp": "{letter}is", "note.Eb": "Es",
    "note.Ab": "As", "short note.B": "H", "short note.Bb": "B", "short note.flat": "{letter}es",
    "short note.sharp": "{letter}is",
    "short note.Eb": "Es", "short note.Ab": "As", "mode.minor": "Moll",
    "mode.major": "Dur", "contents": "Inhalt", "list.two": "{first} und {last}",
}  # fmt: skip


def test_german_names_of_notes_and_keys(tmp_path: Path) -> None:
    book = manuscript(tmp_path, GERMAN, 'language = "de"\nkeys = "C B Bb Eb"')
    words = words_of("de", dict(book.settings.pages.words))
    assert [words.note(name) for name in ("B", "Bb", "Eb", "Ab", "Db", "F#")] == [
        "H",
        "B",
        "Es",
        "As",
        "Des",
        "Fis",
    ]
    assert words.whole_key("Bb minor") == "b-Moll"
    said = " ".join(explain(account(read_phrase(book.phrases[0])), words=words))
    assert re.search(r"\bH\b", said)
    assert re.search(r"\bEs\b", said)
    assert "flat" not in re.sub(r"the flat (9|13|fifth|seventh)", "", said)
    assert "Dm7♭5" in said  # symbols of chords are international
    (explained,) = explain_file(book.root)
    assert not isinstance(explained, ReadError)
    assert " ".join(explained.sentences) == said
    data = data_of(book, "concert")
    assert data.about.words["contents"] == "Inhalt"
    (phrase,) = data.parts[0].phrases
    assert phrase.key == "c-Moll"
    assert "H 4" in phrase.home.alt


def test_a_chord_s_root_is_named_if_a_row_says_so() -> None:
    phrase = phrase_from_fields({"title": "0", "changes": "Bb7/D | Bm7b5", "line": "1/1 d4 | d4"})
    rows = {**GERMAN, "chord.symbol": "{root}{kind}{slash}"}
    plain = " ".join(explain(account(phrase), words=words_of("de", GERMAN)))
    named = " ".join(explain(account(phrase), words=words_of("de", rows)))
    assert "B♭7/D" in plain
    assert "B7/D" in named
    assert "Hm7♭5" in named


@pytest.mark.parametrize(
    ("row", "text", "message", "hint"),
    [
        ("contens", "Inhalt", "not a word of the book", "contents"),
        ("note.H", "H", "not a word of the book", "note."),
        ("tell.run.step up", "Von {frist} an.", "nothing to fill in for {frist}", "first"),
        ("tell.run.step up", "Von {first!r} an.", "nothing to fill in", "first"),
        ("tell.run.step up", "Von {first.x} an.", "nothing to fill in", "first"),
        ("tell.run.step up", "Von {first:>9} an.", "nothing to fill in", "first"),
        ("tell.run.step up", "Von {} an.", "nothing to fill in", "{first}"),
        ("tell.run.step up", "Von {first an.", "braces", "braces"),
        ("numbers.small", "null eins", "list of 13 words", "spaces"),
    ],
)  # fmt: skip
def test_a_wrong_row_is_refused_where_it_stands(
    tmp_path: Path, row: str, text: str, message: str, hint: str
) -> None:
    with pytest.raises(ManuscriptError) as caught:
        manuscript(tmp_path, {"contents": "Inhalt", row: text})
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert caught.value.place is not None
    assert caught.value.place.file == "manuscript.toml"
    assert caught.value.place.line == 5  # the row, not the table's head


def test_a_row_may_be_written_without_quotes() -> None:
    words = {"note": {"B": "H", "double flat": "{letter}eses"}, "contents": "Inhalt"}
    assert dict(settings_from_fields({"words": words}).pages.words) == {
        "note.B": "H", "note.double flat": "{letter}eses", "contents": "Inhalt",
    }  # fmt: skip


def test_a_changed_word_remakes_what_shows_it(tmp_path: Path) -> None:
    def names(folder: str, rows: dict[str, str]) -> tuple[str, dict[str, str]]:
        book = manuscript(tmp_path / folder, rows)
        edition = edition_named("concert")
        order = PhraseOrder("", book.phrases[0], book.settings, (), (edition,), "1")
        card, _ = drawings.inputs_of(order.source.text, edition, book.settings)
        return placing_name(order, edition), picture_names(pictures_in(order, edition, card), "1")

    plain = names("a", {"imprint": "Impressum"})
    assert len(plain[1]) == 1 + 12 + 3 + 1  # the home score, the keys, the scales, the empty staves
    assert names("b", {"imprint": "Wer es war", "contents": "Inhalt"}) == plain  # on the pages alone
    sentence = names("c", {"tell.run.step up": "Von {first} an."})
    assert sentence[0] != plain[0]
    note = names("d", {"note.B": "H"})
    assert note[0] != plain[0]
    assert set(note[1].values()).isdisjoint(plain[1].values())  # a listener is told every note


def test_a_language_without_capitals_has_none() -> None:
    words = Words({**ENGLISH, "sentence": "{text}"})
    phrase = phrase_from_fields({"title": "0", "changes": "C", "line": "1/1 -"})
    assert explain(account(phrase), words=words) == ("The phrase has no notes yet.",)
    assert opened("blues", words) == "blues"
    assert opened("blues", EN) == "Blues"


def test_the_notes_that_a_text_speaks_of_are_found_in_any_language() -> None:
    studied = study(read_phrase(open_manuscript(DEMO).phrases[0]))
    assert spoken_of(studied)


def test_every_row_has_one_home() -> None:
    tables = (PAGES, WORDING, BUNDLE["en"], PRACTICE, PLAN, FINDINGS, EDITION_WORDS, OF_A_BOOK)
    assert len(ENGLISH) == sum(map(len, tables))
    for table in (
        "book/ground/tables/words.py",
        "book/ground/tables/practice_words.py",
        "book/ground/tables/plan_words.py",
        "analysis/naming/tables/wording.py",
        "analysis/naming/tables/findings.py",
    ):
        text = (ROOT / "src/shedbook" / table).read_text(encoding="utf-8")
        rows = text.partition("dict[str, str] = {\n")[2].partition("\n}")[0]
        written = re.findall(r'^    "([^"]+)":', rows, flags=re.MULTILINE)
        assert len(written) == len(set(written)) > 70


def test_the_feel_beside_the_tempo_is_a_row_too(tmp_path: Path) -> None:
    def drawn(folder: str, rows: dict[str, str]) -> str:
        book = manuscript(tmp_path / folder, rows)
        _, pictures = drawings.inputs_of(book.phrases[0].text, edition_named("concert"), book.settings)
        return drawings.drawn({HOME: pictures[HOME]})[HOME].svg

    usual = drawn("a", {"contents": "Inhalt"})
    assert drawn("b", {"feel.swing": "swing"}) == usual
    assert drawn("c", {"feel.swing": "swingend"}) != usual


def test_the_page_on_languages_is_made_from_the_table() -> None:
    """Made anew with `python -m shedbook.book.ground.language_page > docs/language.md`."""
    page = (ROOT / "docs/language.md").read_text(encoding="utf-8")
    assert page == language_page()
    listed = tomllib.loads(
        page.partition("## Every row, in English")[2].partition("```toml\n")[2].partition("```")[0]
    )
    assert listed["words"] == ENGLISH
    assert settings_from_fields(listed).pages.words
    example = tomllib.loads(page.partition("```toml\n")[2].partition("```")[0])
    assert settings_from_fields(example).language == "de"
    assert set(SHIPPED) == set(re.findall("`(..)`", page.partition("There are ")[2].partition(".\n")[0])) - {
        "en"
    }
