"""What is bought and what it costs: the purchases table against the estimate and the plan."""

import csv
import io
from decimal import Decimal

import pytest
from flask.testing import FlaskClient

from tests.handouts.conftest import handout, scene


def test_money_and_boards_are_those_of_the_estimate_and_the_plan(client: FlaskClient) -> None:
    build = scene("letter-tray")  # small: no clock decides its plan
    estimate = client.post("/v1/estimate", json=build).get_json()
    plan = client.post("/v1/cut-plan", json=build).get_json()
    text = handout(client, build, "csv", table="purchases")
    bought = list(csv.DictReader(io.StringIO(text)))
    wood = [row for row in bought if row["Kind"] == "wood" and row["Note"] != "on hand"]
    counted = sorted(int(row["How many"]) for row in wood)
    assert counted == sorted(line["count"] for line in plan["buy"])
    priced = [
        Decimal(row["Together"].split()[0]) for row in bought if row["Together"][:1].isdigit()
    ]
    assert priced
    assert sum(priced) + Decimal(estimate["cost"]["tax"] or 0) == Decimal(estimate["cost"]["total"])


@pytest.mark.parametrize("paper", ["", "&paper=a4"])
def test_a_pdf_of_it_is_made_on_either_paper(client: FlaskClient, paper: str) -> None:
    answer = client.post(f"/v1/handout?format=pdf{paper}", json=scene("letter-tray"))
    assert answer.status_code == 200 and answer.mimetype == "application/pdf"
    assert answer.get_data().startswith(b"%PDF")
