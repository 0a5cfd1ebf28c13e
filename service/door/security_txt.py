"""GET /.well-known/security.txt: whom to tell of a hole (RFC 9116), where a contact is set."""

from datetime import UTC, datetime, timedelta

from flask import Blueprint, Response

GOOD_FOR = timedelta(days=90)  # the text is made anew each day, so it never runs out


def page_of(contact: str) -> Blueprint:
    """The page that names the contact."""
    routes = Blueprint("security_txt", __name__)

    @routes.get("/.well-known/security.txt")
    def name_the_contact() -> Response:
        """Contact, and until when this may be relied on."""
        midnight = datetime.now(UTC).replace(hour=0, minute=0, second=0, microsecond=0)
        until = (midnight + GOOD_FOR).strftime("%Y-%m-%dT%H:%M:%SZ")
        lines = f"Contact: {contact}\nExpires: {until}\nPreferred-Languages: en\n"
        return Response(lines, mimetype="text/plain")

    return routes
