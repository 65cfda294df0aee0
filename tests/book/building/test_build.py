"""The build from end to end: what is made, what is made again, and what lies there when it is stopped."""

import json
import os
import shutil
import signal
import subprocess
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import pikepdf
import pypdf
import pytest

from book.builds import TITLES, command, run, write_manuscript, write_phrase
from shedbook.book.ground.findings import finding_line
from shedbook.book.ground.progress import Step
from shedbook.book.manuscript.request import Request
from shedbook.book.scores.artefacts import PlacingCard
from shedbook.book.scores.worker import (
    PhraseDone,
    PhraseOrder,
    make_phrase,
    picture_names,
    pictures_in,
    placing_name,
)
from shedbook.book.verbs.build import Built, build
from shedbook.book.verbs.check import check
from shedbook.book.workshop import crew as crew_module
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.output_folder import MARKER, STORE
from shedbook.book.workshop.store import Store
from shedbook.cli.main import main
from shedbook.errors import (
    BuildError,
    ManuscriptError,
    OutputError,
    RenderError,
    UnknownNameError,
)

PDF = "tides-concert.pdf"
PICTURES = 3 * (13 + 1) + 3 + 3 + 1
"""Twelve keys, a large score and empty staves a phrase, and the scales of each."""


class Book(NamedTuple):
    folder: Path
    out: Path

    @property
    def pdf(self) -> Path:
        return self.out / PDF

    def build(self, **options: object) -> Built:
        return build(Request(self.folder, self.out, **options))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """A book that has been built once; tests read it and change nothing."""
    folder = tmp_path_factory.mktemp("built")
    book = Book(write_manuscript(folder / "tides"), folder / "out")
    book.build()
    return book


@pytest.fixture
def book(built: Book, tmp_path: Path) -> Book:
    """The same book, to be changed."""
    shutil.copytree(built.folder, tmp_path / "tides")
    shutil.copytree(built.out, tmp_path / "out")
    return Book(tmp_path / "tides", tmp_path / "out")


# What is made.


def test_each_edition_is_one_pdf_and_no_other_file_ends_so(built: Book) -> None:
    assert sorted(path.name for path in built.out.iterdir()) == sorted([MARKER, STORE, PDF])
    assert [path.name for path in built.out.rglob("*.pdf")] == [PDF]


def test_the_pdf_can_be_read_aloud(built: Book) -> None:
    pages = [page.extract_text() for page in pypdf.PdfReader(built.pdf).pages]
    text = "\n".join(pages)
    for title in TITLES:
        assert text.count(title) >= 3  # contents, heading, running head
    # Half title and its back, title page, imprint, contents, how to use the book.
    assert "A. Writer" in pages[2]
    assert "A. Writer" in pages[3]
    assert "Contents" in pages[4]
    assert "How to use this book" in pages[5]
    assert "E♭" in text
    assert "Listen to bar two." in text
    assert "proof" not in pages[-1]


def test_the_contents_name_the_page_that_shows_the_number(built: Book) -> None:
    pages = [page.extract_text() for page in pypdf.PdfReader(built.pdf).pages]
    first = next(index for index, text in enumerate(pages) if index > 5 and TITLES[0] in text)
    for title in TITLES:
        line = next(line for line in pages[4].splitlines() if title in line)
        index = next(index for index, text in enumerate(pages) if index > 5 and title in text)
        printed = index - first + 2  # page 1 has the title of the book once more
        assert printed % 2 == 0
        assert str(printed) in pages[4][pages[4].index(line) :].split()
        assert str(printed) in pages[index].split()


def test_bookmarks_lead_to_every_phrase_and_key(built: Book) -> None:
    with pikepdf.open(built.pdf) as pdf, pdf.open_outline() as outline:
        titles = [str(item.title) for item in outline.root]
        keys = [str(child.title) for child in outline.root[2].children]
    assert titles == ["Contents", "How to use this book", *TITLES, "Indexes", "Key by key"]
    assert len(keys) == 11  # the home key stands on the first page
    assert keys[0] == "F minor"
    assert "F♯ minor" in keys or "G♭ minor" in keys


