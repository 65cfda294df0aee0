"""What the scripts of the screens ask for: each call takes a JSON object and gives one."""

from __future__ import annotations

import asyncio
import tempfile
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from shedbook.book.manuscript.choice import known_editions
from shedbook.book.manuscript.request import Request as BuildRequest
from shedbook.book.verbs.edit import PhraseRef
from shedbook.workbench.making import built_json, made_files
from shedbook.workbench.plain_json import fields_json
from shedbook.workbench.room import Room

Json = dict[str, Any]
Call = Callable[[Room, Json], Awaitable[Any]]

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
        "shared": room.desk.shared(ref),
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
    kinds, editions = book.settings.tracks.kinds, book.settings.editions
    return {
        "files": files,
        **built_json(book, out),
        "folder": str(out),
        "kinds": kinds,
        "practice_page": book.settings.practice_page,
        "editions": editions,
        "known": known_editions(),
        "phrases": len(book.phrases),
        "book": book.title,
        "state": room.making.state,
    }


# Calls


async def _look(room: Room, given: Json) -> Any:
    chore = {"fields": given["fields"], "settings": room.settings(), "width_mm": float(given["width"])}
    return await room.quick.ask("look_at", chore, newest_for=f"look {given.get('window', '')}")


async def _save(room: Room, given: Json) -> Json:
    ref = _ref(given)
    changes = {name: (pair[0], pair[1]) for name, pair in given["changes"].items()}
    saved = await asyncio.to_thread(room.desk.save, ref, changes)
    room.wrote(ref.file)
    room.changed(str(given.get("window", "")), whole=False)
    return {"fields": fields_json(saved.fields), "conflicts": saved.conflicts}


def _ref(given: Json) -> PhraseRef:
    return PhraseRef(str(given["file"]), int(given.get("index", 0)))


async def _act(room: Room, given: Json) -> Json:
    desk, act = room.desk, given["act"]
    answer: Json = {}
    if act == "add":
        ref = await asyncio.to_thread(desk.add, str(given["title"]), given.get("fields"))
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
    steps = [int(one) for one in given.get("steps", [])]
    return await room.search(steps, str(given.get("progression", "")))


async def _keys(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.settings(), "edition": str(given["edition"]),
        "tonic": str(given.get("tonic", "")), "width_mm": float(given.get("width", 120)),
    }  # fmt: skip
    return await room.patient.ask("keys", chore, newest_for=f"keys {given.get('window', '')}")


async def _scales(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.settings(),
        "change": int(given["change"]), "name": str(given["name"]),
    }  # fmt: skip
    return await room.quick.ask("scales", chore)


async def _times(room: Room, given: Json) -> Any:
    tempo = given.get("tempo")
    chore = {"fields": given["fields"], "settings": room.settings(), "tempo": tempo and int(tempo)}
    return await room.quick.ask("times", chore)


async def _played(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.settings(),
        "events": given["events"], "tempo": int(given["tempo"]),
    }  # fmt: skip
    return await room.patient.ask("played", chore)


async def _propose(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.settings(), "root": str(room.desk.root),
        "wishes": {
            "shape": str(given.get("shape", "")), "level": int(given.get("level", 0)),
            "first": str(given.get("first", "")), "last": str(given.get("last", "")),
            "whole_scale": bool(given.get("whole_scale")), "like": bool(given.get("like")),
            "seed": int(given.get("seed", 1)),
        },
    }  # fmt: skip
    return await room.patient.ask("proposals", chore, newest_for=f"propose {given.get('window', '')}")


async def _vary(room: Room, given: Json) -> Any:
    chore = {"fields": given["fields"], "settings": room.settings(), "onto": str(given.get("onto", ""))}
    return await room.patient.ask("variations", chore, newest_for=f"propose {given.get('window', '')}")


async def _listen(room: Room, given: Json) -> Any:
    newest = f"listen {_window(given)}"
    return await room.listen(str(given["recording"]), "listen_to", _meant(room, given), newest)


async def _keep(room: Room, given: Json) -> Any:
    """File a take into the manuscript, as the author asked."""
    chore = {**_meant(room, given), "take": int(given["take"]), "replace": bool(given.get("replace"))}
    kept = await room.listen(str(given["recording"]), "keep", chore)
    if kept.get("kept"):
        room.changed(_window(given))
    return kept


async def _write_down(room: Room, given: Json) -> Any:
    chore = {
        "fields": given["fields"], "settings": room.settings(), "tempo": int(given.get("tempo") or 0),
    }  # fmt: skip
    return await room.listen(str(given["recording"]), "write_down", chore, f"write down {_window(given)}")


async def _heard_notes(room: Room, given: Json) -> Any:
    """Return the notes of a recording, and delete it."""
    recording = str(given["recording"])
    try:
        return await room.listen(recording, "heard_notes", {}, f"heard notes {_window(given)}")
    finally:
        room.forget(recording)


async def _forget(room: Room, given: Json) -> Json:
    room.forget(str(given["recording"]))
    return {"forgotten": True}


def _meant(room: Room, given: Json) -> Json:
    return {"root": str(room.desk.root), "number": room.source(_ref(given)).number}


def _window(given: Json) -> str:
    return str(given.get("window", ""))


async def _build(room: Room, given: Json) -> Json:
    request = BuildRequest(
        room.desk.root,
        room.desk.out,
        keys=tuple(str(one) for one in given.get("keys", [])),
        editions=tuple(str(one) for one in given.get("editions", [])),
        sample=int(given.get("sample", 0)),
        proof_sheet=bool(given.get("proof_sheet", False)),
        bundle=bool(given.get("bundle", False)),
        practice_page=bool(given.get("practice_page", False)),
        tracks=tuple(str(one) for one in given.get("tracks", [])),
    )
    return {"started": room.making.start(request, _teller(room))}


async def _stop(room: Room, given: Json) -> Json:
    return {"stopping": room.making.stop(_teller(room))}


def _teller(room: Room) -> Callable[[Json], None]:
    loop = asyncio.get_running_loop()

    def tell(state: Json) -> None:
        loop.call_soon_threadsafe(room.tell, {"what": "making", **state})

    return tell


async def _print(room: Room, given: Json) -> Json:
    """Lay out the pages of one phrase as a book would have them."""
    from shedbook.book.verbs.one_phrase import PagesOrder, pages_of  # noqa: PLC0415 - only where pages are wanted

    text = await asyncio.to_thread(room.desk.text_alone, _ref(given))
    keys = tuple(str(one) for one in given.get("keys", []))
    order = PagesOrder(str(given["edition"]), str(given.get("paper", "")), keys)
    folder = Path(tempfile.mkdtemp(dir=room.printing_folder()))
    made = await asyncio.to_thread(pages_of, room.desk.root, text, order, folder)
    name = f"{len(room.printed) + 1}.pdf"
    room.printed[name] = made
    return {"address": f"/printed/{name}"}


QUESTIONS: Mapping[str, Call] = MappingProxyType({"book": _book, "phrase": _phrase, "made": _made})
"""What changes nothing; asked by an address alone."""

CALLS: Mapping[str, Call] = MappingProxyType({
    "look": _look, "save": _save, "act": _act, "rows": _rows, "search": _search, "keys": _keys,
    "scales": _scales, "times": _times, "played": _played, "propose": _propose, "vary": _vary,
    "build": _build, "stop": _stop, "print": _print,
    "listen": _listen, "keep": _keep, "write_down": _write_down, "heard_notes": _heard_notes,
    "forget": _forget,
})  # fmt: skip
