"""Which address answers with what: the screens, and the calls that their scripts make."""

from __future__ import annotations

import asyncio
import contextlib
import shutil
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

from shedbook.book.manuscript.request import Request as BuildRequest
from shedbook.book.verbs.edit import PhraseRef
from shedbook.book.verbs.look import known_editions
from shedbook.errors import ShedbookError
from shedbook.workbench.guard import Door, Guard
from shedbook.workbench.helpers import StaleError
from shedbook.workbench.making import made_files
from shedbook.workbench.phrase_json import fields_json
from shedbook.workbench.room import Room, refusal
from shedbook.workbench.wording import page, words

Json = dict[str, Any]
Call = Callable[[Room, Json], Awaitable[Any]]
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
        shutil.rmtree(_printing_folder(room), ignore_errors=True)

    async def end(room: Room, given: Json) -> Json:
        room.end()
        on_end()
        return {"ended": True}

    calls = {**CALLS, "end": end}
    routes = [
        *(Route(path, _screen(name)) for path, name in SCREENS.items()),
        Route("/api/book", _answer(room, _book)),
        Route("/api/phrase", _answer(room, _phrase)),
        Route("/api/made", _answer(room, _made)),
        Route("/api/events", _events(room)),
        Route("/api/notes", _notes(room)),
        Route("/api/hear", _hear(room), methods=["POST"]),
        Route("/api/import", _import(room), methods=["POST"]),
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
            return json_response({"error": {"message": words("refused.form", what=repr(error)), "hint": ""}}, 400)

    return answer


def _answer(room: Room, call: Call) -> Callable[[Request], Awaitable[Response]]:
    """Answer a question that changes nothing; its arguments stand in the address."""

    async def answer(request: Request) -> Response:
        try:
            return json_response(await call(room, dict(request.query_params)))
        except ShedbookError as error:
            return json_response(refusal(error), 422)
        except (KeyError, ValueError) as error:
            return json_response({"error": {"message": words("refused.form", what=repr(error)), "hint": ""}}, 400)

    return answer


# Questions


async def _book(room: Room, given: Json) -> Json:
    return await asyncio.to_thread(room.book_json)


async def _phrase(room: Room, given: Json) -> Json:
    ref = PhraseRef(given["file"], int(given.get("index", 0)))
    book, source = room.book(), room.source(ref)
    at = source.number - 1
    order = [{"file": one.file, "index": one.index, "title": one.title} for one in book.phrases]
    place = next(i for i, one in enumerate(order) if (one["file"], one["index"]) == (ref.file, ref.index))
    return {
        "fields": fields_json(room.desk.fields(ref)),
        "defaults": fields_json(book.settings.defaults.fields),
        "title": source.title,
        "number": at + 1,
        "book": book.title,
        "before": order[place - 1] if place else None,
        "after": order[place + 1] if place + 1 < len(order) else None,
        "editions": known_editions(),
    }


async def _made(room: Room, given: Json) -> Json:
    return await asyncio.to_thread(_made_now, room)


def _made_now(room: Room) -> Json:
    out, book = room.desk.out, room.book()
    files = made_files(out)
    at = min((one["at"] for one in files if one["name"].endswith(".pdf")), default=0.0)
    newer = [one.title for one in book.phrases if at and one.path.stat().st_mtime > at]
    settings = room.desk.root / "manuscript.toml"
    kinds, editions = book.settings.tracks.kinds, book.settings.editions
    return {
        "files": files,
        "newer": newer,
        "settings_newer": bool(at) and settings.stat().st_mtime > at,
        "built_at": at,
        "folder": str(out),
        "kinds": kinds,
        "editions": editions,
        "known": known_editions(),
        "phrases": len(book.phrases),
        "book": book.title,
        "state": room.making.state,
    }


# Calls


async def _look(room: Room, given: Json) -> Any:
    chore = {"fields": given["fields"], "settings": room.book().settings, "width_mm": float(given["width"])}
    return await room.quick.ask("look_at", chore, newest_for=f"look {given.get('window', '')}")


async def _save(room: Room, given: Json) -> Json:
    ref = _ref(given)
    changes = {name: (pair[0], pair[1]) for name, pair in given["changes"].items()}
    saved = await asyncio.to_thread(room.desk.save, ref, changes)
    room.changed(str(given.get("window", "")))
    return {"fields": fields_json(saved.fields), "conflicts": saved.conflicts}


def _ref(given: Json) -> PhraseRef:
    return PhraseRef(str(given["file"]), int(given.get("index", 0)))


async def _act(room: Room, given: Json) -> Json:
    desk, act = room.desk, given["act"]
    answer: Json = {}
    if act == "add":
        ref = await asyncio.to_thread(desk.add, str(given["title"]))
        answer = {"file": ref.file, "index": ref.index}
    elif act == "duplicate":
        ref = await asyncio.to_thread(desk.duplicate, _ref(given), str(given["title"]))
        answer = {"file": ref.file, "index": ref.index}
    elif act == "aside":
        answer = {"file": await asyncio.to_thread(desk.set_aside, _ref(given))}
    elif act == "move":
        await asyncio.to_thread(desk.move, _ref(given), int(given["to"]))
    elif act in ("undo", "redo"):
        step = await asyncio.to_thread(desk.undo if act == "undo" else desk.redo)
        answer = {"step": None if step is None else [step.kind, step.about]}
    else:
        raise ValueError(act)
    room.changed(str(given.get("window", "")))
    return answer


async def _rows(room: Room, given: Json) -> Any:
    return await room.rows([_ref(one) for one in given["refs"][:24]])


async def _search(room: Room, given: Json) -> Json:
    found = await room.search([int(one) for one in given.get("steps", [])], str(given.get("progression", "")))
    return {"found": found}


async def _keys(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.book().settings, "edition": str(given["edition"]),
        "tonic": str(given.get("tonic", "")), "width_mm": float(given.get("width", 120)),
    }  # fmt: skip
    return await room.patient.ask("keys", chore, newest_for=f"keys {given.get('window', '')}")


async def _scales(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.book().settings,
        "change": int(given["change"]), "name": str(given["name"]),
    }  # fmt: skip
    return await room.quick.ask("scales", chore)


async def _times(room: Room, given: Json) -> Any:
    tempo = given.get("tempo")
    chore = {"fields": given["fields"], "settings": room.book().settings, "tempo": tempo and int(tempo)}
    return await room.quick.ask("times", chore)


async def _played(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.book().settings,
        "events": given["events"], "tempo": int(given["tempo"]),
    }  # fmt: skip
    return await room.patient.ask("played", chore)


async def _build(room: Room, given: Json) -> Json:
    request = BuildRequest(
        room.desk.root,
        room.desk.out,
        keys=tuple(str(one) for one in given.get("keys", [])),
        editions=tuple(str(one) for one in given.get("editions", [])),
        sample=int(given.get("sample", 0)),
        proof_sheet=bool(given.get("proof_sheet", False)),
        tracks=tuple(str(one) for one in given.get("tracks", [])),
    )
    return {"started": room.making.start(request, _teller(room))}


async def _stop(room: Room, given: Json) -> Json:
    return {"stopping": room.making.stop(_teller(room))}


def _teller(room: Room) -> Callable[[Json], None]:
    loop = asyncio.get_running_loop()
    return lambda state: loop.call_soon_threadsafe(room.tell, {"what": "making", **state}) and None


async def _print(room: Room, given: Json) -> Json:
    """Lay out the pages of one phrase as a book would have them."""
    from shedbook.book.verbs.build import build  # noqa: PLC0415 - only where pages are asked for

    number = room.source(_ref(given)).number
    folder = Path(tempfile.mkdtemp(dir=_printing_folder(room))) / "pages"
    request = BuildRequest(
        room.desk.root,
        folder,
        keys=tuple(str(one) for one in given.get("keys", [])),
        editions=(str(given["edition"]),),
        phrases=(str(number),),
        tracks=("none",),
        jobs=1,
        proof_sheet=bool(given.get("sheet", False)),
    )
    built = await asyncio.to_thread(build, request)
    name = f"{len(room.printed) + 1}.pdf"
    room.printed[name] = built.pdfs[0]
    return {"address": f"/printed/{name}"}


def _printing_folder(room: Room) -> Path:
    folder = Path(tempfile.gettempdir()) / f"shedbook-printing-{id(room):x}"
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder


CALLS: dict[str, Call] = {
    "look": _look, "save": _save, "act": _act, "rows": _rows, "search": _search, "keys": _keys,
    "scales": _scales, "times": _times, "played": _played, "build": _build, "stop": _stop, "print": _print,
}  # fmt: skip


# Bytes


def _hear(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def hear(request: Request) -> Response:
        try:
            given = msgspec.json.decode(await request.body(), type=dict[str, Any])
            tempo = given.get("tempo")
            chore = {
                "fields": given["fields"], "settings": room.book().settings, "root": str(room.desk.root),
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
    kept: list[tuple[bytes, Json]] = []

    async def notes(request: Request) -> Response:
        if not kept:
            try:
                chore = {"settings": room.book().settings, "root": str(room.desk.root)}
                kept.append(await room.patient.ask("notes", chore))
            except ShedbookError as error:
                return json_response(refusal(error), 422)
        return _sound(*kept[0])

    return notes


def _sound(wav: bytes, what: Json) -> Response:
    """Return sound, with what is said of it before it: the length of that as four bytes, then JSON, then WAV."""
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


def _events(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def events(request: Request) -> Response:
        return StreamingResponse(room.told(), media_type="text/event-stream")

    return events


def _file(room: Room) -> Callable[[Request], Awaitable[Response]]:
    async def made(request: Request) -> Response:
        wanted = request.path_params["name"]
        known = {str(one["name"]) for one in await asyncio.to_thread(made_files, room.desk.out)}
        if wanted not in known:
            return Response(words("refused.gone"), status_code=404, media_type="text/plain")
        shown = request.query_params.get("open") == "1"
        path = room.desk.out / wanted
        return FileResponse(
            path, filename=path.name, content_disposition_type="inline" if shown else "attachment"
        )

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
