"""The bare cost of a book: Verovio and Typst called on finished scores, and nothing else.

Run as `python bare_work.py SCORES.json FOLDER PROCESSES`; nothing of shedbook is loaded.
"""

from __future__ import annotations

import json
import multiprocessing
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import accumulate
from pathlib import Path
from typing import Any, NamedTuple

ON_A_PAGE = 6


class Share(NamedTuple):
    """The scores of a phrase, for one process; a score is its MEI and its width."""

    folder: Path
    first: int
    scores: Sequence[tuple[str, int]]
    options: dict[str, Any]


def main() -> None:
    work = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    folder, processes = Path(sys.argv[2]), int(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    phrases, options = work["phrases"], work["options"]
    firsts = [0, *accumulate(map(len, phrases))]
    start = time.perf_counter()
    shares = [Share(folder, first, scores, options) for first, scores in zip(firsts, phrases, strict=False)]
    with ProcessPoolExecutor(processes, mp_context=multiprocessing.get_context("fork")) as pool:
        list(pool.map(draw, shares))
        drawn = time.perf_counter()
        books = work.get("books", 1)
        edges = [firsts[-1] * book // books for book in range(books + 1)]
        list(pool.map(lay_out, [folder] * books, edges, edges[1:]))
    times = {"verovio": drawn - start, "typst": time.perf_counter() - drawn}
    (folder / "phases.json").write_text(json.dumps(times), encoding="utf-8")


def draw(share: Share) -> None:
    toolkit = toolkit_with(json.dumps(share.options))
    for index, (mei, width) in enumerate(share.scores, share.first):
        toolkit.setOptions({"pageWidth": round(width / 10)})
        toolkit.loadData(mei)
        (share.folder / f"{index:04}.svg").write_text(toolkit.renderToSVG(1), encoding="utf-8")


@cache
def toolkit_with(options: str) -> Any:
    import verovio  # noqa: PLC0415 - a worker's cost, as in a build

    verovio.enableLog(verovio.LOG_OFF)
    toolkit = verovio.toolkit()
    toolkit.setOptions(json.loads(options))
    return toolkit


def lay_out(folder: Path, first: int, end: int) -> None:
    import typst  # noqa: PLC0415

    names = [f"{index:04}.svg" for index in range(first, end)]
    pages = "\n#pagebreak()\n".join(
        "\n".join(f'#image("{name}", width: 166mm)' for name in names[start : start + ON_A_PAGE])
        for start in range(0, len(names), ON_A_PAGE)
    )
    book = folder / f"book-{first}.typ"
    book.write_text(pages, encoding="utf-8")
    book.with_suffix(".pdf").write_bytes(typst.compile(str(book)))


if __name__ == "__main__":
    main()
