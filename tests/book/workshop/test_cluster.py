"""A real Dask cluster of several processes: what it makes is what one machine makes, byte for byte.

Source of the laws: the project's design. Dask itself is the library, not the thing that is tested.
"""

from __future__ import annotations

import contextlib
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.build import build
from shedbook.book.workshop.cluster import difference, open_cluster, refuse_others, versions_here
from shedbook.book.workshop.crew import Crew
from shedbook.errors import ShedbookError

distributed = pytest.importorskip("distributed")

pytestmark = [
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),  # Dask's own sockets
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
]

LINES = (
    "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/2 eb4 1/4 c4 - | 1/1 c4",
    "1/8 d4 f a c5 b4 d5 f e | d b4 g f e d c b3 | 1/2 c4 1/4 e g | 1/1 c5",
)
KEYS = ("C", "Eb", "A")


def new_book(folder: Path, phrases: int = 4) -> Path:
    """Write an invented book."""
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text('title = "Small water"\neditions = ["concert"]\n')
    for number in range(phrases):
        changes = ("Dm7b5 | G7b9 | Cm6 | %", "Dm7 | G7 | Cmaj7 | %")[number % 2]
        (folder / "phrases" / f"{number:02}.toml").write_text(
            f'title = "Line {number}"\nchanges = "{changes}"\nline = "{LINES[number % 2]}"\n'
            f"tempo = {100 + number}\n"
        )
    return folder


def made(out: Path) -> dict[str, bytes]:
    """Return the books and scores of a build by name."""
    return {path.name: path.read_bytes() for path in out.rglob("*") if path.suffix in (".pdf", ".svg")}


