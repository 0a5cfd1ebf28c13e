"""The yardstick: the least that Flask can answer, served like the service."""

from flask import Flask, Response, jsonify

app = Flask("bare", static_folder=None)


@app.get("/bare")
def answer() -> Response:
    return jsonify(ok=True)
