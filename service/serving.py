"""How gunicorn serves: read as its configuration file by scripts/serve.

Threads share one preloaded catalog; a proxy belongs in front of it where strangers can connect.
"""

import gc
import logging
import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

import gunicorn
import gunicorn.util
from gunicorn.glogging import Logger

from service.door.lines import logging_to_errors
from service.door.metrics import FOLDER
from service.door.unread import refuse
from service.handouts import setting
from service.planning import apart, engines
from service.settings import settings_or_exit

gunicorn.SERVER = "dryfit"  # strangers need not know what serves
gunicorn.util.write_error = refuse
# Our lines say no thread and no process, so none is looked up for each of them.
logging.logThreads = logging.logProcesses = logging.logMultiprocessing = False


class _Log(Logger):  # type: ignore[misc]  # gunicorn has no types
    """gunicorn's log without its line a request, for which it would gather some fifty values: the
    service writes a line of its own."""

    access_log_enabled = False


_settings = settings_or_exit(os.environ)

bind = f"{_settings.bind}:{_settings.port}"
worker_class = "gthread"
workers = _settings.workers
threads = _settings.threads
preload_app = True
control_socket_disable = True
graceful_timeout = _settings.deadline + 5
keepalive = 5
limit_request_line = 8190  # bytes of method and address; a longer one is answered with 414
forwarded_allow_ips = ""  # DRYFIT_PROXIES alone says whom to believe
loglevel = "warning"
logconfig_dict = logging_to_errors(_settings.log)
logger_class = _Log
wsgi_app = "service.app:create_app()"

if _settings.metrics != "off" and FOLDER not in os.environ:
    # Before the app is loaded, for there the client library looks for it. A new one at each start:
    # what dead processes have counted would be added for ever. A reload goes on with it.
    os.environ[FOLDER] = tempfile.mkdtemp(prefix="dryfit-metrics-")


# Answers make thousands of values and hardly a cycle among them: look for cycles less often.
gc.set_threshold(10_000, 20, 20)


def when_ready(server: Any) -> None:
    """Open the door to work that is done apart; say where the service is, and one line to try."""
    _set_apart()
    _open_door(server)
    address = f"http://{bind}"
    print(f"Dryfit answers at {address}")
    print(f"Try:  curl {address}/v1/sizes/1x8", flush=True)


def on_reload(server: Any) -> None:
    """Read the tables anew: with a preloaded app gunicorn would keep the old ones.

    Where they can't be read, it goes on with those that it has.
    """
    before, server.app.callable = server.app.callable, None
    try:
        server.app.wsgi()
    except Exception:
        server.log.exception("the tables can't be read anew; the old ones are kept")
        server.app.callable = before
    del before
    _set_apart()
    _open_door(server)  # a new one, which shares the new tables' memory and not the old


def _open_door(server: Any) -> None:
    """Let planners and setters of type work in processes of their own."""

    def load() -> None:
        engines.load()
        setting.load()

    apart.open_door(load, (listener.sock for listener in server.LISTENERS))


def _set_apart() -> None:
    """Keep the tables out of the search for cycles, which would go through them all, for a tenth of
    a second, every few hundred answers. Workers begin with what is set apart here.
    """
    gc.unfreeze()
    gc.collect()
    gc.freeze()


def child_exit(server: object, worker: Any) -> None:
    """Take what a dead process was busy with out of the counts."""
    if FOLDER in os.environ:
        from prometheus_client.multiprocess import mark_process_dead  # noqa: PLC0415

        mark_process_dead(worker.pid)  # type: ignore[no-untyped-call]


def on_exit(server: object) -> None:
    """Leave no folder behind."""
    if Path(os.environ.get(FOLDER, "")).name.startswith("dryfit-metrics-"):
        shutil.rmtree(os.environ[FOLDER], ignore_errors=True)
