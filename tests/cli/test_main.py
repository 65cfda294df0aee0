"""The command itself: help, version, errors and exit statuses."""

import subprocess
import sys

import pytest

from shedbook.cli.error_text import error_text
from shedbook.cli.known_verbs import VERBS
from shedbook.cli.main import main
from shedbook.errors import NotationError, Place, ShedbookError


@pytest.mark.parametrize("verb", [row.name for row in VERBS])
def test_every_verb_has_help_that_names_what_it_does(verb: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        main([verb, "--help"])
    assert stop.value.code == 0
    assert "usage: shedbook " + verb in capsys.readouterr().out


def test_help_lists_every_verb(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 0
    out = capsys.readouterr().out
    assert [row.name for row in VERBS if row.says not in " ".join(out.split())] == []


def test_help_loads_no_floor() -> None:
    """`shedbook --help` must stay quick: it may load the command line and the errors, nothing else."""
    code = (
        "import sys; from shedbook.cli.main import main; main([]); "
        "print(sorted(name for name in sys.modules if name.startswith('shedbook.')), file=sys.stderr)"
    )
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stderr
    assert (
        loaded.strip()
        == "['shedbook.cli', 'shedbook.cli.known_verbs', 'shedbook.cli.main', 'shedbook.errors']"
    )


def test_an_unknown_verb_ends_with_status_2(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        main(["bild", "x"])
    assert stop.value.code == 2
    assert "bild" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("typed", "near"),
    [(["chek"], "check"), (["bild"], "build"), (["build", "--jobz"], ""), (["zzzz"], "")],
)
def test_the_nearest_verb_is_named(typed: list[str], near: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        main(typed)
    said = capsys.readouterr().err
    assert stop.value.code == 2
    assert (f'Did you mean "{near}"?' in said) if near else "Did you mean" not in said


def test_an_error_shows_place_picture_and_mend() -> None:
    error = NotationError("“h5” is not a note.", hint="Write a letter a to g.").at(
        Place("phrases/04.toml", 7, 5, bar=2, beat="3½", excerpt="1/8 h5 f", width=2)
    )
    assert error_text(error) == (
        "phrases/04.toml:7:5  bar 2, beat 3½\n"
        "    1/8 h5 f\n"
        "        ^^\n"
        "“h5” is not a note.\n"
        "  Write a letter a to g."
    )
    assert error_text(ShedbookError("No.", hint="Do.")) == "shedbook: No.\n  Do."


@pytest.mark.parametrize(
    "words",
    [
        pytest.param(("build", "book", "--out", ""), id="build"),
        pytest.param(("show", "a.toml", "--out", " "), id="show"),
        pytest.param(("export", "book", "--format", "mei", "--out", ""), id="export"),
        pytest.param(("play", "a.toml", "--out", ""), id="play"),
        pytest.param(("import", "a.mid", "--into", ""), id="import"),
        pytest.param(("new", ""), id="new"),
    ],
)
def test_an_empty_name_is_refused_and_not_taken_for_this_folder(
    words: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as stop:
        main(words)
    assert stop.value.code == 2
    assert '"" names no file or folder' in capsys.readouterr().err
