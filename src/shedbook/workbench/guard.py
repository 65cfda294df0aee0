"""Who may ask the workbench anything: this machine's own browser, and no page of somebody else.

A browser lets any page send requests to this machine. So the name under which the workbench was asked (Host)
and the page that asks (Origin) must be its own, nothing is changed by an address that can merely be opened,
and what is sent has a length that it may have. A policy keeps scripts out that are not ours (Content Security
Policy Level 3; Fetch Metadata; RFC 9110 and 6265).
"""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from types import MappingProxyType
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from shedbook.workbench.wording import words

MOST_BYTES = 2_000_000
"""How much a request may hold; a phrase takes a thousandth of it."""
MOST_FILE_BYTES = 48_000_000
"""How much a file may hold that is brought in: as much as the importers read."""
MOST_RECORDING_BYTES = 100_000_000
"""How much a recording may hold: over a quarter of an hour of one channel at 48 kHz and 16 bits."""
MOST_AT: Mapping[str, int] = MappingProxyType(
    {"/api/import": MOST_FILE_BYTES, "/api/recording": MOST_RECORDING_BYTES}
)
"""The addresses that take files, and how much each takes."""
COOKIE = "shedbook_workbench"
_READS = frozenset(("GET", "HEAD"))


@dataclass(frozen=True, slots=True)
class Door:
    """Under which names the workbench may be asked, and the token that must be shown first, "" for none."""

    hosts: frozenset[str]
    token: str = ""

    @property
    def origins(self) -> frozenset[str]:
        """The pages that may ask."""
        return frozenset(f"http://{host}" for host in self.hosts)


def policy(nonce: str) -> str:
    """Return the content security policy of a page: its own scripts, styles and pictures, no others."""
    return (
        "default-src 'none'; script-src 'self'; connect-src 'self'; media-src 'self' blob:; font-src 'self'; "
        f"img-src 'self' data: blob:; style-src 'self' 'nonce-{nonce}'; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'; object-src 'none'; worker-src 'none'"
    )


def new_token() -> str:
    """Return a token that nobody can guess."""
    return secrets.token_urlsafe(24)


class TooLongError(Exception):
    """More was sent than may be."""


class Guard:
    """Stands before the application; refuses what must not be asked, and marks every answer."""

    def __init__(self, app: ASGIApp, door: Door) -> None:
        self._app, self._door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        nonce = secrets.token_urlsafe(12)
        scope.setdefault("state", {})["nonce"] = nonce

        async def marked(message: Message) -> None:
            if message["type"] == "http.response.start":
                _mark(message, nonce)
            await send(message)

        refused = self._refused(scope)
        if refused:
            await PlainTextResponse(words(refused), status_code=403)(scope, receive, marked)
            return
        shown = self._shown(scope)
        if shown is not None:
            await shown(scope, receive, marked)
            return
        most = MOST_AT.get(scope["path"], MOST_BYTES)
        try:
            await self._app(scope, _bounded(receive, most), marked)
        except TooLongError:
            await PlainTextResponse(words("refused.too-long"), status_code=413)(scope, receive, marked)

    def _refused(self, scope: Scope) -> str:
        """Return the name of the words that say why a request is refused, "" where it may go on."""
        headers, door = Headers(scope=scope), self._door
        if headers.get("host", "") not in door.hosts:
            return "refused.host"
        origin = headers.get("origin")
        if origin is not None and origin not in door.origins:
            return "refused.origin"
        if scope["method"] not in _READS:
            if origin is None:
                return "refused.origin"
            if not headers.get("content-type", "").startswith(
                ("application/json", "application/octet-stream")
            ):
                return "refused.kind"
        elif (
            headers.get("sec-fetch-site", "none") == "cross-site"
            and headers.get("sec-fetch-mode") != "navigate"
        ):
            return "refused.origin"
        return ""

    def _shown(self, scope: Scope) -> RedirectResponse | PlainTextResponse | None:
        """See that the token was shown: return the answer to whoever shows it now, or has none to show."""
        token = self._door.token
        if not token:
            return None
        given = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        if given and _same(given, token):
            answer = RedirectResponse(scope["path"], status_code=303)
            answer.set_cookie(COOKIE, token, httponly=True, samesite="strict")
            return answer
        if _same(_cookie(Headers(scope=scope).getlist("cookie")), token):
            return None
        return PlainTextResponse(words("refused.token"), status_code=401)


def _same(one: str, two: str) -> bool:
    return hmac.compare_digest(one.encode(), two.encode())


def _cookie(lines: Sequence[str]) -> str:
    for line in lines:
        try:
            found = SimpleCookie(line).get(COOKIE)
        except CookieError:
            continue
        if found is not None:
            return found.value
    return ""


def _mark(message: MutableMapping[str, object], nonce: str) -> None:
    """Add to an answer what tells the browser to be strict with it."""
    headers = MutableHeaders(raw=message.setdefault("headers", []))  # type: ignore[arg-type]
    headers["Content-Security-Policy"] = policy(nonce)
    headers["X-Content-Type-Options"] = "nosniff"
    headers["Referrer-Policy"] = "no-referrer"
    headers["Cross-Origin-Opener-Policy"] = "same-origin"
    headers["Cross-Origin-Resource-Policy"] = "same-origin"
    if "cache-control" not in headers:
        headers["Cache-Control"] = "no-store"


def _bounded(receive: Receive, most: int) -> Receive:
    """Return what gives the parts of a request until they are too long together."""
    so_far = 0

    async def bounded() -> Message:
        nonlocal so_far
        message = await receive()
        if message["type"] == "http.request":
            so_far += len(message.get("body", b""))
            if so_far > most:
                raise TooLongError
        return message

    return bounded
