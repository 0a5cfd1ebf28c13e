"""What every request passes on its way in and out: its name, its quota, its origin, its line.

May import: the api (for refusals and problems), the settings, Flask, Werkzeug, gunicorn, limits
and prometheus_client. It knows no question; `opening.py` puts it all around an app.
"""
