"""Under which terms a record was handed in: for its foot, its document and its paper."""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from teardowns.exchange.beside import licence_row
from teardowns.licence import ADDRESSES, MEASUREMENTS, NAMES, WORKS
from teardowns.models import ContributionLicence

UNSTATED = ("No terms are on record: it was handed in before the site asked for them. Ask its "
            "contributor before you use text or photos elsewhere.")
TERMS = "Measurements {}; text and photos {}, by the name of their author"


def licence_line(unit: Any) -> str:
    """For the foot of a page, of a unit that came `with_licence`; asks nothing."""
    if not unit.licence_works:
        return "not stated"
    note = f". Of somebody else: {unit.licence_note}" if unit.licence_note else ""
    return TERMS.format(unit.licence_measurements, unit.licence_works) + note


def licences_of(unit: Any) -> list[ContributionLicence]:
    """One for each handing in, the first first; one query."""
    return list(ContributionLicence.objects.filter(unit=unit).select_related("author"))


def licence_rows(licences: Iterable[ContributionLicence]) -> list[dict[str, str]]:
    """Author, day, terms with their addresses, and whose else something is."""
    return [{"author": one.author.get_username(), "day": one.at.date().isoformat(),
             "measurements": _named(one.measurements), "works": _named(one.works),
             "edition": str(one.edition), "others": one.others} for one in licences]


def _named(name):
    return f"{name}: {NAMES[name]}, {ADDRESSES[name]}" if name in NAMES else name


def licences_exported(unit: Any) -> list[dict[str, Any]]:
    """For a document of the unit, beside its evidence."""
    return [licence_row(one) for one in licences_of(unit)]


def licence_header(measurements: str = MEASUREMENTS, works: str = WORKS) -> str:
    """The header `Link` of an answer that carries a record (RFC 8288; relation of RFC 4946)."""
    return ", ".join(f'<{ADDRESSES[name]}>; rel="license"' for name in (measurements, works))
