"""What a setting opens is described whether it is open or not, and answers as it is described."""

import json
from typing import Any

import pytest

from service.api.description import FILE
from tests.api.judged_client import Judge
from tests.door.conftest import Asking

BY_SETTING = {
    "/metrics": ("DRYFIT_METRICS", "all", "dryfit_requests_total"),
    "/.well-known/security.txt": (
        "DRYFIT_SECURITY_CONTACT", "mailto:holes@dryfit.test", "Contact: mailto:holes@dryfit.test",
    ),
}  # fmt: skip


def described() -> dict[str, Any]:
    """Operations of the published description that hang on a setting, by path."""
    paths = json.loads(FILE.read_bytes())["paths"]
    return {
        path: operation
        for path, methods in paths.items()
        for operation in methods.values()
        if "x-setting" in operation
    }


def test_the_description_names_the_setting_of_each() -> None:
    found = {path: operation["x-setting"] for path, operation in described().items()}
    assert found == {path: setting for path, (setting, *_) in BY_SETTING.items()}


@pytest.mark.parametrize("path", BY_SETTING)
def test_it_answers_as_described_open_and_shut(asking: Asking, path: str) -> None:
    setting, value, said = BY_SETTING[path]
    answers = described()[path]["responses"]
    for settings, status in (({setting: value}, 200), ({}, 404)):
        client = asking(**settings)
        client.get("/healthz")
        answer = client.get(path)
        assert answer.status_code == status
        assert list(answers[str(status)]["content"]) == [answer.mimetype]
        Judge.of(client.application).judge(answer)
        assert (said in answer.text) == (status == 200)
