"""What lists of units are narrowed and sorted by, from the facets of the browse page."""
from typing import Annotated, Any, Literal

from ninja import Schema
from pydantic import Field, create_model

from teardowns.api.texts import WITHOUT_NUL
from teardowns.services.facets import FACETS, SORTS

from .fields import Told, following, told

MOST_CODES = 30
FREE = {"year", "controller", "family"}             # whose codes nobody can list beforehand
Sort = Literal[tuple(SORTS)]


def _field(facet) -> Any:
    codes = Annotated[str, Field(max_length=200, pattern=WITHOUT_NUL)] if facet.code in FREE \
        else Literal[tuple(facet.values)]
    return (list[codes], Field(default=[], max_length=MOST_CODES,
                               description=f"{facet.label}: any of these codes."))


Facets = create_model("Facets", __base__=Schema,
                      **{code: _field(facet) for code, facet in FACETS.items()})


class FacetValue(Told):
    code: str = told("What to ask with.", "doubtful")
    label: str = told("As the page names it.", "doubtful")


class Facet(Told):
    code: str = told("Name of the parameter.", "verdict")
    label: str = told("As the page names it.", "Verdict")
    values: list[FacetValue] = told("Codes that are known beforehand.", None)


class FacetList(Told):
    facets: list[Facet] = told("In the order of the page.", None)
    sorts: list[str] = told("What lists can be sorted by, largest first.", list(SORTS))


class Facts(Told):
    """Facts of public units in columns: the n-th entry of each is of the n-th unit."""

    total: int = told("Units in all.", 1)
    unit: list[int] = told("Numbers.", [8])
    columns: dict[str, list[float | int | str | None]] = told(
        "SI units, null where nobody knows.", {"mass": [0.061], "claimed_power": [45.0]})
    next: str = following()
