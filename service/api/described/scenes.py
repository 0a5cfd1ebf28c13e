"""Builds for examples: invented pieces and prices."""

from service.api.described.words import Json

# Figured with the printed size of the board, so its width can't come out.
SPOILED_LEDGE: Json = {
    "name": "Book ledge",
    "wood": "spf",
    "parts": [
        {"id": "shelf", "stock": "1x6", "length": "24"},
        {"id": "end", "stock": "1x6", "length": "5 1/2", "quantity": 2},
    ],
    "runs": [
        {
            "id": "width",
            "equals": "26",
            "pieces": [
                {"part": "end", "along": "thickness", "count": 2},
                {"part": "shelf", "along": "length"},
            ],
        }
    ],
}

LEDGE: Json = {
    "name": "Book ledge",
    "wood": "spf",
    "place": {"where": "indoors"},
    "parts": [
        {"id": "shelf", "stock": "1x6", "length": "24 1/2"},
        {"id": "end", "stock": "1x6", "length": "5 1/2", "quantity": 2},
    ],
    "joints": [
        {
            "id": "shelf-end",
            "through": "end",
            "into": "shelf",
            "enters": "end",
            "quantity": 2,
            "method": "screw",
            "fastener": {"gauge": 8, "length": "2"},
            "count": 2,
            "pilot": True,
            "glue": "pva-interior",
        }
    ],
    "runs": [
        {
            "id": "width",
            "equals": "26",
            "pieces": [
                {"part": "end", "along": "thickness", "count": 2},
                {"part": "shelf", "along": "length"},
            ],
            "gives": ["shelf"],
        }
    ],
    "shop": {"tools": ["drill", "clamps"]},
    "buying": {
        "price_list": {
            "currency": "USD",
            "prices": [
                {"stock": "1x6", "length": "48", "price": "4.20"},
                {"stock": "1x6", "length": "72", "price": "5.90"},
            ],
        }
    },
}

SLATS: Json = {
    "name": "Slats",
    "parts": [{"id": "slat", "stock": "1x4", "length": "24", "quantity": 4}],
    "buying": {
        "price_list": {
            "currency": "USD",
            "prices": [
                {"stock": "1x4", "length": "96", "price": "5.10"},
                {"stock": "1x4", "length": "120", "price": "6.90"},
            ],
        }
    },
}

BACK_PANEL: Json = {
    "name": "Back panel",
    "units": "mm",
    "region": "eu",
    "parts": [{"id": "back", "stock": "plywood 6 mm", "length": 600, "width": 400, "quantity": 2}],
    "buying": {
        "price_list": {
            "currency": "EUR",
            "prices": [{"stock": "plywood 6 mm", "length": 1250, "width": 625, "price": "14.90"}],
        }
    },
}
