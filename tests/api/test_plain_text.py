"""Every question answers in plain text too: in 80 columns, with what it rests on."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.api.lines_to_paste import QUESTIONS
from service.domain.rules import RULES
from tests.angles.asking import SHAPES, question, row

WHOLE = Path(__file__).parents[1] / "builds" / "whole"
BUILDS = sorted(path for path in WHOLE.glob("*.json") if path.name != "expected.json")
NAMED = ("check", "fasteners", "estimate?bought=none")  # what is told with the names of parts
POSTED = [(question, long) for question in NAMED for long in (False, True)]
POSTED.append(("cut-plan?deadline_s=0.5", False))
PLAIN = {"Accept": "text/plain"}

ASKED = [
    one.line.split("'")[1]
    .replace("{at}", "/")
    .replace("&format=text", "")
    .replace("?format=text", "")
    for group in QUESTIONS.values()
    for one in group
    if " -d " not in one.line and "format=csv" not in one.line
]
MORE = [
    "/v1/sizes",
    "/v1/sizes?region=eu&units=mm",
    "/v1/sizes/5-4x6?length=100in",
    "/v1/sizes/plywood-sanded-0.5in?width=60",
    "/v1/fasteners?through=1x4&into=1x4&fastener=8x1-5/8in&lengths=1,1-1/4,1-1/2,1-5/8,2,2-1/2,3in",
    "/v1/fasteners?through=18mm&into=27x60mm&units=mm&touches=end&enters=edge&where=outdoors",
    "/v1/fasteners?through=1x4&into=1x4&method=dowel&enters=end&touches=end",
    "/v1/pilot-holes?gauge=14&wood=red+oak&spot=end&end_distance=1/8&edge_distance=1/8",
    "/v1/pilot-holes?diameter=4mm&wood=mdf&units=mm",
    "/v1/sag?stock=1x8&span=48&load=40lb&wood=spf&held=one-end&stays=yes",
    "/v1/sag?thickness=3/4&width=11+1/4&load=books&wood=red+oak&limit=L/240&use=shelf&lip=1x2",
    "/v1/sag?stock=1x8&load=30kg&units=mm&wood=spf&held=several&supports=0,400,1200",
    "/v1/movement?wood=white+oak&width=24&where=outdoors&held=middle&units=mm",
    "/v1/moisture?where=covered&wood=spf&moisture=30",
    "/v1/tip-over?height=60&depth=10&weight=90lb&kind=dresser&children=2&encloses=6ft3",
    "/v1/hanging?rail=36&studs=16&through=3/4&screw=1+1/4&load=90lb&depth=14&arm=10",
    "/v1/hanging?rail=12&wall=masonry",
    "/v1/glue-up?joints=100&minutes_each=2&people=2&temperature=40F&open_time=10min",
    "/v1/glue-up?glue=contact-cement&joints=4",
    "/v1/coverage?finish=wiping+oil&area=100ft2&faces=2&coats=3",
    "/v1/coverage?area=2m2&spread=300ft2/gal&loss=10",
    "/v1/board-feet?stock=1x6&length=32&count=4",
    "/v1/weight?stock=2x4&length=8ft&count=40&wood=red+oak",
    "/v1/spacing?within=36&pieces=5&piece=1+1/2&at=4+3/4,11,17,24,30",
]  # fmt: skip


def told(client: FlaskClient, path: str) -> str:
    """The plain text of an answer, the same by parameter and by header."""
    response = client.get(path, headers=PLAIN)
    assert (response.status_code, response.mimetype) == (200, "text/plain"), response.text
    named = client.get(f"{path}{'&' if '?' in path else '?'}format=text")
    assert named.data == response.data
    assert "Accept" in response.headers["Vary"]
    return response.text


def too_wide(text: str) -> list[str]:
    """Lines over 80 columns, but for those to paste."""
    return [line for line in text.splitlines() if len(line) > 80 and not line.startswith("curl ")]


@pytest.mark.parametrize("path", [*ASKED, *MORE])
def test_a_question_is_answered_in_80_columns(client: FlaskClient, path: str) -> None:
    text = told(client, path)
    assert too_wide(text) == []
    assert text.endswith("\n") and not text.endswith("\n\n")


@pytest.mark.parametrize("shape", SHAPES)
def test_a_shape_is_told_in_80_columns(client: FlaskClient, shape: str) -> None:
    texts = [client.get(question(shape, seed), headers=PLAIN) for seed in range(20)]
    assert sum(text.status_code == 200 for text in texts) >= 10  # some can't be made
    assert [line for text in texts if text.status_code == 200 for line in too_wide(text.text)] == []


def test_a_row_of_pieces_is_told_in_80_columns(client: FlaskClient) -> None:
    for seed in range(20):
        assert too_wide(client.get(row(seed), headers=PLAIN).text) == []


@pytest.mark.parametrize("path", [*ASKED, *MORE])
def test_a_text_names_every_source_that_json_names(client: FlaskClient, path: str) -> None:
    text = " ".join(told(client, path).split())
    answer = client.get(path, headers={"Accept": "application/json"}).json
    memory = {row["source"] for row in answer.get("rests_on", ()) if row["confidence"] == "memory"}
    for source in answer["sources"]:
        said = "from memory" if source["id"] in memory else source["title"]
        assert said in text, source
    assert text.endswith(f"edition: {answer['edition']}")


def test_every_table_is_told_in_80_columns(client: FlaskClient) -> None:
    tables = [table["table"] for table in client.get("/v1/tables").json["tables"]]
    for table in tables:
        text = told(client, f"/v1/tables/{table}?limit=60")
        assert too_wide(text) == []
        answer = client.get(f"/v1/tables/{table}?limit=60").json
        statements = [line for line in text.splitlines() if not line.startswith("  ")]
        rows = [s for s in statements if not s.startswith(("source: ", "edition: ", "more rows"))]
        assert len(rows) == len(answer["rows"])
        assert ("more rows follow" in text) is (answer["next"] is not None)


def test_a_row_is_told_as_printed(client: FlaskClient) -> None:
    text = " ".join(told(client, "/v1/tables/lumber_sizes/us.1x6.dry").split())
    assert text.startswith("us.1x6.dry: ")
    assert "thickness 3/4 in; width 5 1/2 in" in text
    assert "American Softwood Lumber Standard PS 20" in text


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_every_reason_is_told_in_80_columns(client: FlaskClient, rule: Any) -> None:
    text = told(client, f"/v1/why/{rule.code}")
    assert too_wide(text) == []
    assert " ".join(rule.why.split()) in " ".join(text.split())


NAMING = {"id", "part", "parts", "through", "into", "for", "gives"}


def renamed(value: Any, long: dict[str, str], naming: bool = False) -> Any:
    """A document with each part's id as `long` has it, wherever a part is named."""
    if isinstance(value, dict):
        return {k: renamed(v, long, k in NAMING or naming) for k, v in value.items()}
    if isinstance(value, list):
        return [renamed(one, long, naming and not isinstance(one, dict)) for one in value]
    return long.get(value, value) if naming and isinstance(value, str) else value


