"""What answers say of a piece, in every form: never what no answer may say."""

import json
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from service.domain.rules import RULES
from tests.house.test_words import BANNED

WHOLE = Path(__file__).parents[1] / "builds" / "whole"
BUILDS = sorted(path for path in WHOLE.glob("*.json") if path.name != "expected.json")
STRENGTH_REFUSED = ("child-seat", "sleep-raised", "crib", "climb", "guard")


@pytest.mark.parametrize("path", BUILDS, ids=lambda path: path.stem)
@pytest.mark.parametrize("form", ["json", "text"])
def test_no_check_says_a_banned_word(client: FlaskClient, path: Path, form: str) -> None:
    answer = client.post(f"/v1/check?format={form}", json=json.loads(path.read_text()))
    assert answer.status_code == 200
    assert BANNED.findall(answer.get_data(as_text=True)) == []


@pytest.mark.parametrize("use", STRENGTH_REFUSED)
def test_strength_is_refused_in_words_for_uses_with_standards_of_their_own(
    client: FlaskClient, use: str
) -> None:
    shelf = {"id": "board", "stock": "1x8", "length": "24"}
    answer = client.post("/v1/check", json={"name": "Piece", "parts": [shelf], "uses": [use]})
    told = answer.get_json()
    assert told["verdict"] == "look"
    assert any(use in text and "standards" in text for text in told["not_judged"])


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_no_explanation_says_a_banned_word(client: FlaskClient, rule: object) -> None:
    answer = client.get(f"/v1/why/{rule.code}")  # type: ignore[attr-defined]  # a Rule
    assert answer.status_code == 200
    assert BANNED.findall(answer.get_data(as_text=True)) == []
