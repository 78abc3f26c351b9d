"""The units of a comparison under their letters, and tables whose columns they are."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.figures.markup import element, escape
from teardowns.figures.scale_table import linked

from .cell_text import cell_text
from .links import Links
from .list_words import and_between


@dataclass(frozen=True, slots=True)
class Column:
    """A unit, which the whole page calls by its letter."""

    letter: str
    title: str
    remark: str             # "Hurdlop HL45, version 2": maker, model, and an older version
    links: Links
    compared: Any           # services.compared_units.ComparedUnit

    @property
    def report(self) -> dict:
        return self.compared.report

    @property
    def name(self) -> str:
        """As markup: letter and title, linked to the unit's page."""
        return (element("b", self.letter, cls="letter") + " "
                + element("span", linked(self.title, self.links.unit), translate="no"))


@dataclass(frozen=True, slots=True)
class Cell:
    letter: str             # of its unit, repeated on phones
    text: SafeString
    differs: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    name: str
    remark: str
    cells: list[Cell]


def columns_of(units: Iterable[Any]) -> list[Column]:
    """units : of services.compared_units, at most 26"""
    return [
        Column(chr(ord("A") + place), one.title, origin(one), Links(one.unit.pk, one.version), one)
        for place, one in enumerate(units)]


def origin(compared: Any) -> str:
    """Maker and model as the version has them, and its number where it is an older one."""
    known = " ".join(filter(None, (compared.publication.maker, compared.publication.model)))
    return AsWritten(", ".join(filter(None, (
        known, said(f"version {compared.version}") if compared.version else ""))))


def cell(column: Column, parts: Sequence[str], differs: bool = False) -> Cell:
    """The first part stands out, the rest are remarks below it; what is not markup is escaped."""
    first, *rest = [cell_text(part) for part in parts] or [""]
    text = first + "".join(element("small", part) for part in rest if part)
    return Cell(column.letter, mark_safe(text), differs)


def link(text: str, href: str) -> SafeString:
    return mark_safe(element("a", cell_text(text), href=href) if href else cell_text(text))


def listed(items: Iterable[str]) -> SafeString:
    """A list in a cell; its items are markup or escaped."""
    return mark_safe(element("ul", *(element("li", cell_text(item)) for item in items),
                             cls="in-cell"))


def quiet(text: str) -> SafeString:
    """What there is no value for."""
    return mark_safe(element("span", escape(said(text)), cls="quiet"))


def letters(columns: Iterable[Column]) -> str:
    """ "A", "A and B", "A, B and C" """
    return and_between([column.letter for column in columns])