@pytest.mark.parametrize("path", BUILDS, ids=lambda path: path.stem)
@pytest.mark.parametrize(("asked", "long"), POSTED)
def test_an_answer_about_a_build_keeps_to_80_columns(
    client: FlaskClient, path: Path, asked: str, long: bool
) -> None:
    document = json.loads(path.read_text())
    if long:
        names = {part["id"]: f"{'p' * 58}{n:02}" for n, part in enumerate(document["parts"])}
        document = renamed(document, names)
    response = client.post(f"/v1/{asked}", json=document, headers=PLAIN)
    assert (response.status_code, response.mimetype) == (200, "text/plain"), response.text
    assert too_wide(response.text) == []


@pytest.mark.parametrize("to", ["eu", "uk"])
def test_a_resize_keeps_to_80_columns(client: FlaskClient, tote: Any, to: str) -> None:
    asked = {"build": tote, "region": to}
    response = client.post("/v1/resize?format=text", json=asked)
    assert (response.status_code, response.mimetype) == (200, "text/plain"), response.text
    assert too_wide(response.text) == []
    changes = client.post("/v1/resize", json=asked).json["changed"]
    for change in changes:
        assert change["at"] in response.text


def test_a_size_is_never_folded_in_two(client: FlaskClient) -> None:
    for path in BUILDS:
        text = client.post("/v1/check?format=text", json=json.loads(path.read_text())).text
        for line, after in zip(text.splitlines(), text.splitlines()[1:], strict=False):
            fraction = after.strip().split("/")[0].isdigit() and "/" in after.split()[0]
            assert not (line[-1:].isdigit() and fraction), (line, after)


@pytest.mark.parametrize("path", [*ASKED, *MORE, "/v1/tables/lumber_sizes?limit=60"])
def test_a_number_stays_with_its_unit(client: FlaskClient, path: str) -> None:
    broken = re.compile(r".{60}[0-9]\n +(?:(?:in|ft|mm|m|lb|kg|psi|min|h|F)\b|%)")
    assert broken.search(told(client, path)) is None


def test_the_front_page_is_narrow_but_for_lines_to_paste(client: FlaskClient) -> None:
    text = client.get("/", headers=PLAIN).text
    assert too_wide(text) == []
    groups = [line for line in text.splitlines() if line and line == line.upper()]
    assert groups == [group.upper() for group in QUESTIONS]
