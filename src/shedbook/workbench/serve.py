"""The workbench opened and ended: a port on this machine, the browser, and an orderly end."""

from __future__ import annotations

import socket
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from shedbook.errors import ShedbookError
from shedbook.workbench.application import application
from shedbook.workbench.guard import Door, new_token
from shedbook.workbench.room import Room

USUAL_PORT = 7245
THIS_MACHINE = "127.0.0.1"
_NAMES = (THIS_MACHINE, "localhost")
_END_S = 2


@dataclass(frozen=True, slots=True)
class Opened:
    """Where the workbench is: its address, and whether other machines may ask with the token in it."""

    address: str
    others: bool


def serve(
    root: Path,
    *,
    port: int = 0,
    host: str = THIS_MACHINE,
    out: Path | None = None,
    browser: bool = True,
    tell: Callable[[Opened], None] = lambda opened: None,
) -> None:
    """Open the workbench on a manuscript, and return when it has ended.

    Args:
        root: the manuscript's folder.
        port: the port; 0 for the usual one, or any that is free.
        host: the address of this machine at which it is asked.
        out: the output folder; None for the usual one.
        browser: whether the browser is opened.
        tell: is called when the address is known.

    Raises:
        ManuscriptError: if the folder holds no manuscript.
        ShedbookError: if the port is taken.
    """
    room = Room(root, out)
    door_socket = _socket(host, port)
    number = door_socket.getsockname()[1]
    others = host not in _NAMES
    door = Door(
        frozenset(f"{name}:{number}" for name in ((host,) if others else _NAMES)),
        new_token() if others else "",
    )
    address = f"http://{host}:{number}/" + (f"?token={door.token}" if others else "")

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            tell(Opened(address, others))
            if browser:
                webbrowser.open(address)

        def handle_exit(self, sig: int, frame: object) -> None:
            room.end()  # else the windows that listen would keep it open
            super().handle_exit(sig, frame)  # type: ignore[arg-type]

    server: Server

    def end() -> None:
        server.should_exit = True

    app = application(room, door, end)
    config = uvicorn.Config(
        app, log_level="error", access_log=False, server_header=False, ws="none", lifespan="on",
        timeout_graceful_shutdown=_END_S,
    )  # fmt: skip
    server = Server(config)
    try:
        server.run(sockets=[door_socket])
    except KeyboardInterrupt:
        pass  # this is how it is ended from the keyboard
    finally:
        door_socket.close()
        room.close()


def _socket(host: str, port: int) -> socket.socket:
    """Return the socket at which the workbench is asked."""
    for number in [port] if port else [USUAL_PORT, 0]:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        # Named as TCP, asyncio sends at once what it has; else the end of an answer waits 40 ms for the
        # other side to acknowledge its beginning (RFC 896 against RFC 1122, 4.2.3.2).
        found = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            found.bind((host, number))
            found.listen(128)
        except OSError as error:
            found.close()
            if number == USUAL_PORT and not port:
                continue
            raise ShedbookError(
                f"The workbench cannot be opened at {host}, port {number}: {error.strerror or error}.",
                hint="Name another port with --port, or leave it out.",
            ) from error
        return found
    raise AssertionError("unreachable: the loop returns or raises")
