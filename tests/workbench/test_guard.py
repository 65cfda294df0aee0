"""Who may ask: Host, Origin, method, length, token.

Sources: RFC 9110 (Host), the Fetch standard (Origin), W3C Fetch Metadata, Content Security Policy Level 3.
"""

import asyncio
import json
from collections.abc import Iterable, Iterator
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest
from starlette.types import Message, Receive, Scope, Send

from shedbook.workbench.guard import COOKIE, MOST_BYTES, Door, Guard, policy
from workbench_served import Bench

OWN = "127.0.0.1:7245"
DOOR = Door(frozenset((OWN, "localhost:7245")))
JSON = ("content-type", "application/json")


async def _app(scope: Scope, receive: Receive, send: Send) -> None:
    body, more = b"", True
    while more:
        message = await receive()
        body += message.get("body", b"")
        more = message.get("more_body", False)
    await send({"type": "http.response.start", "status": 200, "headers": []})
    await send({"type": "http.response.body", "body": str(len(body)).encode()})


def asked(
    method: str = "GET",
    headers: Iterable[tuple[str, str]] = (),
    body: bytes = b"",
    path: str = "/",
    door: Door = DOOR,
) -> tuple[int, dict[str, str]]:
    """Return status and headers of an answer."""
    raw = [(name.encode(), value.encode()) for name, value in headers]
    path, _, query = path.partition("?")
    scope = {"type": "http", "method": method, "path": path, "query_string": query.encode(), "headers": raw}
    parts = [body[at : at + 65536] for at in range(0, len(body), 65536)] or [b""]
    waiting: Iterator[bytes] = iter(parts)
    sent: list[Message] = []

    async def receive() -> Message:
        part = next(waiting, b"")
        return {"type": "http.request", "body": part, "more_body": part != parts[-1]}

    async def send(message: Message) -> None:
        sent.append(message)

    asyncio.run(Guard(_app, door)(scope, receive, send))
    start = sent[0]
    return start["status"], {name.decode().lower(): value.decode() for name, value in start["headers"]}


