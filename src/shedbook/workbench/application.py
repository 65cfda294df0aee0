"""Which address answers with what: the screens, and the calls that their scripts make."""

from __future__ import annotations

import asyncio
import contextlib
import tempfile
from collections.abc import AsyncIterator, Awaitable, Callable
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import msgspec
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from shedbook.errors import ShedbookError
from shedbook.workbench.calls import CALLS, QUESTIONS, Call
from shedbook.workbench.guard import Door, Guard
from shedbook.workbench.helpers import StaleError
from shedbook.workbench.making import made_file
from shedbook.workbench.room import Room, refusal
from shedbook.workbench.wording import page, words

Json = dict[str, Any]
STATIC = Path(__file__).parent / "static"
_FONTS = {
    "sans": ("font_source_sans_pro", "SourceSansPro"),
    "serif": ("font_source_serif_pro", "SourceSerifPro"),
}
_CUTS = ("Regular", "Semibold", "It")


def application(room: Room, door: Door, on_end: Callable[[], None] = lambda: None) -> Starlette:
    """Return the application.

    Args:
        room: the manuscript that is open.
        door: who may ask.
        on_end: is called when the author ends the workbench from the page.
    """

    @contextlib.asynccontextmanager
    async def life(app: Starlette) -> AsyncIterator[None]:
        room.quick.start()
        watching = asyncio.create_task(room.watch())
        yield
        room.end()
        watching.cancel()
        with contextlib.suppress(asyncio.CancelledError, Exception):
            await watching
        room.close()

    async def end(room: Room, given: Json) -> Json:
        room.end()
        on_end()
        return {"ended": True}

    calls = {**CALLS, "end": end}
    routes = [
        *(Route(path, _screen(name)) for path, name in SCREENS.items()),
        *(Route(f"/api/{name}", _answer(room, call)) for name, call in QUESTIONS.items()),
        Route("/api/events", _events(room)),
        Route("/api/notes", _notes(room)),
        Route("/api/hear", _hear(room), methods=["POST"]),
        Route("/api/import", _import(room), methods=["POST"]),
        Route("/api/recording", _recording(room), methods=["POST"]),
        *(Route(f"/api/{name}", _called(room, call), methods=["POST"]) for name, call in calls.items()),
        Route("/made/{name:path}", _file(room)),
        Route("/printed/{name}", _printed(room)),
        Route("/fonts/{family}-{cut}.otf", _font),
        Mount("/static", StaticFiles(directory=STATIC)),
    ]
    app = Starlette(routes=routes, lifespan=life)
    app.add_middleware(Guard, door=door)
    return app


SCREENS = {"/": "book", "/phrase": "phrase", "/keys": "keys", "/make": "make"}


def _screen(name: str) -> Callable[[Request], Awaitable[Response]]:
    async def screen(request: Request) -> Response:
        nonce = str(request.state.nonce)
        return HTMLResponse(page(name).replace("<!-- nonce -->", nonce))

    return screen


def json_response(value: Any, status: int = 200) -> Response:
    """Return a value as JSON."""
    return Response(msgspec.json.encode(value), status_code=status, media_type="application/json")


def _called(room: Room, call: Call) -> Callable[[Request], Awaitable[Response]]:
    """Answer a call whose arguments are a JSON object."""

    async def answer(request: Request) -> Response:
        try:
            given = msgspec.json.decode(await request.body() or b"{}", type=dict[str, Any])
            return json_response(await call(room, given))
        except StaleError:
            return json_response({"stale": True}, 409)
        except ShedbookError as error:
            return json_response(refusal(error), 422)
        except (KeyError, TypeError, ValueError) as error:
            return json_response(
                {"error": {"message": words("refused.form", what=repr(error)), "hint": ""}}, 400
            )

    return answer


def _answer(room: Room, call: Call) -> Callable[[Request], Awaitable[Response]]:
    """Answer a question that changes nothing; its arguments stand in the address."""

    async def answer(request: Request) -> Response:
        try:
            return json_response(await call(room, dict(request.query_params)))
        except ShedbookError as error:
            return json_response(refusal(error), 422)
        except (KeyError, ValueError) as error:
            return json_response(
                {"error": {"message": words("refused.form", what=repr(error)), "hint": ""}}, 400
            )

    return answer


