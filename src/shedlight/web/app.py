"""The page's server: what it answers to; the working out is left to the workers."""

import base64
import json
import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from importlib import resources
from typing import Any
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import (
    HTMLResponse,
    JSONResponse,
    RedirectResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Route

from shedlight.errors import InputError
from shedlight.exchange.examples import example_text
from shedlight.explain.words import languages, words
from shedlight.web import rooms
from shedlight.web.asking import KEPT, OBJECTIVES, usual_margin, wishes_offered
from shedlight.web.crew import Crew
from shedlight.web.folder import ChangedMeanwhile, Folder, NoSuchFile, mark
from shedlight.web.following import followed
from shedlight.web.guard import Guard
from shedlight.web.offers import files_offered, pictures_offered, topics
from shedlight.web.rendering import render

# The figure does not wait for the verdicts, nor both for a field: each has a process of its own.
DRAWING, JUDGING, SLOW, DECIDING = "drawing", "judging", "slow", "deciding"
TIME_LIMITS = {DRAWING: 20.0, JUDGING: 30.0, SLOW: 180.0, DECIDING: 600.0}  # [s]
WORKERS = {
    "figure": DRAWING,
    "form": DRAWING,
    "verdicts": JUDGING,
    "compare": JUDGING,
    "candidate": JUDGING,
    "picture": SLOW,
    "tour": SLOW,
    "reading": SLOW,
}
FOLLOWED = ("propose", "weigh", "why")
OF_THE_TOUR = ("slides.js", "slides.css")  # the same as in the file to take away
DEMO = "quay-24kv"
EXAMPLES = ("inland-12kv", "quay-24kv", "quay-24kv-cured", "quarry-36kv", "quarry-36kv-cured")
STATIC = re.compile(r"[a-z][a-z-]*\.(js|css)\Z")
FONTS = ("Inter-Regular.otf", "Inter-Bold.otf", "Inter-Italic.otf")
TYPES = {"js": "text/javascript", "css": "text/css", "otf": "font/otf"}
PAGE_ID = re.compile(r"[\w-]{8,64}\Z")

Json = dict[str, Any]


def page_app(folder: Folder | None = None) -> Starlette:
    """The page's application.

    Args:
        folder: The working folder; none leaves only the examples, and nothing can be saved.
    """

    @asynccontextmanager
    async def lifespan(app: Starlette) -> AsyncIterator[None]:
        crew: Crew = app.state.crew
        await crew.start((DRAWING, JUDGING, SLOW))
        yield
        await crew.end()

    app = Starlette(
        routes=[*_routes(), *(route for room in rooms.ROOMS for route in room.routes)],
        middleware=[Middleware(Guard)],
        exception_handlers={InputError: _refused},
        lifespan=lifespan,
    )
    app.state.folder = folder
    app.state.crew = Crew(TIME_LIMITS)
    return app


def _routes() -> list[Route]:
    post = ["POST"]
    return [
        Route("/", start),
        Route("/section", start),
        Route("/open", open_room),
        Route("/compare", compare_room),
        Route("/explain", explain_room),
        Route("/decide", decide_room),
        Route("/example/{name}", example),
        Route("/file/{name}", file),
        Route("/static/{name}", static),
        Route("/fonts/{name}", font),
        Route("/description", description, methods=post),
        Route("/ask/{job}", ask, methods=post),
        Route("/follow/{job}", follow, methods=post),
        Route("/stop", stop, methods=post),
        Route("/take", take, methods=post),
        Route("/save", save, methods=post),
    ]


async def start(request: Request) -> Response:
    """Where one begins: the demonstration, or the choice of what lies in the working folder."""
    folder: Folder | None = request.app.state.folder
    return RedirectResponse(f"/example/{DEMO}" if folder is None else "/open")


async def open_room(request: Request) -> Response:
    """What can be opened."""
    folder: Folder | None = request.app.state.folder
    return _page(
        "open.html",
        rooms.OPEN,
        place=folder.place.name if folder else "",
        files=[(name, f"/file/{quote(name)}") for name in (folder.names() if folder else ())],
        examples=[(name, _title_of(example_text(name)), f"/example/{name}") for name in EXAMPLES],
    )


async def compare_room(request: Request) -> Response:
    """Two variants side by side."""
    folder: Folder | None = request.app.state.folder
    names = folder.names() if folder else ()
    return _page("compare.html", rooms.COMPARE, files=names, examples=EXAMPLES)


async def explain_room(request: Request) -> Response:
    """The guided tour of the description that is looked at."""
    spoken = [(language, words(language).name) for language in languages()]
    return _page("explain.html", rooms.EXPLAIN, languages=spoken, topics=topics())


async def decide_room(request: Request) -> Response:
    """A bushing from duty and site, compromises, and why each dimension is what it is."""
    return _page(
        "decide.html",
        rooms.DECIDE,
        objectives=OBJECTIVES,
        wishes=wishes_offered(),
        usual_margin=usual_margin(),
        kept=KEPT,
    )


async def example(request: Request) -> Response:
    """The section of an example."""
    name = request.path_params["name"]
    if name not in EXAMPLES:
        raise NoSuchFile(f"there is no example {name[:60]!r}")
    return await _section(request, "example", name, example_text(name))


async def file(request: Request) -> Response:
    """The section of a description in the working folder."""
    name = request.path_params["name"]
    return await _section(request, "file", name, _folder(request).read(name).text)


async def description(request: Request) -> Response:
    """The values of another description: an example, or one in the working folder."""
    asked = await _posted(request)
    origin, name = str(asked.get("origin")), str(asked.get("name"))
    if origin == "example" and name in EXAMPLES:
        text = example_text(name)
    elif origin == "file":
        text = _folder(request).read(name).text
    else:
        raise NoSuchFile(f"there is no description {name[:60]!r}")
    return JSONResponse(await _opened(request, name, text) | {"seen": mark(text), "base": text})


async def ask(request: Request) -> Response:
    """Something to be worked out from the values of the page."""
    job = request.path_params["job"]
    if job not in WORKERS:
        raise NoSuchFile(f"nothing is known as {job[:40]!r}")
    asked = await _posted(request)
    worker = SLOW if asked.get("field") is True else WORKERS[job]
    return JSONResponse(await _worked_out(request, worker, job, asked))


async def follow(request: Request) -> Response:
    """Something that takes long: a line for each piece as it is found, the last is the answer."""
    job = request.path_params["job"]
    if job not in FOLLOWED:
        raise NoSuchFile(f"nothing is known as {job[:40]!r}")
    asked = await _posted(request)
    crew: Crew = request.app.state.crew
    lines = followed(crew, _page_id(asked), DECIDING, asked | {"job": job})
    return StreamingResponse(lines, media_type="application/x-ndjson")


async def stop(request: Request) -> Response:
    """End what takes long."""
    asked = await _posted(request)
    crew: Crew = request.app.state.crew
    worker = DECIDING if asked.get("of") == DECIDING else SLOW
    return JSONResponse({"stopped": crew.stop(_page_id(asked), worker)})


async def take(request: Request) -> Response:
    """A file to take away: of the description, or a sheet of questions about it."""
    asked = await _posted(request)
    job = "questions" if asked.get("sheet") is True else "take"
    answer = await _worked_out(request, SLOW, job, asked)
    if "content" not in answer:
        return JSONResponse(answer, 200 if "superseded" in answer else 422)
    return Response(
        base64.b64decode(answer["content"]),
        media_type=answer["media"],
        headers={"Content-Disposition": f"attachment; filename*=UTF-8''{quote(answer['name'])}"},
    )


async def save(request: Request) -> Response:
    """Keep the values in the working folder, unless the file changed meanwhile."""
    asked = await _posted(request)
    folder, name, seen = _folder(request), str(asked.get("name", "")), str(asked.get("seen", ""))
    made = await _worked_out(request, JUDGING, "text", asked)
    if "text" not in made:
        return JSONResponse(made, 422)
    try:
        new_mark = folder.write(name, made["text"], seen)
    except ChangedMeanwhile as error:
        there = folder.read(name).text if name in folder.names() else ""
        return JSONResponse({"changed": str(error), "seen": mark(there) if there else ""}, 409)
    return JSONResponse({"name": name, "seen": new_mark, "base": made["text"]})


async def static(request: Request) -> Response:
    """A script or a style of the page."""
    name = request.path_params["name"]
    if not STATIC.match(name):
        raise NoSuchFile("no such file")
    package = "shedlight.explain" if name in OF_THE_TOUR else "shedlight.web.static"
    return _resource(package, name)


async def font(request: Request) -> Response:
    """A typeface of the figures."""
    name = request.path_params["name"]
    if name not in FONTS:
        raise NoSuchFile("no such typeface")
    return _resource("shedlight.figures.fonts", name)


def _resource(place: str, name: str) -> Response:
    package, _, folder = place.removeprefix("shedlight.").partition(".")
    found = resources.files(f"shedlight.{package}").joinpath(folder, name)
    if not found.is_file():
        raise NoSuchFile("no such file")
    media = TYPES[name.rpartition(".")[2]]
    return Response(found.read_bytes(), media_type=media, headers={"Cache-Control": "no-cache"})


async def _section(request: Request, origin: str, name: str, text: str) -> Response:
    answer = await _opened(request, name, text)
    if "values" not in answer:
        return _page("unusable.html", rooms.SECTION, 422, name=name, answer=answer)
    folder: Folder | None = request.app.state.folder
    begin = answer | {
        "origin": origin,
        "name": name,
        "base": text,
        "seen": mark(text) if origin == "file" else "",
        "folder": folder.place.name if folder else "",
    }
    parts = begin.pop("parts")
    return _page(
        "section.html",
        rooms.SECTION,
        title=answer["values"]["name"],
        parts=parts,
        svg=answer["figure"]["svg"],
        begin=json.dumps(begin).replace("<", "\\u003c"),
        pictures=pictures_offered(),
        files=files_offered(),
        folder=begin["folder"],
    )


async def _opened(request: Request, name: str, text: str) -> Json:
    crew: Crew = request.app.state.crew
    asked = {"job": "open", "text": text, "origin": name}
    return await crew.ask(f"opening-{id(request)}", JUDGING, asked)


async def _worked_out(request: Request, worker: str, job: str, asked: Json) -> Json:
    crew: Crew = request.app.state.crew
    return await crew.ask(_page_id(asked), worker, asked | {"job": job})


async def _posted(request: Request) -> Json:
    """The posted object; its maps of values hold texts only."""
    try:
        asked = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise InputError("what was sent is not JSON") from None
    if not isinstance(asked, dict):
        raise InputError("what was sent is not an object")
    for name in ("values", "left", "right", "defaults", "wishes"):
        values = asked.get(name, {})
        plain = isinstance(values, dict) and all(isinstance(v, str) for v in values.values())
        if not plain:
            raise InputError(f"{name} has to hold texts by name")
    return asked


def _page_id(asked: Json) -> str:
    page = str(asked.get("page", ""))
    if not PAGE_ID.match(page):
        raise InputError("the page has to say which it is")
    return page


def _folder(request: Request) -> Folder:
    folder: Folder | None = request.app.state.folder
    if folder is None:
        raise NoSuchFile("no working folder was named when the page was started")
    return folder


def _page(template: str, room: rooms.Room, status: int = 200, **names: Any) -> Response:
    return HTMLResponse(render(template, room=room, rooms=rooms.ROOMS, **names), status)


def _title_of(text: str) -> str:
    """What stands in the first remark of an example."""
    first = text.partition("\n")[0]
    return first.removeprefix("#").strip() if first.startswith("#") else ""


async def _refused(request: Request, error: Exception) -> Response:
    status = 404 if isinstance(error, NoSuchFile) else 400
    if request.method == "POST":
        return JSONResponse({"fault": str(error)}, status)
    return _page("unusable.html", rooms.OPEN, status, name="", answer={"fault": str(error)})
