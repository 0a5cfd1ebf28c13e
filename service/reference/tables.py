"""The list of every reference table, written by hand."""

from service.reference.columns import Row
from service.reference.lumber import LumberSize, SizeTolerance
from service.reference.names import Name
from service.reference.panels import Panel, PanelValue
from service.reference.sources import Source
from service.reference.woods import AssignedGravity, GroupValue, Species, SpeciesValue, WoodGroup

MODELS: tuple[type[Row], ...] = (
    Source,
    Name,
    LumberSize,
    SizeTolerance,
    Panel,
    PanelValue,
    Species,
    SpeciesValue,
    WoodGroup,
    GroupValue,
    AssignedGravity,
)
