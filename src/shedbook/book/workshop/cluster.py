"""A Dask cluster as the executor of a crew: who may work there, and what is told when it fails.

Workers write what they make into the store of the output folder, which they must see under the same path.
A worker with another Python, another shedbook or another version of a library would make other pages; it is
refused by name, at the beginning, and also where it joins later.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Callable, Mapping
from concurrent.futures import BrokenExecutor, Executor, Future
from functools import cache
from typing import Any

from shedbook.book.workshop.crew import OpenExecutor
from shedbook.book.workshop.versions import LIBRARIES, SOUND_LIBRARIES, library_version, own_files
from shedbook.errors import ShedbookError

_TIMEOUT = "10s"
_OURS = "shedbook's own files"
_NO_DASK = ShedbookError(
    "A scheduler was named, but Dask is not installed.",
    hint='Install it with: pip install "distributed" - or leave --scheduler out.',
)


@cache
def versions_here() -> Mapping[str, str]:
    """Return what must be the same on every machine: Python, our files, and each library's version."""
    found = {"Python": f"{sys.version_info[0]}.{sys.version_info[1]}", _OURS: own_files()[:12]}
    found |= {name: library_version(name) for name in LIBRARIES}
    return found | {name: library_version(name, module) for name, module in SOUND_LIBRARIES}


def difference(here: Mapping[str, str], there: Mapping[str, str]) -> str:
    """Return in words what differs between two machines, "" for nothing."""
    return ", ".join(
        f"{name} {there.get(name) or 'missing'} in place of {version or 'none'}"
        for name, version in here.items()
        if there.get(name, "") != version
    )


def open_cluster(address: str) -> OpenExecutor:
    """Return what opens the executor of a Dask cluster; its workers must see the same output folder.

    Raises:
        ShedbookError: if Dask is not installed or nobody answers at the address; or, when it is opened, if
            there is no worker, or one that would make other pages.
    """
    try:
        distributed = importlib.import_module("distributed")
    except ImportError as error:
        raise _NO_DASK from error

    def opened(workers: int) -> Executor:
        try:
            client = distributed.Client(address, timeout=_TIMEOUT)
        except (OSError, ValueError) as error:
            raise ShedbookError(
                f"No Dask scheduler answers at {address}.", hint="Look at the address given to --scheduler."
            ) from error
        try:
            client.wait_for_workers(1, timeout=_TIMEOUT)
            refuse_others(client.run(versions_here))
        except ShedbookError:
            client.close()
            raise
        except TimeoutError as error:
            client.close()
            raise ShedbookError(
                f"The Dask scheduler at {address} has no workers.",
                hint="Start them first: dask worker ADDRESS, on machines that see the output folder.",
            ) from error
        except Exception as error:  # a worker raises whatever its own installation lets it
            client.close()
            raise ShedbookError(
                f"A worker at {address} cannot be asked for its versions: {type(error).__name__}: {error}",
                hint="Install shedbook, in the version that is here, on every worker.",
            ) from error
        return _ClusterExecutor(client, address)

    return opened


def refuse_others(found: Mapping[str, Mapping[str, str]]) -> None:
    """Refuse workers that would make other pages or tracks than this machine.

    Args:
        found: by the address of a worker, what `versions_here` gave there.

    Raises:
        ShedbookError: if there are some; it names the first, and what differs.
    """
    for worker, versions in sorted(found.items()):
        other = difference(versions_here(), versions)
        if other:
            raise ShedbookError(
                f"The worker {worker} would make other pages than this machine: it has {other}.",
                hint="Install the same versions there, or take the worker out of the cluster.",
            )


def _done_alike(here: Mapping[str, str], fn: Callable[..., Any], args: tuple[Any, ...]) -> Any:
    """Do a call on a worker, unless the worker came later and is another kind."""
    refuse_others({_own_address(): versions_here()} if versions_here() != here else {})
    return fn(*args)


def _own_address() -> str:
    distributed = importlib.import_module("distributed")
    return str(distributed.get_worker().address)


class _ClusterExecutor(Executor):
    """The executor of a Dask client, which goes when the executor goes."""

    def __init__(self, client: Any, address: str) -> None:
        self._client = client
        self._address = address
        self._executor = client.get_executor()

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        answer: Future[Any] = Future()
        answer.set_running_or_notify_cancel()
        self._executor.submit(_done_alike, versions_here(), fn, args, **kwargs).add_done_callback(
            lambda done: self._pass_on(done, answer)
        )
        return answer

    def _pass_on(self, done: Future[Any], answer: Future[Any]) -> None:
        """Give an answer on; a call that ended its worker each time it was tried counts as a lost worker."""
        if done.cancelled():
            answer.set_exception(
                ShedbookError(
                    f"The Dask scheduler at {self._address} went away.",
                    hint="What was finished is kept; start it again, and the next build goes on from there.",
                )
            )
            return
        error = done.exception()
        if error is None:
            answer.set_result(done.result())
        elif type(error).__name__ == "KilledWorker":
            answer.set_exception(BrokenExecutor(str(error)))
        else:
            answer.set_exception(error)

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        self._executor.shutdown(wait=wait and not cancel_futures)  # without waiting, what waits is dropped
        self._client.close()
