"""One table of the handout as CSV (RFC 4180), harmless in a spreadsheet."""

import csv
import re
from io import StringIO

from service.handouts.clean import one_line
from service.handouts.page import Table

# What a spreadsheet takes for the start of a formula, in plain and in wide signs; an apostrophe
# before it makes it text. Where lists are parted by semicolons, a cell begins behind each of them.
FORMULA = re.compile("(^|;) ?(?=[-=+@\uff1d\uff0b\uff0d\uff20])")


def as_csv(table: Table) -> str:
    """Headings and rows; lines end with CR LF."""
    written = StringIO()
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow([harmless(column.heading) for column in table.columns])
    writer.writerows([harmless(cell) for cell in row] for row in table.rows)
    return written.getvalue()


def harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return FORMULA.sub(r"\g<0>'", one_line(cell))
