"""The published description: assembled from what each question says of itself, as OpenAPI 3.1.

It is written to openapi/ by a script and proven current by a test; the service only sends the
file. May import: `service.api`, `service.domain`, apispec, Flask, marshmallow, orjson, Werkzeug.
"""
