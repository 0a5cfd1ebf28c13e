"""What can be asked, by what it is about, each with a line to paste that asks it."""

from collections.abc import Iterator
from dataclasses import dataclass

ABOUT = "Dryfit: a dry fit on paper. It checks a small woodworking build before a board is bought."


@dataclass(frozen=True, slots=True)
class Question:
    """A question, and a line to paste that asks it; `{at}` is this service's own address."""

    asks: str
    line: str


LEDGE = (
    '{"name": "Book ledge", "wood": "spf", "parts": ['
    '{"id": "shelf", "stock": "1x6", "length": "24", "width": "6"}, '
    '{"id": "back", "stock": "1x4", "length": "24"}]}'
)


def _sent(question: str) -> str:
    """A line that sends a build."""
    header = "-H 'Content-Type: application/json'"
    return f"curl -s '{{at}}v1/{question}?format=text' {header} -d '{LEDGE}'"


def _asked(question: str) -> str:
    """A line that asks for plain text."""
    return f"curl -s '{{at}}v1/{question}{'&' if '?' in question else '?'}format=text'"


QUESTIONS = {
    "A whole build": (
        Question("Will it go together?", _sent("check")),
        Question("What do I buy, and how do I cut it?", _sent("cut-plan")),
        Question("What does it weigh and cost, and how long does it take?", _sent("estimate")),
        Question(
            "What do I print, take to the store and build from?",
            _sent("handout").replace("format=text", "format=md"),
        ),
    ),
    "Wood as it is sold": (
        Question("What does a board really measure?", _asked("sizes/1x6")),
        Question("Which stock measures this?", _asked("sizes?thickness=3/4&width=5+1/2")),
        Question(
            "How many board feet?", _asked("board-feet?stock=1x6&length=8ft&count=4&price=3.20")
        ),
        Question("What does it weigh?", _asked("weight?stock=2x4&length=8ft&wood=spf")),
        Question("What does a tape read?", _asked("measure?value=527mm&to=1/16")),
    ),
    "What holds it": (
        Question("Which fastener?", _asked("fasteners?through=1x4&into=1x4&tools=drill,clamps")),
        Question(
            "Is this screw right?", _asked("fasteners?through=1x4&into=1x4&fastener=8x1-5/8in")
        ),
        Question(
            "What does a bolt take?",
            _asked("fasteners?through=2x4&into=2x4&method=bolt&fastener=3/8x4in"),
        ),
        Question("What do I drill for that screw?", _asked("pilot-holes?gauge=8&wood=oak")),
        Question(
            "How much can I glue at once?",
            _asked("glue-up?glue=yellow+glue&joints=12&minutes_each=1"),
        ),
        Question("How many clamps?", _asked("clamps?length=36&thickness=3/4&wood=pine")),
    ),
    "Angles and spacing": (
        Question(
            "How is the saw set for a leaning leg?",
            _asked("angles/leaning?height=16&lean=12&stock=2x2"),
        ),
        Question("Where do the slats go?", _asked("spacing?within=36&pieces=5&piece=1+1/2")),
    ),
    "In use": (
        Question(
            "Will the shelf sag?", _asked("sag?stock=1x8&span=36&load=40lb&wood=spf&stays=yes")
        ),
        Question(
            "How far does a wide board move?",
            _asked("movement?wood=red+oak&width=12&humidity=30,60"),
        ),
        Question("How moist does wood get?", _asked("moisture?humidity=30,60&temperature=68F")),
        Question("Could it tip over?", _asked("tip-over?height=40&depth=12&weight=60lb")),
        Question(
            "Does the screw reach the stud?",
            _asked("hanging?rail=36&studs=16&through=3/4&screw=3"),
        ),
        Question("How much finish?", _asked("coverage?finish=water-polyurethane&area=20ft2")),
    ),
    "Reasons and tables": (
        Question("Why was that found?", _asked("why/size.nominal-for-actual")),
        Question("Which tables are there?", _asked("tables")),
        Question("A table, in part", "curl -s '{at}v1/tables/lumber_sizes?stock=1x6&format=csv'"),
    ),
}


def pasted(address: str) -> Iterator[tuple[str, Question]]:
    """Every question with its group, its line asking this very service."""
    for group, questions in QUESTIONS.items():
        for one in questions:
            yield group, Question(one.asks, one.line.replace("{at}", address))
