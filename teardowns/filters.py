"""The address of the list of public units: its words, choices and order, read and written."""
from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache

import django_filters
from django import forms
from django.db.models import Q, TextField
from django.db.models.functions import Cast
from django.http import QueryDict

from core.words.as_written import AsWritten
from teardowns.browsing.addresses import query_of
from teardowns.browsing.facets import NONE, Bands, Facet
from teardowns.browsing.finding import RANK
from teardowns.models import ListedUnit
from teardowns.services.facets import FACETS, LEVELS, LISTS

NEWEST = "newest"
ORDERS = {
    NEWEST: "newest first",
    "risk": "highest risk level first",
    "gap": "widest gap between claim and capability",
    "reach": "most sold by its listing",
    "completeness": "most complete evidence first",
    RANK: "best match of the search",
}
OPEN = {"year": "[0-9]{4}", "controller": r"[^\0]{1,200}", "family": "[-a-z0-9_]{1,120}"}
LONGEST_WORDS = 100
NOT_A_CHOICE = {
    "invalid_choice": "“%(value)s” is not among the choices, so it narrows nothing: choose one "
                      "of the list.",
}
UNSEARCHABLE = {
    "max_length": "This is longer than %(limit_value)s characters: search for a part of it.",
    "null_characters_not_allowed": "This holds a character that cannot be searched for: type it "
                                   "anew instead of pasting it.",
}


class KnownCodes(forms.MultipleChoiceField):
    """Codes of a facet: those of a list, or what looks like one where units bring new ones."""

    def __init__(self, *args, pattern=None, **kwargs):
        super().__init__(*args, **kwargs)
        self.pattern = pattern

    def valid_value(self, value):
        return super().valid_value(value) or (
            self.pattern is not None and re.fullmatch(self.pattern, value) is not None)


class Codes(django_filters.MultipleChoiceFilter):
    field_class = KnownCodes


class ListForm(forms.Form):
    def clean(self):
        """Of a facet in which one value is wrong the others still narrow."""
        for name in set(self.errors) & set(FACETS):
            valid = self.fields[name].valid_value
            self.cleaned_data[name] = [code for code in self.data.getlist(name) if valid(code)]
        return self.cleaned_data


def codes_of(facet: Facet) -> Codes:
    return Codes(field_name=facet.code, label=facet.label, choices=list(facet.values.items()),
                 method="having_any", pattern=OPEN.get(facet.code), error_messages=NOT_A_CHOICE)


class UnitFilter(django_filters.FilterSet):
    """Reads and checks an address; over a queryset of ListedUnit it also narrows, in SQL.

    The pages ask the index of `services.browse`, which is faster; this says what is right.
    What words find is the search's business alone.
    """

    q = django_filters.CharFilter(label="Search", method="left_alone", max_length=LONGEST_WORDS,
                                  error_messages=UNSEARCHABLE)
    sort = django_filters.ChoiceFilter(label="Sort by", choices=list(ORDERS.items()),
                                       method="left_alone", error_messages=NOT_A_CHOICE)
    after = django_filters.CharFilter(method="left_alone", max_length=80)

    class Meta:
        model = ListedUnit
        fields = ()
        form = ListForm

    def filter_queryset(self, queryset):
        texts = {f"{name}_text": Cast(name, TextField()) for name in LISTS}
        return super().filter_queryset(queryset.listed().alias(**texts))

    def having_any(self, units, name, codes):
        """Units with any of these codes of a facet."""
        wanted = Q(pk__in=[])
        for code in codes:
            wanted |= has_code(FACETS[name], code)
        return units.filter(wanted) if codes else units

    def left_alone(self, units, name, value):
        return units


UnitFilter.base_filters.update({code: codes_of(facet) for code, facet in FACETS.items()})


@cache
def _form_class():
    """Once: the filters are copied and their fields made anew for each FilterSet."""
    return UnitFilter(queryset=ListedUnit.objects.none()).get_form_class()


def has_code(facet: Facet, code: str) -> Q:
    """Of a row: whether it answers the facet with this code."""
    column = facet.column
    if isinstance(facet.codes, Bands):
        return _in_band(column, facet.codes, code)
    if column in LISTS:
        is_none = code == NONE and facet.codes(()) == (NONE,)
        return Q(**{f"{column}_text__contains": "[]" if is_none else f'"{code}"'})
    if column == "risk":
        return Q(risk=LEVELS.index(code))
    if column == "year":
        return Q(year=int(code)) if code.isdecimal() else Q(year=None)
    return Q(**{column: "" if code == NONE and facet.codes("") == (NONE,) else code})


def _in_band(column: str, bands: Bands, code: str) -> Q:
    if code == NONE:
        return Q(**{column: None})
    at = bands.names.index(code)
    over = Q(**{f"{column}__gt": bands.ends[at - 1]}) if at else Q(**{f"{column}__isnull": False})
    return over & (Q(**{f"{column}__lte": bands.ends[at]}) if at < len(bands.ends) else Q())


Condition = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class ListQuery:
    """What an address of the list asks for: only what was right in it."""

    text: str = ""                       # words, or ""
    choices: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    sort: str = ""                       # of ORDERS, or "" for the usual one
    after: str = ""                      # where the page begins
    typed: str = ""                      # as it was typed, right or not
    errors: Mapping[str, str] = field(default_factory=dict)
    # What narrows the list: label, value in words, query of the list without it.
    conditions: tuple[Condition, ...] = ()

    @property
    def usual_sort(self) -> str:
        return RANK if self.text else NEWEST

    @property
    def orders(self) -> list[tuple[str, str]]:
        return [(code, label) for code, label in ORDERS.items() if code != RANK or self.text]

    def query(self, after: str = "") -> str:
        """The query of the address that asks for the same, beginning elsewhere; never empty."""
        return query_of(self.text, self.choices, self.sort, after)


def _conditions(asked: ListQuery) -> Iterator[Condition]:
    if asked.text:
        yield "Search", AsWritten(asked.text), replace(asked, text="").query()
    for facet, codes in asked.choices.items():
        for code in codes:
            rest = tuple(other for other in codes if other != code)
            without = replace(asked, choices={**asked.choices, facet: rest})
            known = FACETS[facet].values.get(code) or AsWritten(FACETS[facet].label_of(code))
            yield FACETS[facet].label, known, without.query()


def values_of(facet: Facet, counts: Mapping[str, int],
              names: Mapping[str, str]) -> list[tuple[str, str]]:
    """The codes of a facet with their labels, in the order in which a page shows them.

    names : of codes that people named
    """
    new = [code for code in counts if code not in facet.values]
    if facet.code == "year":
        new.sort(reverse=True)
    return [(code, AsWritten(names.get(code, code))) for code in new] + list(facet.values.items())


@lru_cache(1000)
def list_query(query: str) -> ListQuery:
    """The query of an address, read; the same one is read once."""
    given = QueryDict(query)
    form = _form_class()(given)
    form.is_valid()
    right = form.cleaned_data
    text = " ".join(right.get("q", "").split())
    sort = right.get("sort", "")
    asked = ListQuery(
        text=text,
        choices={code: tuple(dict.fromkeys(right[code])) for code in FACETS if right.get(code)},
        sort="" if sort == (RANK if text else NEWEST) or (sort == RANK and not text) else sort,
        after=right.get("after", ""),
        typed=given.get("q", "").replace("\0", ""),
        errors={name: " ".join(messages) for name, messages in form.errors.items()})
    return replace(asked, conditions=tuple(_conditions(asked)))