# Bytes


def _hear(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def hear(request: Request) -> Response:
        try:
            given = msgspec.json.decode(await request.body(), type=dict[str, Any])
            tempo = given.get("tempo")
            chore = {
                "fields": given["fields"], "settings": room.settings(), "root": str(room.desk.root),
                "tempo": tempo and int(tempo), "loop": bool(given.get("loop")),
            }  # fmt: skip
            wav, what = await room.patient.ask("hear", chore, newest_for=f"hear {given.get('window', '')}")
        except StaleError:
            return json_response({"stale": True}, 409)
        except ShedbookError as error:
            return json_response(refusal(error), 422)
        return _sound(wav, what)

    return hear


def _notes(room: Room) -> Callable[[Request], Awaitable[Response]]:
    kept: dict[str, tuple[bytes, Json]] = {}

    async def notes(request: Request) -> Response:
        sound = repr(room.settings().tracks.sound)  # another instrument or font has other notes
        if sound not in kept:
            kept.clear()
            try:
                chore = {"settings": room.settings(), "root": str(room.desk.root)}
                kept[sound] = await room.patient.ask("notes", chore)
            except ShedbookError as error:
                return json_response(refusal(error), 422)
        return _sound(*kept[sound])

    return notes


def _sound(wav: bytes, what: Json) -> Response:
    """Return the length of what is said of a sound as four bytes, then that as JSON, then the WAV file."""
    head = msgspec.json.encode(what)
    return Response(len(head).to_bytes(4, "big") + head + wav, media_type="application/octet-stream")


def _import(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def take(request: Request) -> Response:
        name = Path(request.query_params.get("name", "").replace("\\", "/")).name or "file"
        data = await request.body()
        try:
            found = await asyncio.to_thread(_brought, room, name, data)
        except ShedbookError as error:
            return json_response(refusal(error), 422)
        room.changed("")
        return json_response(found)

    return take


def _brought(room: Room, name: str, data: bytes) -> Json:
    """Bring a file in as phrases of its own; the file itself lies outside the manuscript meanwhile."""
    with tempfile.TemporaryDirectory(prefix="shedbook-import-") as folder:
        path = Path(folder) / name[-80:]
        path.write_bytes(data)
        found = room.desk.bring_in(path)
    remarks = [str(remark) for report in found.reports for remark in report.remarks]
    files = [one.path.relative_to(room.desk.root).as_posix() for one in found.phrases]
    return {"files": files, "remarks": [*remarks, *found.notices]}


def _recording(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def take(request: Request) -> Response:
        name = request.query_params.get("name", "")
        return json_response({"recording": await room.recordings.take(name, request.stream())})

    return take


def _events(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def events(request: Request) -> Response:
        return StreamingResponse(room.told(), media_type="text/event-stream")

    return events


def _file(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def made(request: Request) -> Response:
        path = await asyncio.to_thread(made_file, room.desk.out, request.path_params["name"])
        if path is None:
            return Response(words("refused.gone"), status_code=404, media_type="text/plain")
        shown = "inline" if request.query_params.get("open") == "1" else "attachment"
        return FileResponse(path, filename=path.name, content_disposition_type=shown)

    return made


def _printed(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def printed(request: Request) -> Response:
        path = room.printed.get(request.path_params["name"])
        if path is None or not path.exists():
            return Response(words("refused.gone"), status_code=404, media_type="text/plain")
        return FileResponse(path, filename=path.name, content_disposition_type="inline")

    return printed


async def _font(request: Request) -> Response:
    family, cut = request.path_params["family"], request.path_params["cut"]
    package, stem = _FONTS.get(family, ("", ""))
    spec = find_spec(package) if package and cut in _CUTS else None
    if spec is None or spec.origin is None:
        return Response(words("refused.gone"), status_code=404, media_type="text/plain")
    path = Path(spec.origin).parent / "files" / f"{stem}-{cut}.otf"
    return FileResponse(path, media_type="font/otf", headers={"Cache-Control": "max-age=86400"})
