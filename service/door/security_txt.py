"""GET /.well-known/security.txt: whom to tell of a hole (RFC 9116), where a contact is set."""

from datetime import UTC, datetime, timedelta

from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from service.api.described.operations import SERVICE, Operation, described_as

GOOD_FOR = timedelta(days=90)  # the text is made anew each day, so it never runs out


def page_of(contact: str) -> Blueprint:
    """The page that names the contact; where it is `none`, there is no page."""
    routes = Blueprint("security_txt", __name__)

    @routes.get("/.well-known/security.txt")
    @described_as(Operation(
        "nameContact", "Whom to tell of a hole in the service?",
        "The contact that this service was given, as RFC 9116 has it; nothing where it has none.",
        {"type": "string"}, SERVICE, forms=(), media=("text/plain",), refusals=(NotFound,),
        setting="DRYFIT_SECURITY_CONTACT",
    ))  # fmt: skip
    def name_the_contact() -> Response:
        """Contact, and until when this may be relied on."""
        if contact == "none":
            raise NotFound
        midnight = datetime.now(UTC).replace(hour=0, minute=0, second=0, microsecond=0)
        until = (midnight + GOOD_FOR).strftime("%Y-%m-%dT%H:%M:%SZ")
        lines = f"Contact: {contact}\nExpires: {until}\nPreferred-Languages: en\n"
        return Response(lines, mimetype="text/plain")

    return routes
