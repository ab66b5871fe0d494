"""Hostile requests are refused before anything is read or worked out."""

import socket
from collections.abc import Iterable

import httpx
import pytest

from shedlight.web.app import page_app
from shedlight.web.guard import LARGEST_BODY
from web.apart import run_apart
from web.served import PATIENCE, Served

HOME = "http://127.0.0.1:8470"
JSON = {"Content-Type": "application/json"}
OURS = {"Origin": HOME, **JSON}
Headers = Iterable[tuple[str, str]]


def asked(method: str, path: str, headers: Headers = (), content: bytes | None = None) -> int:
    """The status of an answer, without a server."""
    return answered(method, path, headers, content).status_code


def answered(
    method: str, path: str, headers: Headers = (), content: bytes | None = None
) -> httpx.Response:
    async def ask() -> httpx.Response:
        transport = httpx.ASGITransport(app=page_app())
        async with httpx.AsyncClient(transport=transport, base_url=HOME) as client:
            return await client.request(method, path, headers=list(headers), content=content)

    return run_apart(ask())


def post(path: str, headers: dict[str, str], content: bytes = b"{}") -> int:
    return asked("POST", path, headers.items(), content)


def test_the_page_itself_is_let_in() -> None:
    assert asked("GET", "/open") == 200
    assert asked("GET", "/static/page.css") == 200
    # Let in and read: this one is refused only for what it lacks.
    assert post("/ask/verdicts", OURS) == 400


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        "evil.example:8470",
        "127.0.0.1:8471",
        "127.0.0.1",
        "localhost.evil.example:8470",
        "127.0.0.1:8470.evil.example",
        "user@127.0.0.1:8470",
        "0.0.0.0:8470",
        "[::1",
        "",
    ],
)
def test_another_host_is_refused(host: str) -> None:
    """A name of elsewhere that was made to point here would read the folder otherwise."""
    assert asked("GET", "/open", [("Host", host)]) == 421


def test_two_hosts_are_refused() -> None:
    assert asked("GET", "/open", [("Host", "127.0.0.1:8470"), ("Host", "evil.example")]) == 421


@pytest.mark.parametrize(
    "host", ["127.0.0.1:8470", "localhost:8470", "LOCALHOST:8470", "[::1]:8470"]
)
def test_this_machine_is_let_in(host: str) -> None:
    assert asked("GET", "/open", [("Host", host)]) == 200


@pytest.mark.parametrize(
    "headers",
    [
        JSON,
        {**JSON, "Origin": "http://evil.example"},
        {**JSON, "Origin": "null"},
        {**JSON, "Origin": "https://127.0.0.1:8470"},
        {**JSON, "Origin": "http://127.0.0.1:9999"},
        {**OURS, "Sec-Fetch-Site": "cross-site"},
        {**OURS, "Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_post_from_elsewhere_is_refused(headers: dict[str, str]) -> None:
    assert post("/save", headers) == 403
    assert post("/follow/propose", headers) == 403


@pytest.mark.parametrize(
    "kind", ["text/plain", "application/x-www-form-urlencoded", "", "text/json"]
)
def test_only_json_is_taken(kind: str) -> None:
    """Other kinds could be sent by a plain form of another site."""
    assert post("/save", {**OURS, "Content-Type": kind}) == 415


def test_large_requests_are_refused() -> None:
    assert post("/ask/verdicts", OURS, b" " * (LARGEST_BODY + 1)) == 413
    assert post("/ask/verdicts", {**OURS, "Content-Length": "99999999999999999999"}) == 413
    assert post("/ask/verdicts", {**OURS, "Content-Length": "-1"}) == 411


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"])
def test_other_methods_are_refused(method: str) -> None:
    assert asked(method, "/open") == 405


def test_another_site_may_link_here_but_not_embed() -> None:
    cross = ("Sec-Fetch-Site", "cross-site")
    assert asked("GET", "/example/quay-24kv", [cross, ("Sec-Fetch-Mode", "no-cors")]) == 403
    assert asked("GET", "/static/page.css", [cross, ("Sec-Fetch-Mode", "cors")]) == 403
    assert asked("GET", "/open", [cross, ("Sec-Fetch-Mode", "navigate")]) == 200


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/..%2fapp.py",
        "/static/%2e%2e/app.py",
        "/static/page.css%00",
        "/fonts/../__init__.py",
        "/example/../../pyproject",
        "/example/%2e%2e%2fquay-24kv",
        "/file/quay.toml",
        "/static/",
        "/nothing",
        "/docs",
        "/static/section.js/../../app.py",
        "//etc/passwd",
        "/file/%2fetc%2fpasswd",
    ],
)
def test_path_tricks_find_nothing(path: str) -> None:
    assert asked("GET", path) == 404


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"not json",
        b"[]",
        b"null",
        b'{"page": "x"}',
        b'{"values": {"name": 3}}',
        b'{"values": []}',
        b'{"page": "page-of-a-test", "values": {"name": {"a": 1}}}',
        b"[" * 100_000,
        b'{"page": "../../x-y-z"}',
    ],
)
def test_strange_bodies_are_refused(content: bytes) -> None:
    assert post("/ask/verdicts", OURS, content) == 400


