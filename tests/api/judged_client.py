"""A caller that holds every answer against the description: none may say what is not described."""

import copy
from collections.abc import Iterator
from typing import Any

import jsonschema_rs
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.exceptions import HTTPException
from werkzeug.test import TestResponse

from service.publishing.document import described, places

Json = dict[str, Any]

AT_TIMES = {"ETag", "Link", "RateLimit", "RateLimit-Policy"}
ALWAYS = {"wrong-method", "unknown-route", "bad-request", "internal-error"}


def closed(schema: Any) -> Any:
    """The schema without room for fields that are not described."""
    if isinstance(schema, list):
        return [closed(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    inner = {name: closed(value) for name, value in schema.items()}
    is_record = isinstance(schema.get("properties"), dict) and schema.get("type") == "object"
    return {"additionalProperties": False, **inner} if is_record else inner


def referred(value: Any) -> list[str]:
    """The names of the schemas that a schema refers to itself."""
    if isinstance(value, list):
        return [name for each in value for name in referred(each)]
    if not isinstance(value, dict):
        return []
    own = [value["$ref"].rpartition("/")[2]] if isinstance(value.get("$ref"), str) else []
    return [*own, *(name for each in value.values() for name in referred(each))]


class Judge:
    """The description of an application, ready to be asked about its answers."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        self.document = described(app)
        self.schemas = closed(copy.deepcopy(self.document["components"]["schemas"]))
        self.findings = {
            code: self._gate(closed(finding["numbers"]))
            for code, finding in self.document["x-findings"].items()
        }
        self.problem = self._gate({"$ref": "#/components/schemas/Problem"})
        self.gates: dict[str, Any] = {}

    @classmethod
    def of(cls, app: Flask) -> "Judge":
        """The judge of an application, made once."""
        if "judge" not in app.extensions:
            app.extensions["judge"] = cls(app)
        judge: Judge = app.extensions["judge"]
        return judge

    def _gate(self, schema: Json) -> Any:
        """A validator, with no more of the document than the schema refers to."""
        needed: Json = {}
        asked = referred(schema)
        while asked:
            name = asked.pop()
            if name not in needed:
                needed[name] = self.schemas[name]
                asked += referred(needed[name])
        return jsonschema_rs.validator_for({**schema, "components": {"schemas": needed}})

    def operation(self, path: str, method: str) -> Json | None:
        """What the description says of an address, or nothing where it has no such."""
        method = {"HEAD": "GET"}.get(method, method)
        try:
            rule, _ = self.app.url_map.bind("").match(path, method, return_rule=True)
        except HTTPException:
            return None
        if path in self.document["paths"]:
            found: Json = self.document["paths"][path][method.lower()]
            return found
        for place in places(self.app):
            view = self.app.view_functions[rule.endpoint]
            if not place.variant and getattr(view, "operation", None) is place.operation:
                template: Json = self.document["paths"][place.path][place.method]
                return template
        return None

    def judge(self, response: TestResponse) -> None:
        """Assert that the answer is one that the description tells of."""
        path, method = response.request.path, response.request.method
        operation = self.operation(path, method)
        if method in ("HEAD", "OPTIONS"):
            return
        if response.status_code >= 400:
            self._judge_problem(response, operation)
            return
        assert operation is not None, f"{path} is not described"
        told = operation["responses"].get(str(response.status_code))
        assert told is not None, f"{path}: {response.status_code} is not described"
        for name in told.get("headers", {}):
            assert name in response.headers or name in AT_TIMES, f"{path}: no header {name}"
        if response.status_code == 304:
            return
        assert response.mimetype in told["content"], f"{path}: {response.mimetype}"
        if response.mimetype == "application/json":
            self._judge_answer(operation["operationId"], told["content"], response.get_json())

    def _judge_answer(self, id: str, content: Json, answer: Any) -> None:
        if id not in self.gates:
            self.gates[id] = self._gate(content["application/json"]["schema"])
        gate = self.gates[id]
        wrong = [f"{error.instance_path}: {error.message}" for error in gate.iter_errors(answer)]
        assert not wrong, (id, wrong[:5])
        for finding in findings_in(answer):
            gate = self.findings[finding["code"]]
            wrong = [error.message for error in gate.iter_errors(finding["numbers"])]
            assert not wrong, (finding["code"], wrong)

    def _judge_problem(self, response: TestResponse, operation: Json | None) -> None:
        assert response.mimetype == "application/problem+json"
        problem = response.get_json()
        wrong = [error.message for error in self.problem.iter_errors(problem)]
        assert not wrong, wrong
        assert problem["status"] == response.status_code
        slug = problem["type"].rpartition("/")[2]
        if operation is None or slug in ALWAYS:
            return
        told = operation["responses"].get(str(response.status_code), {"content": {}})
        schema = told["content"].get("application/problem+json", {}).get("schema", {})
        assert problem["type"] in schema.get("x-problem-types", ()), (
            operation["operationId"], problem
        )  # fmt: skip


def findings_in(answer: Any) -> Iterator[Json]:
    """Every finding in an answer."""
    if isinstance(answer, list):
        for each in answer:
            yield from findings_in(each)
    elif isinstance(answer, dict):
        if isinstance(answer.get("code"), str) and {"numbers", "mend"} <= answer.keys():
            yield answer
        for each in answer.values():
            yield from findings_in(each)


class JudgedClient(FlaskClient):
    """A test client whose answers are all judged."""

    def open(self, *args: Any, **options: Any) -> TestResponse:
        response = super().open(*args, **options)
        Judge.of(self.application).judge(response)
        return response
