"""Shapes and rows asked over HTTP: forms of the answer, parameters, refusals."""

from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from service.api.documents.measures import MEASURES

LEG = "/v1/angles/leaning?height=16&lean=12&stock=1x3"
FORMS = [("application/json", "json"), ("text/plain", "text"), ("image/svg+xml", "svg")]


@pytest.mark.parametrize(("media_type", "form"), FORMS)
@pytest.mark.parametrize("address", [LEG, "/v1/spacing?within=36&pieces=5&piece=1+1/2"])
def test_accept_and_format_choose_the_same_form(client, address, media_type, form):
    by_accept = client.get(address, headers={"Accept": media_type})
    by_format = client.get(f"{address}&format={form}")
    assert by_accept.mimetype == by_format.mimetype == media_type
    assert by_accept.data == by_format.data
    assert by_accept.data.endswith(b"\n")


@pytest.mark.parametrize("address", [LEG, "/v1/spacing?within=36&pieces=5&piece=1+1/2"])
def test_the_drawing_is_an_image_with_words(client, address):
    root = ElementTree.fromstring(client.get(f"{address}&format=svg").text)
    names = [element.tag.rpartition("}")[2] for element in root.iter()]
    assert names[0] == "svg"
    assert {"title", "desc", "polygon", "text"} <= set(names)
    assert "script" not in names


def test_a_text_answer_is_at_most_eighty_columns_wide(client):
    assert max(map(len, client.get(f"{LEG}&format=text").text.splitlines())) <= 80


def test_a_stick_may_be_given_by_its_sizes(client):
    sizes = "/v1/angles/leaning?height=16&lean=12&width=2+1/2&thickness=3/4"
    assert client.get(sizes).json["figures"] == client.get(LEG).json["figures"]


def test_a_leg_of_crossed_legs_has_a_width_of_another_name(client):
    address = "/v1/angles/crossed-legs?width=20&height=18&stock_width=2+1/2&thickness=3/4"
    assert client.get(address).json["shapes"][0]["width"] == "20 in"


@pytest.mark.parametrize("shape", [shape for shape in MEASURES if shape != "row"])
def test_every_shape_says_what_it_misses(client, shape):
    response = client.get(f"/v1/angles/{shape}?stock=1x3")
    assert response.status_code == 422
    assert response.json["type"] == "/problems/not-figured"
    assert response.json["errors"][0]["parameter"] in MEASURES[shape]


@pytest.mark.parametrize(
    ("address", "parameter"),
    [
        ("/v1/angles/leaning?height=16&lean=12", "stock"),
        ("/v1/angles/leaning?height=16&lean=12&stock=1x33", "stock"),
        ("/v1/angles/leaning?height=16&lean=12&stock=1x3&lane=1", "lane"),
        ("/v1/angles/leaning?height=16&lean=12&stock=mdf+1/2", "width"),
        ("/v1/angles/sloped-box?sides=4&height=5&slope=30&rim=20&stock=1x6", "stock"),
        ("/v1/spacing?within=10&pieces=9&piece=2", "pieces"),
        ("/v1/spacing?pieces=9&piece=2", "within"),
    ],
)
def test_a_refusal_names_its_parameter(client, address, parameter):
    response = client.get(address)
    assert response.status_code == 422
    assert [error["parameter"] for error in response.json["errors"]] == [parameter]


def test_an_unknown_shape_is_not_found(client):
    assert client.get("/v1/angles/moebius-strip?stock=1x3").status_code == 404


def test_a_step_coarser_than_a_32nd_widens_what_the_entry_allows(client):
    entry = client.get(f"{LEG}&to=1/8").json["shapes"][0]
    assert entry["within"] == "1/8 in"


def test_past_the_stop_another_way_is_given(client):
    address = "/v1/angles/brace?run=6&rise=20&stock=1x3&saw_miter_to=50&saw_bevel_to=45"
    steep, shallow = client.get(address).json["saw"]
    assert "hand saw" in steep["other_way"]
    assert shallow["other_way"] is None


def test_positions_listed_are_judged(client):
    sound = "/v1/spacing?within=30+1/2&piece=1+1/2&ends=flush&at=0,7+1/4,14+1/2,21+3/4,29"
    assert client.get(sound).json["findings"] == []
    spoiled = client.get(sound.replace("14+1/2", "15")).json["findings"]
    assert [(f["code"], f["parameter"]) for f in spoiled] == [("shape.uneven", "at/2")]


def test_a_narrow_stick_is_told_in_the_units_asked_for(client: FlaskClient) -> None:
    asked = "length=700&top=60&foot=20&stock=2x2&units=mm"
    refusal = client.get(f"/v1/angles/tapered-leg?{asked}").json
    assert "60 mm wide, and this is 38.1 mm" in refusal["detail"]


def test_the_row_has_the_address_of_a_shape_too(client: FlaskClient) -> None:
    asked = "within=36&pieces=5&piece=1+1/2"
    there = client.get(f"/v1/angles/row?{asked}")
    assert there.status_code == 200
    assert there.json == client.get(f"/v1/spacing?{asked}").json


def test_a_place_is_said_to_be_exact_only_where_it_is_rounded(client: FlaskClient) -> None:
    even = client.get("/v1/spacing?within=36&pieces=5&piece=1+1/2&format=text").text
    odd = client.get("/v1/spacing?within=12&pieces=2&piece=2&format=text").text
    assert "exactly" not in even and "exactly" in odd
