"""A question worth asking about each shape, for the description."""

from service.api.described.operations import Example

EXAMPLES = {
    "leaning": Example(
        "A leg that leans 12 degrees",
        {"shape": "leaning", "height": "16", "lean": "12", "stock": "2x2"},
    ),
    "splayed-legs": Example(
        "A stool's legs, splayed both ways",
        {"shape": "splayed-legs", "height": "17", "lean": "8", "stock": "2x2", "top_inset": "1"},
    ),
    "mitered-frame": Example(
        "A frame around a print",
        {"shape": "mitered-frame", "contents": "8x10in", "rabbet": "1/4", "stock": "1x2"},
    ),
    "butted-frame": Example(
        "A frame for a door's opening",
        {"shape": "butted-frame", "outside": "16x24in", "stock": "1x3"},
    ),
    "sloped-box": Example(
        "A tray with sides that slope 15 degrees",
        {"shape": "sloped-box", "sides": "4", "height": "3", "slope": "15", "rim": "14",
         "stock": "1x4"},
    ),
    "polygon": Example(
        "A six-sided frame, 12 in across its flats",
        {"shape": "polygon", "sides": "6", "across_flats": "12", "stock": "1x3"},
    ),
    "brace": Example(
        "A brace under a shelf", {"shape": "brace", "run": "8", "rise": "10", "stock": "1x2"}
    ),
    "crossed-legs": Example(
        "Crossed legs of a folding stand",
        {"shape": "crossed-legs", "width": "20", "height": "24", "stock": "1x3"},
    ),
    "prop": Example(
        "The prop of a picture that leans 15 degrees",
        {"shape": "prop", "lean": "15", "up": "9", "foot": "5", "stock": "1x2"},
    ),
    "tapered-leg": Example(
        "A tapered table leg",
        {"shape": "tapered-leg", "length": "28", "top": "1 1/2", "foot": "3/4", "straight": "5",
         "stock": "2x2"},
    ),
    "ends": Example(
        "A part mitered at both ends",
        {"shape": "ends", "length": "20", "miter": "45,45", "measured": "long-to-long",
         "ends_lean": "opposite", "stock": "1x2"},
    ),
}  # fmt: skip
