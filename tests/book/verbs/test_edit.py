"""A manuscript at work: what is written, and every step back. The expectations are the project's design."""

import tomllib
from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.verbs.edit import Desk, PhraseRef
from shedbook.errors import ManuscriptError, OutputError

ONE = '# kept\ntitle = "One" # mine\nchanges = "Dm7 | G7"\nline = """\n1/4 d5 f a c6 |\n1/4 b5 g d5 g\n"""\n'


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    root = tmp_path / "book"
    (root / "phrases").mkdir(parents=True)
    (root / "manuscript.toml").write_text('# settings\ntitle = "A book"\n\n[tracks]\nkinds = ["line"]\n')
    for number, title in enumerate(["One", "Two", "Three"], 1):
        name = f"{number:02}-{title.lower()}.toml"
        (root / "phrases" / name).write_text(ONE.replace('"One"', f'"{title}"'))
    (root / "phrases" / "04-many.toml").write_text(
        "# several\n\n"
        + "".join(
            f'# about {name}\n[[phrase]]\ntitle = "{name}"\nchanges = "C6"\nline = "1/1 c5"\n\n'
            for name in "ABC"
        )
    )
    return Desk(root)


def titles(desk: Desk) -> list[str]:
    return [one.title for one in desk.open().phrases]


def state(desk: Desk) -> dict[str, bytes]:
    return {str(path.relative_to(desk.root)): path.read_bytes() for path in sorted(desk.root.rglob("*.toml"))}


FIRST = PhraseRef("phrases/01-one.toml")


def test_saving_rewrites_only_what_changed(desk: Desk) -> None:
    line = "1/4 d5 f a c6 |\n1/4 b5 g d5 g\n"
    saved = desk.save(FIRST, {"line": (line, line.replace("c6", "b5")), "tempo": (None, 90)})
    text = (desk.root / FIRST.file).read_text()
    assert text == ONE.replace("c6", "b5") + "tempo = 90\n"
    assert saved.fields["tempo"] == 90
    assert not saved.conflicts


def test_line_ends_and_byte_order_mark_stay(desk: Desk) -> None:
    path = desk.root / FIRST.file
    path.write_bytes(b"\xef\xbb\xbf" + ONE.replace("\n", "\r\n").encode())
    desk.save(FIRST, {"title": ("One", "Eins")})
    assert (
        path.read_bytes() == b"\xef\xbb\xbf" + ONE.replace('"One"', '"Eins"').replace("\n", "\r\n").encode()
    )
    desk.undo()
    assert path.read_bytes() == b"\xef\xbb\xbf" + ONE.replace("\n", "\r\n").encode()


def test_a_change_by_another_program_is_merged_or_named(desk: Desk) -> None:
    path = desk.root / FIRST.file
    line = "1/4 d5 f a c6 |\n1/4 b5 g d5 g\n"
    path.write_text(path.read_text().replace("b5 g d5 g", "b5 g d5 e"))
    saved = desk.save(FIRST, {"line": (line, line.replace("c6", "b5"))})
    assert saved.fields["line"] == "1/4 d5 f a b5 |\n1/4 b5 g d5 e\n"
    saved = desk.save(FIRST, {"title": ("Nobody's", "Mine"), "tempo": (None, 99)})
    assert saved.conflicts == {"title": "One"}
    assert saved.fields["title"] == "One"
    assert saved.fields["tempo"] == 99


def test_every_step_can_be_taken_back_after_a_restart(desk: Desk) -> None:
    states = [state(desk)]
    for act in (
        lambda: desk.save(FIRST, {"title": ("One", "First")}),
        lambda: desk.add("New"),
        lambda: desk.duplicate(PhraseRef("phrases/04-many.toml", 1), "B again"),
        lambda: desk.move(FIRST, 2),
        lambda: desk.set_aside(PhraseRef("phrases/02-two.toml")),
        lambda: desk.set_aside(PhraseRef("phrases/04-many.toml", 0)),
        lambda: desk.move(PhraseRef("phrases/04-many.toml", 1), 2),
    ):
        act()
        states.append(state(desk))
        assert open_manuscript(desk.root).phrases
    assert len(states) == 8
    for expected in reversed(states[:-1]):
        desk = Desk(desk.root)
        assert desk.undo() is not None
        assert state(desk) == expected
    assert desk.undo() is None
    for expected in states[1:]:
        assert desk.redo() is not None
        assert state(desk) == expected
    assert desk.redo() is None


