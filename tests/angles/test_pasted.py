"""What the questions about shapes answer, pasted into a document, gives no finding."""

from collections import Counter

import pytest

from tests.angles.asking import SHAPES, question, row

EACH = 250


def pasted(client, answer, units):
    document = {"name": "Pasted", "units": units, "parts": answer["parts"],
                "shapes": answer["shapes"]}  # fmt: skip
    response = client.post("/v1/check", json=document)
    assert response.status_code == 200, response.text
    return response.get_json()


@pytest.mark.parametrize("shape", SHAPES)
def test_random_shapes_pasted_in_give_no_finding(client, shape):
    answered = 0
    for seed in range(EACH):
        address = question(shape, seed)
        response = client.get(address)
        if response.status_code == 422:
            continue
        assert response.status_code == 200, (address, response.text)
        answered += 1
        answer = response.get_json()
        checked = pasted(client, answer, "mm" if "units=mm" in address else "in")
        grave = [f["detail"] for f in checked["findings"] if f["severity"] != "note"]
        assert grave == [], address
        assert not any("shape" in said for said in checked["not_judged"]), address
    assert answered > EACH * 0.6


def test_random_rows_pasted_in_give_no_finding(client):
    for seed in range(EACH):
        answer = client.get(row(seed)).get_json()
        checked = pasted(client, answer, "in")
        assert [f["code"] for f in checked["findings"] if f["severity"] != "note"] == [], row(seed)


def test_refusals_of_random_shapes_name_a_parameter(client):
    refused = Counter()
    for shape in SHAPES:
        for seed in range(EACH):
            response = client.get(question(shape, seed))
            if response.status_code == 422:
                (error,) = response.get_json()["errors"]
                assert error["parameter"], error
                refused[shape] += 1
    assert sum(refused.values()) < len(SHAPES) * EACH / 5


@pytest.mark.parametrize("shape", SHAPES)
def test_every_answer_is_whole(client, shape):
    answer = next(
        response.get_json()
        for seed in range(50)
        if (response := client.get(question(shape, seed))).status_code == 200
    )
    for name in ("parts", "shapes", "trace", "test_cut", "axes", "formula", "svg", "edition"):
        assert answer[name], name
    for cut in answer["saw"]:
        for way in cut["ways"]:
            for tool in ("table", "blade"):
                both = way["off_square"][tool] + way["from_90"][tool]
                assert both == pytest.approx(90, abs=0.011)
