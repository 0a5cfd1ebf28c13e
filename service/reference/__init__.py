"""From the CSV tables to a database, and from there to values and to a browser of the tables.

May import: this room, the domain, `service.quantities` and SQLAlchemy. The only room with a
database of reference data; nothing here knows of HTTP.
"""