def test_metadata_labels_and_fonts(built: Book) -> None:
    with pikepdf.open(built.pdf) as pdf:
        assert str(pdf.docinfo["/Title"]) == "Tidal studies"
        assert str(pdf.docinfo["/Author"]) == "A. Writer"
        assert "improvisation" in str(pdf.docinfo["/Keywords"])
        assert "/PageLabels" in pdf.Root
        names = set()
        for item in pdf.objects:
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor":
                assert any(name in item for name in ("/FontFile", "/FontFile2", "/FontFile3"))
                names.add(str(item["/FontName"]).partition("+")[2].partition("-")[0])
    assert names == {"SourceSerifPro", "SourceSansPro", "ShedbookSigns"}  # the last for flats and sharps


@pytest.mark.parametrize(
    ("size", "width_pt", "height_pt"),
    [("a4", 595.28, 841.89), ("letter", 612.0, 792.0)],  # ISO 216; ANSI/ASME Y14.1 (from memory)
)
def test_paper(tmp_path: Path, size: str, width_pt: float, height_pt: float) -> None:
    book = Book(write_manuscript(tmp_path / "tides", 1, f'page_size = "{size}"\n'), tmp_path / "out")
    (pdf,) = book.build(keys=("C",)).pdfs
    box = pypdf.PdfReader(pdf).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((width_pt, height_pt), abs=0.1)


def test_only_some_keys_and_phrases(book: Book) -> None:
    before = book.pdf.read_bytes()
    done = book.build(keys=("D", "Bb"), phrases=("2-3",))
    assert done.pdfs == (book.out / "tides-concert-keys-D-Bb-phrases-2-3.pdf",)
    assert before == book.pdf.read_bytes()  # the whole book stays as it is
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(done.pdfs[0]).pages)
    assert TITLES[0] not in text
    assert TITLES[1] in text
    assert "B♭" in text
    assert "E♭" not in text.replace("E♭m", "")


def test_the_default_folder_lies_beside_the_manuscript(built: Book, tmp_path: Path) -> None:
    shutil.copytree(built.folder, tmp_path / "tides")
    done = build(Request(tmp_path / "tides", keys=("C",), phrases=("1",)))
    assert done.pdfs == (tmp_path / "tides-build" / "tides-concert-keys-C-phrases-1.pdf",)
    assert sorted(path.name for path in (tmp_path / "tides").rglob("*")) == sorted(
        path.name for path in built.folder.rglob("*")
    )


# What is made again.


def test_a_second_build_runs_nothing(book: Book) -> None:
    before = book.pdf.stat()
    assert book.build().jobs_run == 0
    assert book.pdf.stat().st_mtime_ns == before.st_mtime_ns


def test_an_edited_phrase_alone_is_made_again(book: Book) -> None:
    write_phrase(book.folder, 1, tempo=110)
    # Its card and its placing, its twelve keys and the large score, its scales, the empty staves.
    # Its own pages, and the book joined with them.
    assert book.build().jobs_run == 2 + 13 + 3 + 1 + 2
    write_phrase(book.folder, 1)
    assert book.build().jobs_run == 1  # going back costs the joining only


def test_phrases_that_are_twins_are_found_by_their_numbers(book: Book) -> None:
    twin = write_phrase(book.folder, 1)
    shutil.copyfile(twin, twin.with_name("04.toml"))
    found = [one for one in book.build(phrases=("2", "4")).findings if one.rule == "duplicate-phrase"]
    assert [(one.number, one.file) for one in found] == [(4, "phrases/04.toml")]
    assert "number 2" in found[0].message


def test_a_comment_in_a_file_costs_nothing(book: Book) -> None:
    path = book.folder / "phrases" / "01.toml"
    path.write_text(f"# a thought\n{path.read_text(encoding='utf-8')}", encoding="utf-8")
    assert book.build().jobs_run == 0


@pytest.mark.parametrize(
    ("harm", "jobs"),
    [
        pytest.param(lambda out: (out / PDF).unlink(), 1, id="the PDF is gone"),
        pytest.param(lambda out: (out / PDF).write_bytes(b"%PDF-1.7"), 1, id="the PDF was changed"),
    ],
)
def test_a_pdf_that_is_not_ours_any_more_is_made_again(
    book: Book, built: Book, harm: Callable[[Path], object], jobs: int
) -> None:
    harm(book.out)
    assert book.build().jobs_run == jobs
    assert book.pdf.read_bytes() == built.pdf.read_bytes()


