"""Where the rooms meet: settings, tables and questions become one WSGI application."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from flask import Flask
from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError

from service.api import (
    angles,
    board_feet,
    check,
    clamps,
    coverage,
    cut_plan,
    description,
    estimate,
    fasteners,
    front,
    glue_up,
    handout,
    hanging,
    health,
    manual,
    measure,
    moisture,
    movement,
    pages,
    pilot_holes,
    resize,
    sag,
    sizes,
    spacing,
    tables,
    tip_over,
    weight,
    why,
)
from service.api.documents.build import BuildForm
from service.api.house import NAME, House
from service.api.problems import map_problems
from service.door.opening import open_door
from service.reference.browsing import Tables
from service.reference.cataloging import catalog_of
from service.reference.opening import open_for_reading
from service.reference.reading import read_rows
from service.settings import Settings, read_settings

BLUEPRINTS = (
    angles,
    board_feet,
    check,
    clamps,
    coverage,
    cut_plan,
    description,
    estimate,
    fasteners,
    front,
    glue_up,
    handout,
    hanging,
    health,
    manual,
    measure,
    moisture,
    movement,
    pages,
    pilot_holes,
    resize,
    sag,
    sizes,
    spacing,
    tables,
    tip_over,
    weight,
    why,
)


class App(Flask):
    """Flask for handlers that all are plain functions: it need not ask each time."""

    def ensure_sync(self, func: Callable[..., Any]) -> Callable[..., Any]:
        """The function itself."""
        return func


def create_app(settings: Settings | None = None) -> Flask:
    """The application, its tables read once; gunicorn calls this before it forks.

    Settings come from the environment when none are given. Raises BadSetting, and what SQLAlchemy
    raises when the reference database is not there.
    """
    chosen = settings or read_settings(os.environ)
    rows = read_rows(open_for_reading(chosen.reference_url))
    engine = open_for_reading(chosen.reference_url)  # without what the other one remembers
    house = House(
        settings=chosen,
        catalog=catalog_of(rows),
        tables=Tables(rows),
        build_form=BuildForm(chosen.max_parts),
        is_ready=lambda: _opens(engine),
    )
    return open_house(house)


def open_house(house: House) -> Flask:
    """The application on rooms that are already furnished."""
    app = App("dryfit", static_folder=None, root_path=str(Path(__file__).parent))
    app.config["MAX_CONTENT_LENGTH"] = house.settings.max_body + 1  # see api/bodies.py
    app.url_map.merge_slashes = False  # an address with two slashes is unknown, not moved
    app.extensions[NAME] = house
    for question in BLUEPRINTS:
        app.register_blueprint(question.routes)
    map_problems(app)
    open_door(app, house.settings)
    return app


def _opens(engine: Engine) -> bool:
    try:
        with engine.connect():
            return True
    except SQLAlchemyError:
        return False
