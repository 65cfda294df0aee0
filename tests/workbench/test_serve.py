"""The workbench opened and ended: no process stays behind, whoever ends it. The design's expectations."""

import os
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from shedbook.errors import OutputError, ShedbookError
from shedbook.workbench.serve import _socket, serve
from workbench_served import Bench, alive, children, free_port, new_bench, until


@pytest.fixture
def running(tmp_path: Path) -> Bench:
    bench = new_bench(tmp_path)
    bench.start()
    bench.post("rows", {"refs": [{"file": "phrases/01-low-tide.toml"}]})  # both workers are there now
    return bench


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGKILL])
def test_no_worker_stays_behind(running: Bench, number: signal.Signals) -> None:
    found = children(running.process.pid)
    assert len(found) >= 2
    os.kill(running.process.pid, number)
    running.process.wait(15)
    until(lambda: not any(alive(one) for one in found))
    assert running.process.stdout is not None
    running.process.stdout.close()


def test_a_worker_that_ends_without_a_word_is_replaced(running: Bench) -> None:
    fields = {"title": "x", "changes": "Cm6", "line": "1/1 c5"}
    for one in children(running.process.pid):
        if b"resource_tracker" not in Path(f"/proc/{one}/cmdline").read_bytes():
            os.kill(one, signal.SIGKILL)
    seen = running.post("look", {"fields": fields, "width": 200})
    assert [one["degree"] for one in seen["notes"]] == ["1"]
    running.end()


def test_a_port_that_is_taken_is_refused_in_words(tmp_path: Path) -> None:
    bench = new_bench(tmp_path)
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(ShedbookError, match="cannot be opened"):
            serve(bench.root, port=taken.getsockname()[1], browser=False)


def test_the_end_of_an_answer_does_not_wait_for_the_other_side() -> None:
    """asyncio switches Nagle's algorithm (RFC 896) off only where a socket says that it is TCP.

    Where it is on, the second half of an answer waits until the first is acknowledged: 40 ms on Linux.
    """
    with _socket("127.0.0.1", free_port()) as door, socket.create_connection(door.getsockname()):
        ours, _ = door.accept()
        with ours:
            assert ours.proto == socket.IPPROTO_TCP


def test_an_output_folder_that_is_somebody_elses_is_refused(tmp_path: Path) -> None:
    bench = new_bench(tmp_path)
    bench.out.mkdir()
    (bench.out / "letters.txt").write_text("not ours")
    with pytest.raises(OutputError, match="did not put there"):
        serve(bench.root, out=bench.out, port=free_port(), browser=False)


def test_a_folder_without_a_manuscript_is_refused(tmp_path: Path) -> None:
    command = [
        sys.executable,
        "-m",
        "shedbook",
        "workbench",
        str(tmp_path),
        "--port",
        str(free_port()),
        "--no-browser",
    ]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 1
    assert "manuscript.toml" in done.stderr