@pytest.mark.parametrize("path", ["/open", "/static/section.js", "/nothing"])
def test_every_answer_carries_its_policy(path: str) -> None:
    headers = answered("GET", path).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self';" in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"


def raw(served: Served, request: bytes) -> bytes:
    """Bytes straight to the server, and what it says."""
    name, port = served.host.split(":")
    with socket.create_connection((name, int(port)), timeout=PATIENCE) as line:
        line.sendall(request)
        line.shutdown(socket.SHUT_WR)
        said = b""
        while piece := line.recv(65536):
            said += piece
    return said


@pytest.mark.parametrize(
    ("request_line", "statuses"),
    [
        (b"GET /open HTTP/1.1\r\nHost: evil.example\r\n", (b"421",)),
        (b"GET http://evil.example/open HTTP/1.1\r\nHost: evil.example\r\n", (b"421",)),
        (b"GET /../../../../etc/passwd HTTP/1.1\r\nHost: {}\r\n", (b"404",)),
        (b"GET /static/../../app.py HTTP/1.1\r\nHost: {}\r\n", (b"404",)),
        (b"GET /file/..%2f..%2fetc%2fpasswd HTTP/1.1\r\nHost: {}\r\n", (b"404",)),
        (b"GET /file/%2e%2e HTTP/1.1\r\nHost: {}\r\n", (b"404",)),
        (b"GET /open HTTP/1.1\r\n", (b"400", b"421")),
        (b"NONSENSE\r\n", (b"400",)),
        (
            b"GET /open HTTP/1.1\r\nHost: {}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n",
            (b"200",),
        ),
    ],
)
def test_raw_requests(served: Served, request_line: bytes, statuses: tuple[bytes, ...]) -> None:
    said = raw(
        served, request_line.replace(b"{}", served.host.encode()) + b"Connection: close\r\n\r\n"
    )
    assert said.split(b" ", 2)[1] in statuses
    assert b"root:" not in said
    assert b"import" not in said


def test_it_listens_on_this_machine_only(served: Served) -> None:
    """Another address of this machine finds no one."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.settimeout(5)
        try:
            probe.connect(
                ("192.0.2.1", 9)
            )  # nothing is sent: only tells which address would be used
        except OSError:
            own = "127.0.0.2"
        else:
            own = probe.getsockname()[0]
    with pytest.raises(OSError, match="refused"):
        socket.create_connection((own, int(served.host.split(":")[1])), timeout=5)


def test_html_in_texts_is_shown_as_text(served: Served) -> None:
    name = "<img src=x onerror=alert(1)>"
    values = served.post("/description", {"origin": "example", "name": "quay-24kv"}).json()[
        "values"
    ]
    answer = served.post("/ask/form", {"values": values | {"name": name}})
    assert "<img" not in answer.json()["parts"]["form"]
    figure = served.post("/ask/figure", {"values": values | {"name": name}}).json()["figure"]
    assert "<img" not in figure["svg"]


def test_numbers_beyond_reason_are_refused_with_words(served: Served) -> None:
    values = served.post("/description", {"origin": "example", "name": "quay-24kv"}).json()[
        "values"
    ]
    for path, text in (
        ("bushing.sheds.count", "9" * 500),
        ("bushing.sheds.count", "201"),
        ("bushing.sheds.overhang", "1e999"),
        ("bushing.porcelain.bore", "NaN"),
        ("name", "x" * 4001),
        ("bushing.sheds.form", "__class__"),
    ):
        answer = served.post("/ask/verdicts", {"values": values | {path: text}}).json()
        assert "problems" in answer, path
    many = {f"a.{number}": "x" for number in range(500)}
    assert "problems" in served.post("/ask/verdicts", {"values": values | many}).json()
