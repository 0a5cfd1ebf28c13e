"""The phone page: static files that ask this service like anybody else.

The files stand in `service/pages` and are read once. One more is made of them: `edition.js`, which
tells the page's worker what to keep for working without a connection, and that it has changed.
"""

import hashlib
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

import orjson
from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from service.api.conditional import kept
from service.api.described.operations import SERVICE, Example, Operation, described_as

routes = Blueprint("pages", __name__)

FOLDER = Path(__file__).parent.parent / "pages"
FRONT, EDITION = "index.html", "edition.js"
MEDIA_TYPES = {
    ".css": "text/css",
    ".html": "text/html",
    ".js": "text/javascript",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
    "img-src 'self' data: blob:; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)


def read_files(folder: Path) -> Mapping[str, bytes]:
    """Every file of the page by its path in the folder, and the edition of them all."""
    files = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.suffix in MEDIA_TYPES
    }
    whole = hashlib.sha256()
    for name, content in files.items():
        whole.update(f"{name} {len(content)} ".encode() + content)
    told = {"edition": whole.hexdigest()[:12], "files": [*files, EDITION]}
    return {**files, EDITION: b"self.PAGE = " + orjson.dumps(told) + b";\n"}


FILES = read_files(FOLDER)


@routes.get("/page/<path:name>")
@described_as(Operation(
    "showFile", "What does the phone page consist of?",
    "One file of the page that a browser gets at the front.",
    {"type": "string"}, SERVICE, path={"name": "Path of the file."}, forms=(),
    media=tuple(MEDIA_TYPES.values()), refusals=(NotFound,), keeps=True,
    examples={"page": Example("The page itself", {"name": FRONT})},
))  # fmt: skip
def show_file(name: str) -> Response:
    """One file of the page. The browser asks each time whether it has changed."""
    if name not in FILES:
        raise NotFound
    return page_file(name)


def page_file(name: str) -> Response:
    """A file of the page by its path, or 304 where the caller has it already."""
    response = kept(FILES[name], MEDIA_TYPES[PurePosixPath(name).suffix])
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Content-Security-Policy"] = POLICY
    response.headers["Service-Worker-Allowed"] = "/"  # the worker keeps answers of /v1 too
    return response