def test_a_damaged_score_is_made_again(book: Book, built: Book) -> None:
    score = sorted((book.out / STORE / "svg").iterdir())[0]
    score.write_bytes(score.read_bytes()[:1000])
    book.pdf.unlink()
    assert book.build().jobs_run == 2
    assert book.pdf.read_bytes() == built.pdf.read_bytes()


def test_same_manuscript_same_bytes(book: Book, built: Book) -> None:
    shutil.rmtree(book.out)
    book.build(jobs=1)
    assert book.pdf.read_bytes() == built.pdf.read_bytes()


def test_steps_are_told_in_order(book: Book) -> None:
    shutil.rmtree(book.out)
    steps: list[Step] = []
    build(Request(book.folder, book.out, phrases=("1", "2")), steps.append)
    assert steps[:3] == [Step("reading", 2, 2), Step("engraving", 1, 2), Step("engraving", 2, 2)]
    # The two phrases, the frame that holds pages free for them, and the book joined of all three.
    assert steps[3:] == [Step("pages", done, 4) for done in range(5)]


# What cannot be made.


def test_every_phrase_that_cannot_be_read_is_named(book: Book) -> None:
    write_phrase(book.folder, 0, line="1/8 h4")
    (book.folder / "phrases" / "02.toml").write_text("title = ", encoding="utf-8")
    before = book.pdf.read_bytes()
    with pytest.raises(BuildError) as caught:
        book.build()
    places = [str(getattr(error, "place", "")).partition(":")[0] for error in caught.value.errors]
    # The line of the other has a note that is none, and too few bars: every place is told.
    assert places == ["phrases/02.toml", "phrases/01.toml", "phrases/01.toml"]
    assert book.pdf.read_bytes() == before


def test_a_phrase_that_cannot_be_read_is_not_hidden_by_the_ones_that_can(book: Book) -> None:
    for number in range(3):
        write_phrase(book.folder, number, line="1/8 h4" if number else "1/1 c5 | d | eb | c")
    with pytest.raises(BuildError) as caught:
        book.build()
    assert len(caught.value.errors) == 4  # in each of the two a note, and bars that are missing


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({"keys": ("H",)}, "not the tonic"),
        ({"keys": ("C", "Abb")}, "not the tonic"),
        ({"keys": ("F#", "C", "Gb")}, "F# and Gb are the same key"),
        ({"keys": ("C", "C")}, "C and C are the same key"),
        ({"editions": ("tenor",)}, 'no edition "tenor"'),
        ({"phrases": ("9",)}, 'no phrase "9"'),
        ({"phrases": ("0",)}, "no phrase"),
        ({"phrases": ("3-2",)}, "no phrase"),
        ({"phrases": ("Low",)}, "no phrase"),
    ],
)
def test_what_is_not_there_is_named_with_what_is(
    built: Book, tmp_path: Path, options: dict[str, tuple[str, ...]], message: str
) -> None:
    with pytest.raises(UnknownNameError, match=message) as caught:
        Book(built.folder, tmp_path / "out").build(**options)
    assert caught.value.hint
    assert not (tmp_path / "out").exists()


def test_a_first_build_that_fails_leaves_no_folder(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1)  # a second phrase could be drawn before this one is read
    write_phrase(folder, 0, line="1/8 h4")
    book = Book(folder, tmp_path / "new" / "out")
    with pytest.raises(BuildError):
        book.build()
    assert not (tmp_path / "new").exists()
    book.out.mkdir(parents=True)
    with pytest.raises(BuildError):
        book.build()
    assert list(book.out.iterdir()) == []  # the author's own empty folder stays


