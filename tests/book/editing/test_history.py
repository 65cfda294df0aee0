"""Steps on disk. The whole desk is tested in tests/book/verbs/test_edit.py."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.editing.history import FOLDER, History, Step, part_of
from shedbook.book.editing.texts import FileText, read_file, write_file
from shedbook.errors import OutputError

TEXTS = st.text("ab|\n ", max_size=12)


@given(TEXTS, TEXTS)
def test_a_part_is_only_what_differs(before: str, after: str) -> None:
    one = FileText("x", Path("x"), before)
    part = part_of(one, one.with_text(after))
    assert part.before is not None
    assert part.after is not None
    assert before[: part.start] + part.after + before[part.start + len(part.before) :] == after
    if before and after and before[0] == after[0]:
        assert part.start > 0


def test_a_damaged_step_is_passed_over(tmp_path: Path) -> None:
    root, out = tmp_path / "book", tmp_path / "out"
    root.mkdir()
    (root / "a.toml").write_text("1")
    history = History(root, out)
    for number in (2, 3):
        before = read_file(root, "a.toml")
        after = before.with_text(str(number))
        write_file(after)
        history.add(Step("write", "", float(number * 100), (part_of(before, after),)))
    (out / FOLDER / "00000002.json").write_text("{ half a st")
    assert history.last() is not None
    with pytest.raises(OutputError, match="changed since"):
        history.undo()  # the step before it left something else
    assert (root / "a.toml").read_text() == "3"


def test_what_was_taken_back_last_is_taken_again_first(tmp_path: Path) -> None:
    root, out = tmp_path / "book", tmp_path / "out"
    root.mkdir()
    (root / "a.toml").write_text("1")
    history = History(root, out)
    for number in (2, 3, 4):
        before = read_file(root, "a.toml")
        after = before.with_text(str(number))
        write_file(after)
        history.add(Step("write", f"to {number}", float(number * 100), (part_of(before, after),)))
    names = []
    while (step := history.last()) is not None:
        history.undo()
        names.append(step.about)
        following = history.next()
        assert following is not None
        assert following.about == step.about
    assert names == ["to 4", "to 3", "to 2"]
    for expected in ("to 2", "to 3", "to 4"):
        following, step = history.next(), history.redo()
        assert following is not None
        assert step is not None
        assert following.about == step.about == expected
    assert history.next() is None
    assert (root / "a.toml").read_text() == "4"
