"""Running calls on executors, and losing workers."""

import os
import signal
import sys
import threading
import time
from collections.abc import Iterator
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from typing import Any

import pytest

from shedbook.book.workshop.crew import Crew, Lost, open_processes


class Inline(Executor):
    """The least that an executor can be: it works in the caller's own thread."""

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> "Future[Any]":
        future: Future[Any] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


@pytest.fixture
def crew() -> Iterator[Crew]:
    crew = Crew(2)
    yield crew
    crew.stop()


def _double(number: int) -> int:
    return 2 * number


def _end_at_three(number: int) -> int:
    if number == 3:
        os.kill(os.getpid(), signal.SIGKILL)  # as a fault in the engraver's machine code does
    return number


def _worker(number: int) -> int:
    time.sleep(0.2)  # so that the other worker takes the other call
    return os.getpid()


def _fail(number: int) -> int:
    raise ValueError(f"call {number}")


@pytest.mark.parametrize(
    "opened",
    [
        pytest.param(lambda workers: Inline(), id="inline"),
        pytest.param(ThreadPoolExecutor, id="threads"),
        pytest.param(open_processes, id="processes"),
    ],
)
def test_any_executor_will_do(opened: Any) -> None:
    crew = Crew(2, opened)
    assert sorted(crew.run(_double, [3, 1, 2])) == [(1, 2), (2, 4), (3, 6)]
    assert list(crew.run(_double, [])) == []
    crew.close()


def _has_loaded(name: str) -> bool:
    return name in sys.modules


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere workers are started anew")
def test_beside_a_thread_workers_find_loaded_what_they_need(crew: Crew) -> None:
    done = threading.Event()
    thread = threading.Thread(target=done.wait)
    thread.start()
    try:
        assert [there for _, there in crew.run(_has_loaded, ["shedbook.book.scores.engraving"])] == [True]
    finally:
        done.set()
        thread.join()


def test_a_lost_worker_costs_its_own_call_alone(crew: Crew) -> None:
    results = dict(crew.run(_end_at_three, list(range(8))))
    assert isinstance(results.pop(3), Lost)
    assert results == {number: number for number in range(8) if number != 3}


def test_a_fault_in_a_call_comes_through(crew: Crew) -> None:
    with pytest.raises(ValueError, match="call 1"):
        list(crew.run(_fail, [1]))


def test_breaking_off_ends_the_workers_at_once(crew: Crew) -> None:
    started = time.perf_counter()
    for _ in crew.run(time.sleep, [0, 30, 30, 30]):
        break
    assert time.perf_counter() - started < 5
    assert list(crew.run(_double, [1])) == [(1, 2)]


def test_fresh_calls_have_a_worker_each(crew: Crew) -> None:
    list(crew.run(_double, [1, 2]))
    workers = [worker for _, worker in crew.run_fresh(_worker, [1, 2, 3, 4, 5])]
    assert len(set(workers)) == 5
    assert list(crew.run_fresh(_double, [])) == []


def test_workers_stay_from_run_to_run_and_more_are_opened_where_there_are_too_few() -> None:
    opened: list[int] = []

    def threads(workers: int) -> ThreadPoolExecutor:
        opened.append(workers)
        return ThreadPoolExecutor(workers)

    crew = Crew(3, threads)
    for orders in ([1, 2], [3], [4, 5], [6, 7, 8, 9], [10, 11]):
        assert sorted(crew.run(_double, orders)) == [(one, 2 * one) for one in orders]
    crew.close()
    assert opened == [2, 3]


def test_of_fresh_workers_none_takes_two_calls_and_they_are_of_the_callers_kind() -> None:
    opened: list[int] = []

    def threads(workers: int) -> ThreadPoolExecutor:
        opened.append(workers)
        return ThreadPoolExecutor(workers)

    crew = Crew(2, threads)
    assert sorted(crew.run_fresh(_double, [1, 2, 3, 4, 5])) == [(one, 2 * one) for one in range(1, 6)]
    crew.close()
    assert opened == [2, 2, 1]
