"""What can't be read as a request: the server refuses it before any question hears of it.

gunicorn has a page for that; programs, which sent it, get problem details as for every refusal.
"""

import socket
from secrets import token_hex

import orjson
from gunicorn.util import write_nonblock

from service.api.problems import MEDIA_TYPE, of_status
from service.api.request_ids import HEADER
from service.door.headers import FIXED


def refuse(connection: socket.socket, status: int, reason: str, detail: str) -> None:
    """Answer a connection, which is closed after it. Stands in for `gunicorn.util.write_error`."""
    slug, title = of_status(status)
    id = token_hex(8)
    body = {"type": f"/problems/{slug}", "title": title, "status": status}
    if detail:
        body["detail"] = detail
    body["instance"] = f"#{id}"
    content = orjson.dumps(body, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)
    fields = FIXED | {
        "Cache-Control": "no-store",
        "Connection": "close",
        "Content-Length": str(len(content)),
        "Content-Type": MEDIA_TYPE,
        HEADER: id,
    }
    head = "".join(f"{name}: {value}\r\n" for name, value in fields.items())
    write_nonblock(connection, f"HTTP/1.1 {status} {reason}\r\n{head}\r\n".encode() + content)