@pytest.fixture(scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Return what this machine makes of the book without a cluster."""
    folder = tmp_path_factory.mktemp("alone")
    build(Request(new_book(folder / "book"), folder / "out", keys=KEYS, jobs=1))
    found = made(folder / "out")
    assert len(found) > 12
    return found


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    """Three worker processes, of which one that ends is started again, as on a rented machine."""
    found = distributed.LocalCluster(
        n_workers=3, threads_per_worker=1, processes=True, dashboard_address=":0", memory_limit=0,
        silence_logs=50,
    )  # fmt: skip
    yield found
    found.close()


def worker_pids(address: str) -> list[int]:
    with distributed.Client(address) as client:
        return list(client.run(os.getpid).values())


def test_a_cluster_makes_what_one_machine_makes(
    cluster: Any, alone: dict[str, bytes], tmp_path: Path
) -> None:
    request = Request(
        new_book(tmp_path / "book"), tmp_path / "out", keys=KEYS, scheduler=cluster.scheduler_address
    )
    assert build(request).jobs_run > 4
    assert made(tmp_path / "out") == alone
    assert build(request).jobs_run == 0


def test_a_worker_that_is_killed_in_the_middle_costs_nothing(
    cluster: Any, alone: dict[str, bytes], tmp_path: Path
) -> None:
    root, out = new_book(tmp_path / "book"), tmp_path / "out"
    victims = worker_pids(cluster.scheduler_address)
    killed: list[int] = []

    def kill() -> None:
        end = time.monotonic() + 30
        while time.monotonic() < end and not list(out.rglob("*.svg")):
            time.sleep(0.002)
        os.kill(victims[0], signal.SIGKILL)
        killed.append(victims[0])

    thread = threading.Thread(target=kill)
    thread.start()
    build(Request(root, out, keys=KEYS, scheduler=cluster.scheduler_address))
    thread.join()
    assert killed
    assert made(out) == alone


def test_a_call_that_ends_every_worker_is_given_back_as_lost(cluster: Any) -> None:
    """`os._exit` stands for a fault in machine code; the scheduler gives a call up after some workers."""
    with distributed.Client(cluster.scheduler_address) as client:
        client.run_on_scheduler(lambda dask_scheduler: setattr(dask_scheduler, "allowed_failures", 0))
    crew = Crew(3, open_cluster(cluster.scheduler_address))
    try:
        ((_, result),) = list(crew.run(os._exit, [1]))
    finally:
        crew.stop()
    assert type(result).__name__ == "Lost"


class SlowLink:
    """A way to an address on which every piece takes its time, in both directions."""

    def __init__(self, target: str, delay_s: float) -> None:
        host, port = target.removeprefix("tcp://").rsplit(":", 1)
        self.target, self.delay_s = (host, int(port)), delay_s
        self.door = socket.create_server(("127.0.0.1", 0))
        self.address = f"tcp://127.0.0.1:{self.door.getsockname()[1]}"
        threading.Thread(target=self._serve, daemon=True).start()

    def _serve(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                near, _ = self.door.accept()
                far = socket.create_connection(self.target)
                for one, other in ((near, far), (far, near)):
                    threading.Thread(target=self._carry, args=(one, other), daemon=True).start()

    def _carry(self, one: socket.socket, other: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while piece := one.recv(65536):
                time.sleep(self.delay_s)
                other.sendall(piece)
        for end in (one, other):
            with contextlib.suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
            end.close()

    def close(self) -> None:
        self.door.close()


def test_a_slow_network_makes_it_slow_and_nothing_else(
    cluster: Any, alone: dict[str, bytes], tmp_path: Path
) -> None:
    link = SlowLink(cluster.scheduler_address, 0.03)
    try:
        build(Request(new_book(tmp_path / "book"), tmp_path / "out", keys=KEYS, scheduler=link.address))
    finally:
        link.close()
    assert made(tmp_path / "out") == alone


@pytest.fixture
def stranger(tmp_path: Path) -> Iterator[str]:
    """Return the address of a scheduler whose only worker has another version of a library."""
    import segno  # noqa: PLC0415

    (tmp_path / "old" / "segno-0.0.1.dist-info").mkdir(parents=True)
    (tmp_path / "old" / "segno").symlink_to(Path(segno.__file__).parent)
    with distributed.LocalCluster(
        n_workers=0, processes=True, dashboard_address=":0", silence_logs=50
    ) as found:
        environment = {**os.environ, "PYTHONPATH": str(tmp_path / "old")}
        command = [sys.executable, "-m", "distributed.cli.dask_worker", found.scheduler_address,
                   "--no-dashboard", "--nthreads", "1", "--no-nanny"]  # fmt: skip
        worker = subprocess.Popen(
            command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        yield found.scheduler_address
        worker.terminate()
        worker.wait(20)


def test_a_worker_with_another_version_is_refused_by_name(stranger: str, tmp_path: Path) -> None:
    with pytest.raises(ShedbookError, match=r"The worker tcp://.* has segno 0\.0\.1 in place of") as caught:
        build(Request(new_book(tmp_path / "book", 1), tmp_path / "out", scheduler=stranger))
    assert "same versions" in caught.value.hint
    assert not (tmp_path / "out").exists()


def test_versions_that_differ_are_named() -> None:
    here = versions_here()
    assert difference(here, here) == ""
    assert difference({"verovio": "6.2.1"}, {"verovio": "6.2.0"}) == "verovio 6.2.0 in place of 6.2.1"
    assert difference({"verovio": "6.2.1"}, {}) == "verovio missing in place of 6.2.1"
    refuse_others({"tcp://near:1": here})
    with pytest.raises(ShedbookError, match="tcp://far:1"):
        refuse_others({"tcp://near:1": here, "tcp://far:1": {**here, "Python": "3.9"}})


def test_a_scheduler_that_does_not_answer_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shedbook.book.workshop.cluster._TIMEOUT", "1s")
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        address = f"tcp://127.0.0.1:{taken.getsockname()[1]}"
        with pytest.raises(ShedbookError, match=f"No Dask scheduler answers at {address}"):
            list(Crew(2, open_cluster(address)).run(abs, [1]))


def test_dask_is_asked_for_kindly_when_it_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(name: str) -> None:
        raise ImportError(name)

    monkeypatch.setattr("importlib.import_module", missing)
    with pytest.raises(ShedbookError, match="Dask is not installed") as caught:
        open_cluster("tcp://nowhere:8786")
    assert "pip install" in caught.value.hint
