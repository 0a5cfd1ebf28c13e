"""Shake the numbers: `scripts/shake [constants|tables]`. Prints what no test notices."""

import sys

from tests.shaking import constants, tables


def main(what: list[str]) -> int:
    """Shake what is asked, or both; answers 0: survivors are for a person to judge."""
    left: list[str] = []
    if "constants" in what or not what:
        left += constants.survivors()
    if "tables" in what or not what:
        left += tables.survivors()
    print(*left, sep="\n")
    print(f"{len(left)} survivors")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
