"""What a caller may send, as one marshmallow schema family: JSON to the frozen values of a build.

A file a subject; fields.py says how each kind of value is read. Nothing here knows of Flask.
May import: marshmallow, `service.domain`, `service.quantities`.
"""
