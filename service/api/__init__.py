"""HTTP in, HTTP out: documents and parameters to values, answers to bytes, refusals to problems.

May import: Flask, Werkzeug, marshmallow, orjson, and every other room. One file a question; a
handler loads, asks and dumps. What a caller may send is in documents/.
"""