HOST, ORIGIN = ("host", OWN), ("origin", f"http://{OWN}")
CASES = [
    pytest.param("GET", (HOST,), 200, id="its own name"),
    pytest.param("GET", (("host", "localhost:7245"),), 200, id="localhost"),
    pytest.param("GET", (("host", "evil.example"),), 403, id="another name that leads here (DNS rebinding)"),
    pytest.param("GET", (("host", "127.0.0.1"),), 403, id="another port"),
    pytest.param("GET", (), 403, id="no name"),
    pytest.param("GET", (HOST, ("origin", "http://evil.example")), 403, id="asked by another page"),
    pytest.param("GET", (HOST, ("origin", "null")), 403, id="asked by a page without an origin"),
    pytest.param(
        "GET", (HOST, ("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "no-cors")), 403, id="an image"
    ),
    pytest.param(
        "GET", (HOST, ("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "navigate")), 200, id="a link"
    ),
    pytest.param("POST", (HOST, ORIGIN, JSON), 200, id="its own page"),
    pytest.param("POST", (HOST, JSON), 403, id="a change without an origin"),
    pytest.param("POST", (HOST, ("origin", "http://evil.example"), JSON), 403, id="a change by another page"),
    pytest.param(
        "POST", (HOST, ("origin", "http://127.0.0.1:1"), JSON), 403, id="a change from another port"
    ),
    pytest.param("POST", (HOST, ORIGIN, ("content-type", "text/plain")), 403, id="what a form can send"),
    pytest.param("DELETE", (HOST, JSON), 403, id="any other method"),
]


@pytest.mark.parametrize(("method", "headers", "status"), CASES)
def test_who_may_ask(method: str, headers: tuple[tuple[str, str], ...], status: int) -> None:
    found, marks = asked(method, headers)
    assert found == status
    assert "default-src 'none'" in marks["content-security-policy"]
    assert marks["x-content-type-options"] == "nosniff"


def test_what_is_sent_has_a_length_that_it_may_have() -> None:
    assert asked("POST", (HOST, ORIGIN, JSON), b"x" * MOST_BYTES)[0] == 200
    assert asked("POST", (HOST, ORIGIN, JSON), b"x" * (MOST_BYTES + 1))[0] == 413
    raw = ("content-type", "application/octet-stream")
    assert asked("POST", (HOST, ORIGIN, raw), b"x" * (MOST_BYTES + 1), path="/api/import")[0] == 200


def test_other_machines_show_a_token_first() -> None:
    door = Door(frozenset(("192.0.2.1:7245",)), "secret")
    host = ("host", "192.0.2.1:7245")
    assert asked(headers=(host,), door=door)[0] == 401
    assert asked(headers=(host,), door=door, path="/?token=guess")[0] == 401
    assert asked(headers=(host, ("cookie", f"{COOKIE}=guess")), door=door)[0] == 401
    status, marks = asked(headers=(host,), door=door, path="/make?token=secret")
    assert (status, marks["location"]) == (303, "/make")
    assert "httponly" in marks["set-cookie"].lower()
    assert "samesite=strict" in marks["set-cookie"].lower()
    assert asked(headers=(host, ("cookie", f"{COOKIE}=secret")), door=door)[0] == 200


def test_the_policy_lets_no_foreign_script_in() -> None:
    rules = dict(one.strip().split(" ", 1) for one in policy("abc").split(";"))
    assert rules["script-src"] == "'self'"
    assert rules["default-src"] == "'none'"
    assert rules["frame-ancestors"] == "'none'"
    assert "unsafe" not in policy("abc")


# The whole server


def answer(bench: Bench, method: str, path: str, body: Any = None, **headers: str) -> tuple[int, bytes]:
    connection = HTTPConnection("127.0.0.1", bench.port, timeout=20)
    given = {"origin": bench.address, "content-type": "application/json", **headers}
    connection.request(method, path, None if body is None else json.dumps(body), given)
    found = connection.getresponse()
    content = found.read()
    connection.close()
    return found.status, content


def test_no_address_that_can_be_opened_changes_anything(bench: Bench) -> None:
    for name in ("save", "act", "build", "stop", "end", "print", "look", "hear", "import"):
        assert answer(bench, "GET", f"/api/{name}")[0] == 405


@pytest.mark.parametrize(
    "path",
    ["/made/../small-water/manuscript.toml", "/made/%2e%2e/small-water/manuscript.toml", "/made//etc/passwd",
     "/made/.shedbook-output", "/static/../guard.py", "/static/%2e%2e/guard.py", "/printed/..%2f1",
     "/fonts/sans-..otf"],
)  # fmt: skip
def test_no_path_leads_outside(bench: Bench, path: str) -> None:
    (bench.out).mkdir(exist_ok=True)
    assert answer(bench, "GET", path)[0] in (404, 405)


@pytest.mark.parametrize(
    "file", ["../other.toml", "/etc/passwd", "manuscript.toml", "phrases/../manuscript.toml"]
)
def test_no_call_reads_or_writes_outside_the_phrases(bench: Bench, file: str, tmp_path: Path) -> None:
    calls: dict[str, dict[str, Any]] = {
        "save": {"file": file, "changes": {"title": [None, "x"]}},
        "act": {"act": "aside", "file": file},
        "print": {"file": file, "edition": "concert"},
        "rows": {"refs": [{"file": file}]},
    }
    for name, given in calls.items():
        status, content = answer(bench, "POST", f"/api/{name}", given)
        assert status == 422, content
    assert answer(bench, "GET", f"/api/phrase?file={file}")[0] == 422


def test_a_call_that_is_not_understood_is_refused_in_words(bench: Bench) -> None:
    for body in ({}, {"file": 3}, [1], {"act": "format the disk"}):
        status, content = answer(bench, "POST", "/api/act", body)
        assert status in (400, 422)
        assert json.loads(content)["error"]["message"]
