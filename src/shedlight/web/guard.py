"""The door-keeper: only this machine, only this page, only small requests, nothing from elsewhere.

A page of another site that the same browser shows may send requests here too, and a name of
another site may be made to point here: both are refused before anything is read.
"""

from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
LARGEST_BODY = 256 * 1024
READING = ("GET", "HEAD")

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "style-src-attr 'unsafe-inline'",  # sizes of drawn formulas
        "img-src 'self' data: blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Cache-Control": "no-store",
}


class Guard:
    """Refuses what does not come from the page itself, and sets the headers of every answer."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str] = LOOPBACK) -> None:
        """Keep what is guarded and the names it may be called by."""
        self._app = app
        self._hosts = tuple(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request in, or refuse it with a reason."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        refused = self._refusal(scope)
        if refused:
            answer = PlainTextResponse(refused[1] + "\n", refused[0])
            await answer(scope, receive, _with_headers(send))
            return
        await self._app(scope, _limited(receive), _with_headers(send))

    def _refusal(self, scope: Scope) -> tuple[int, str] | None:
        headers = Headers(scope=scope)
        hosts = headers.getlist("host")
        if len(hosts) != 1 or not self._is_ours(hosts[0], scope):
            return 421, "refused: this address is served under the name of this machine only"
        site = headers.get("sec-fetch-site", "none")
        if scope["method"] in READING:
            strange = site in ("cross-site", "same-site")
            if strange and headers.get("sec-fetch-mode") != "navigate":
                return 403, "refused: asked for by another site"
            return None
        if scope["method"] != "POST":
            return 405, "refused: pages are read or posted to"
        if headers.get("origin") != f"http://{hosts[0]}" or site not in ("none", "same-origin"):
            return 403, "refused: not sent by the page itself"
        return _refused_body(headers)

    def _is_ours(self, host: str, scope: Scope) -> bool:
        name, colon, port = host.rpartition(":")
        if not colon or port.endswith("]"):
            name, port = host, "80"
        server = scope.get("server")
        return name.lower() in self._hosts and (server is None or port == str(server[1]))


def _refused_body(headers: Headers) -> tuple[int, str] | None:
    if headers.get("content-type", "").partition(";")[0].strip() != "application/json":
        return 415, "refused: only JSON is taken"
    length = headers.get("content-length", "")
    if not length.isdecimal():
        return 411, "refused: the length has to be told"
    if len(length) > 9 or int(length) > LARGEST_BODY:
        return 413, f"refused: more than {LARGEST_BODY // 1024} KiB"
    return None


def _limited(receive: Receive) -> Receive:
    """The server cuts a body at its told length; this holds even if one does not."""
    taken = 0

    async def limited() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > LARGEST_BODY:
            return {"type": "http.disconnect"}
        return message

    return limited


def _with_headers(send: Send) -> Send:
    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    return with_headers