def test_a_foreign_folder_is_left_alone(built: Book, tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(OutputError):
        Book(built.folder, tmp_path).build()
    assert [path.name for path in tmp_path.iterdir()] == ["thesis.txt"]


def test_a_file_is_no_book(built: Book, tmp_path: Path) -> None:
    with pytest.raises(ManuscriptError, match="one file"):
        build(Request(built.folder / "phrases" / "01.toml", tmp_path / "out"))
    with pytest.raises(ManuscriptError, match="no file or folder"):
        build(Request(tmp_path / "nowhere", tmp_path / "out"))


OUTSIDE = "1/1 f#5 | 1/2 b4 f#5 | 1/1 e5 | 1/1 c5"
"""The wrong third is held against two chords of the first phrase."""


def test_an_error_finding_marks_the_pages_and_stops_a_final_build_only(book: Book) -> None:
    write_phrase(book.folder, 0, line=OUTSIDE)
    before = book.pdf.read_bytes()
    with pytest.raises(BuildError, match="final book was not made"):
        book.build(final=True)
    assert book.pdf.read_bytes() == before
    done = book.build()
    assert any(finding.severity == "error" for finding in done.findings)
    assert "proof" in pypdf.PdfReader(book.pdf).pages[-1].extract_text()
    with pytest.raises(BuildError):
        book.build(final=True)  # answered from the record now
    rules = {finding.rule for finding in done.findings if finding.severity == "error"}
    silenced = "".join(f'{rule} = "meant so"\n' for rule in sorted(rules))
    write_phrase(book.folder, 0, line=OUTSIDE, extra=f"[silence]\n{silenced}")
    book.build(final=True)
    assert "proof" not in pypdf.PdfReader(book.pdf).pages[-1].extract_text()


class LosesOneKey(Crew):
    """A crew whose worker is lost whenever it comes to one key, as machine code may make it."""

    def run(self, function, orders):  # type: ignore[no-untyped-def]
        for order in orders:
            yield order, _lost_at_third(order) if function is make_phrase else function(order)


def _lost_at_third(order: PhraseOrder) -> PhraseDone | Lost:
    if order.source.number != 2:
        return make_phrase(order)
    keys = names_of_pictures(order)
    third = list(keys)[3]
    if keys[third] in order.skip:
        return make_phrase(order)
    made = make_phrase(order)
    folder = Path(order.store)
    # Drawn on one page, all keys are lost with the third; one after the other, those before it are kept.
    for key in list(keys)[3 if order.singly else 1 :]:
        Store(folder).path("svg", keys[key]).unlink(missing_ok=True)
    assert made.jobs_run
    return Lost()


def names_of_pictures(order: PhraseOrder) -> dict[str, str]:
    make_phrase(replace(order, engrave=False))
    (edition,) = order.editions
    card = Store(Path(order.store)).read_value(PlacingCard, "card", placing_name(order, edition))
    assert card is not None
    return picture_names(pictures_in(order, edition, card), order.versions)


def test_a_key_that_ends_the_worker_is_named_and_the_others_are_kept(
    built: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(crew_module, "Crew", LosesOneKey)
    book = Book(built.folder, tmp_path / "out")
    with pytest.raises(RenderError, match=f'"{TITLES[1]}" in Bb .* ended the program'):
        book.build()
    assert len(list((book.out / STORE / "svg").iterdir())) == PICTURES - 1
    assert not book.pdf.exists()


# Stopping.


def _start_and_stop(book: Book, number: int) -> subprocess.Popen[str]:
    """Start a build in a session of its own and send it a signal once some scores are there."""
    process = subprocess.Popen(
        command("build", book.folder, "--out", book.out),
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    scores = book.out / STORE / "svg"
    for _ in range(2000):
        if scores.is_dir() and sum(1 for _ in scores.iterdir()) >= 5:
            break
        time.sleep(0.005)
    os.kill(process.pid, number)
    return process


@pytest.mark.parametrize(
    ("number", "status"),
    [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGKILL, -signal.SIGKILL)],
)
def test_a_stopped_build_leaves_nothing_half_written_and_goes_on(
    built: Book, tmp_path: Path, number: int, status: int
) -> None:
    book = Book(write_manuscript(tmp_path / "tides"), tmp_path / "out")
    process = _start_and_stop(book, number)
    _, errors = process.communicate(timeout=30)
    assert process.returncode == status
    assert "Traceback" not in errors
    assert _nobody_left(process.pid)
    assert {path.name for path in book.out.iterdir()} <= {MARKER, STORE}
    store = Store(book.out / STORE)
    scores = [path.stem for path in (store.folder / "svg").iterdir()]
    assert all(store.has("svg", name) for name in scores)

    done = book.build()
    assert done.jobs_run < 2 * 3 + PICTURES + 1
    assert book.pdf.read_bytes() == built.pdf.read_bytes()
    assert list((store.folder / "unfinished").iterdir()) == []


def _nobody_left(session: int) -> bool:
    """Say whether, within a little while, no process of a session is left."""
    for _ in range(100):
        try:
            os.killpg(session, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


# The command.


def test_the_command_says_where_the_book_is_and_lists_findings(book: Book) -> None:
    write_phrase(book.folder, 0, line=OUTSIDE)
    done = run("build", book.folder, "--out", book.out, "--keys", "C, F", "--phrases", "1", "--jobs", "1")
    assert done.returncode == 0
    assert done.stdout == f"{book.out / 'tides-concert-keys-C-F-phrases-1.pdf'}\n"
    lines = done.stderr.splitlines()
    assert lines[0].startswith("Reading 1 of 1 phrase ")
    assert lines[1].startswith("Engraving phrase 1 of 1")
    assert lines[2].startswith("Laying out pages, part 3 of 3 ")
    assert any(f"“{TITLES[0]}”, bar" in line and "error" in line for line in lines)
    assert lines[-1].startswith("Done in ")


def test_the_command_lists_every_error_with_its_place(book: Book) -> None:
    for number in (0, 2):
        write_phrase(book.folder, number, line="1/8 h4")
    done = run("build", book.folder, "--out", book.out)
    assert done.returncode == 1
    assert done.stdout == ""
    assert "phrases/01.toml:3" in done.stderr
    assert "phrases/03.toml:3" in done.stderr
    assert "Traceback" not in done.stderr


def test_the_command_tells_programs_in_json(book: Book, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(book.folder), "--out", str(book.out), "--json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)
    assert told["books"] == [str(book.pdf)]
    assert told["parts_made"] == 0
    assert {finding["severity"] for finding in told["findings"]} <= {"error", "warning", "advice"}
    write_phrase(book.folder, 0, line="1/8 h4")
    assert main(["build", str(book.folder), "--out", str(book.out), "--json"]) == 1
    errors = json.loads(capsys.readouterr().out)
    assert "h4" in errors[0]["error"]
    assert errors[0]["input"].startswith("phrases/01.toml:")


def test_the_command_can_be_quiet_or_tell_of_every_step(
    book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    write_phrase(book.folder, 0, tempo=77)
    write_phrase(book.folder, 1, tempo=77)
    assert main(["build", str(book.folder), "--out", str(book.out), "--verbose", "--jobs", "1"]) == 0
    assert capsys.readouterr().err.count("Engraving phrase") == 2
    write_phrase(book.folder, 0, tempo=78)
    assert main(["build", str(book.folder), "--out", str(book.out), "--quiet", "--jobs", "1"]) == 0
    told = capsys.readouterr()
    assert (told.out, told.err) == (f"{book.pdf}\n", "")


@pytest.mark.parametrize("jobs", ["0", "-1", "two"])
def test_a_number_of_processes_is_one_or_more(built: Book, tmp_path: Path, jobs: str) -> None:
    done = run("build", built.folder, "--out", tmp_path / "out", f"--jobs={jobs}")
    assert done.returncode == 2
    assert "number of processes" in done.stderr


def test_a_rule_that_the_book_silences_and_nobody_knows_is_listed(book: Book) -> None:
    settings = book.folder / "manuscript.toml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(f'{text}\n[silence]\noctave-slop = "no"\n', encoding="utf-8")
    (found,) = [one for one in book.build().findings if one.rule == "silence-names-no-rule"]
    assert (found.number, found.file, found.severity) == (0, "manuscript.toml", "warning")
    assert finding_line(found).startswith(
        'manuscript.toml: warning (silence-names-no-rule): No rule is called "octave-slop".'
    )
    (placed,) = [one for one in check(book.folder).found if one.finding.rule == "silence-names-no-rule"]
    assert (placed.place.file, placed.place.excerpt) == ("manuscript.toml", 'octave-slop = "no"')
    assert (placed.place.column, placed.place.width) == (1, len("octave-slop"))
    assert placed.finding.mend == found.mend
    assert "octave-slip" in found.mend
    settings.write_text(
        f'{text}\n[silence]\noctave-slop = "no"\nsilence-names-no-rule = "later"\n', encoding="utf-8"
    )
    assert not [one for one in book.build().findings if one.rule == "silence-names-no-rule"]
