"""How gunicorn serves: read as its configuration file by scripts/serve.

Threads share one preloaded catalog; a proxy belongs in front of it where strangers can connect.
"""

import os

import gunicorn

from service.settings import settings_or_exit

gunicorn.SERVER = "dryfit"  # strangers need not know what serves
_settings = settings_or_exit(os.environ)

bind = f"{_settings.bind}:{_settings.port}"
worker_class = "gthread"
workers = _settings.workers
threads = _settings.threads
preload_app = True
control_socket_disable = True
graceful_timeout = 20
keepalive = 5
loglevel = "warning"
wsgi_app = "service.app:create_app()"


def when_ready(server: object) -> None:
    """Say where the service is, and one line to try."""
    address = f"http://{bind}"
    print(f"Dryfit answers at {address}")
    print(f"Try:  curl {address}/v1/sizes/1x8", flush=True)
