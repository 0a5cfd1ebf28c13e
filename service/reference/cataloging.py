"""Rows of the tables -> one frozen `Catalog`: what every question asks."""

from collections.abc import Mapping

from sqlalchemy import Engine

from service.domain.catalog import Catalog, Cited, PanelSize, Source, Wood
from service.reference import gluing, sources
from service.reference.columns import Sourced, cited_as
from service.reference.finishing import (
    Abrasive,
    Finish,
    FinishValue,
    WorkTime,
    finishing_values,
    grits,
    work_times,
)
from service.reference.hardware import constants, fasteners
from service.reference.lumber import LumberSize, SizeTolerance, board_sizes, regions_of
from service.reference.names import Name, keys_of
from service.reference.panels import Panel, PanelValue, panel_densities, panel_sizes, panel_woods
from service.reference.reading import Rows, read_rows
from service.reference.saws import SawRow, saw_limits
from service.reference.shop import Caution, PracticeRule, Use, practices
from service.reference.standing import (
    DecayResistance,
    StandingPractice,
    bending_values,
    caution_texts,
    decay_resistances,
    moving_values,
)
from service.reference.tables import MODELS
from service.reference.woods import (
    AssignedGravity,
    GroupValue,
    Species,
    SpeciesValue,
    WoodGroup,
    assigned_gravities,
    group_woods,
    species_woods,
)


def read_catalog(engine: Engine) -> Catalog:
    """The whole catalog from the database; the engine is let go of afterwards."""
    return catalog_of(read_rows(engine))


def catalog_of(rows: Rows) -> Catalog:
    """The catalog from rows that have been read. Only preferred rows count, but for saws:
    shops disagree on distances, and a rule may speak of the whole range."""
    panels = panel_sizes(rows.preferred(Panel))
    return Catalog(
        edition=rows.edition,
        boards=board_sizes(rows.preferred(LumberSize), rows.preferred(SizeTolerance)),
        panels=panels,
        woods=_woods(rows, panels),
        saws=saw_limits(rows.of(SawRow)),
        practice=practices(PracticeRule, rows.preferred(PracticeRule)),
        standing=practices(StandingPractice, rows.preferred(StandingPractice)),
        bending=bending_values(
            rows.preferred(SpeciesValue),
            rows.preferred(WoodGroup),
            rows.preferred(GroupValue),
            rows.preferred(PanelValue),
        ),
        moving=moving_values(rows.preferred(SpeciesValue), rows.preferred(WoodGroup)),
        decay=decay_resistances(rows.preferred(DecayResistance), rows.preferred(WoodGroup)),
        cautions=caution_texts(rows.preferred(Caution)),
        finishes=finishing_values(rows.preferred(Finish), rows.preferred(FinishValue)),
        grits=grits(rows.preferred(Abrasive)),
        work_times=work_times(rows.preferred(WorkTime)),
        fasteners=fasteners(rows),
        constants=constants(rows),
        gravities=assigned_gravities(rows.preferred(AssignedGravity)),
        glues=gluing.glue_kinds(rows.preferred(gluing.Glue), rows.preferred(gluing.GlueValue)),
        glue_classes=gluing.glue_classes(rows.preferred(gluing.GlueClass)),
        keys=keys_of({model: rows.of(model) for model in MODELS}),
        unjudged_uses=frozenset(
            cells["key"] for cells in rows.preferred(Use) if cells["judged"] == "no"
        ),
        names=_names(rows),
        cited=_cited(rows),
        sources=_sources(rows),
    )


def _woods(rows: Rows, panels: tuple[PanelSize, ...]) -> Mapping[str, Wood]:
    """Species, the groups that they are sold in, and panel materials."""
    species = species_woods(rows.preferred(Species), rows.preferred(SpeciesValue))
    groups = group_woods(rows.preferred(WoodGroup), rows.preferred(GroupValue), species)
    sheets = panel_woods(panels, panel_densities(rows.preferred(PanelValue)))
    return {**species, **groups, **sheets}


def _names(rows: Rows) -> Mapping[tuple[str, str, str], str]:
    return {
        (cells["kind"], region, cells["spelling"]): cells["means"]
        for cells in rows.of(Name)
        for region in regions_of(cells["region"])
    }


def _cited(rows: Rows) -> Mapping[str, Cited]:
    """Every row that has a source, preferred or not, by ``table/key``."""
    return {
        row: Cited(
            row=row,
            source=cells["source"],
            locator=cells["locator"],
            confidence=cells["confidence"],
            basis=cells["basis"],
        )
        for model in MODELS
        if issubclass(model, Sourced)
        for cells in rows.of(model)
        for row in [cited_as(model, cells)]
    }


def _sources(rows: Rows) -> Mapping[str, Source]:
    return {
        cells["id"]: Source(
            id=cells["id"],
            title=cells["title"],
            publisher=cells["publisher"] or cells["author"] or "",
            year=cells["year"] or "",
            kind=cells["kind"],
        )
        for cells in rows.of(sources.Source)
    }