def test_typing_becomes_one_step_and_a_new_step_forgets_what_was_taken_back(desk: Desk) -> None:
    before = state(desk)
    for old, new in (("One", "On"), ("On", "O"), ("O", "Or"), ("Or", "Ore")):
        desk.save(FIRST, {"title": (old, new)})
    desk.undo()
    assert state(desk) == before
    desk.save(FIRST, {"title": ("One", "Else")})
    assert desk.redo() is None


def test_nothing_is_taken_back_over_what_somebody_else_wrote(desk: Desk) -> None:
    desk.save(FIRST, {"title": ("One", "Mine")})
    path = desk.root / FIRST.file
    path.write_text(path.read_text().replace("Mine", "Theirs"))
    with pytest.raises(OutputError, match="changed since"):
        desk.undo()
    assert "Theirs" in path.read_text()
    path.write_text(
        path.read_text().replace("Theirs", "Mine") + "tempo = 90\n"
    )  # elsewhere: it can be undone
    desk.undo()
    assert tomllib.loads(path.read_text())["title"] == "One"
    assert tomllib.loads(path.read_text())["tempo"] == 90


def test_moving(desk: Desk) -> None:
    assert titles(desk) == ["One", "Two", "Three", "A", "B", "C"]
    desk.move(PhraseRef("phrases/03-three.toml"), 0)
    assert titles(desk) == ["Three", "One", "Two", "A", "B", "C"]
    text = (desk.root / "manuscript.toml").read_text()
    assert text.startswith('# settings\ntitle = "A book"\nphrases = [\n')
    desk.move(PhraseRef("phrases/04-many.toml", 2), 3)
    assert titles(desk) == ["Three", "One", "Two", "C", "A", "B"]
    assert (desk.root / "phrases/04-many.toml").read_text().startswith("# several\n\n# about C\n[[phrase]]")
    with pytest.raises(ManuscriptError, match="shares its file"):
        desk.move(PhraseRef("phrases/04-many.toml", 0), 0)


@pytest.mark.parametrize(
    ("to", "expected"),
    [(-5, "ABC"), (0, "ABC"), (1, "BAC"), (2, "BCA"), (99, "BCA")],
)
def test_a_place_before_the_first_or_behind_the_last_is_the_nearest_there_is(
    desk: Desk, to: int, expected: str
) -> None:
    for name in ("01-one", "02-two", "03-three"):
        desk.set_aside(PhraseRef(f"phrases/{name}.toml"))
    desk.move(PhraseRef("phrases/04-many.toml", 0), to)
    assert "".join(titles(desk)) == expected


def test_two_fields_are_two_steps(desk: Desk) -> None:
    desk.save(FIRST, {"title": ("One", "First")})
    desk.save(FIRST, {"tempo": (None, 90)})
    assert desk.undo() is not None
    fields = tomllib.loads((desk.root / FIRST.file).read_text())
    assert (fields["title"], "tempo" in fields) == ("First", False)


def test_what_is_set_aside_under_a_name_that_is_taken_gets_a_number(desk: Desk) -> None:
    for at in (2, 1):
        desk.save(PhraseRef("phrases/04-many.toml", at), {"title": ("ABC"[at], "A")})
    names = [desk.set_aside(PhraseRef("phrases/04-many.toml", 0)) for _ in range(3)]
    assert names == ["aside/a.toml", "aside/a-2.toml", "aside/a-3.toml"]


def test_what_is_set_aside_is_a_file_of_its_own(desk: Desk) -> None:
    name = desk.set_aside(PhraseRef("phrases/04-many.toml", 1))
    assert (desk.root / name).read_text() == '# about B\ntitle = "B"\nchanges = "C6"\nline = "1/1 c5"\n\n'
    assert titles(desk) == ["One", "Two", "Three", "A", "C"]
    for source in desk.open().phrases[1:]:
        desk.set_aside(PhraseRef(source.file, 0))
    with pytest.raises(ManuscriptError, match="only phrase"):
        desk.set_aside(FIRST)


@pytest.mark.parametrize(
    "file",
    ["../out.toml", "/etc/hostname", "phrases/../../x.toml", "C:x.toml", "manuscript.toml", "aside/a.toml"],
)
def test_nothing_but_phrases_of_the_book_is_read_or_written(desk: Desk, file: str) -> None:
    (desk.root / "aside").mkdir()
    (desk.root / "aside" / "a.toml").write_text(ONE)
    with pytest.raises(ManuscriptError):
        desk.save(PhraseRef(file), {"title": (None, "x")})
    with pytest.raises(ManuscriptError):
        desk.fields(PhraseRef(file))
    with pytest.raises(ManuscriptError):
        desk.set_aside(PhraseRef(file))
