"""A public unit as a mould: each copy is written with what it has of its own."""
from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from typing import Any
from uuid import UUID

from django.apps import apps

from teardowns.likeness.features import from_plain
from teardowns.likeness.words import words, words_of
from teardowns.models import (
    Component,
    Likeness,
    LikenessWord,
    ListedUnit,
    Publication,
    SearchTerm,
    SearchText,
    Unit,
)
from teardowns.models.search_texts import Findable, text_key
from teardowns.reading.markings_alike import alike
from teardowns.searching.tokens import ANY, LOOSE, UNIT, Texts
from teardowns.searching.words import LONGEST, run_together
from teardowns.services.index_words import SHORTEST, search_text
from teardowns.services.search_texts import of_document

from . import names
from .documents import OWN_MARKING, SUFFIX
from .tables import Writer, stored, time_text
from .template import Template

PK, MASS, REACH = "@@PK@@", "@@MASS@@", "@@REACH@@"       # numbers, so that quotes go with them
OBTAINED = "2020-01-01"
ALWAYS = ("unit", "author", "version")                     # what is frozen names these itself
EXAMINED = ("marketplace", "web_shop")                     # channels that show how much was sold


@dataclass(frozen=True, slots=True)
class Own:
    """What a copy has of its own."""

    pk: int
    publication: int
    texts: Mapping[str, str]           # by name, as a Template takes them
    mass: float | None                 # kg
    reach: int | None
    published_at: Any
    is_listed: bool
    families: tuple[str, ...]


class Mould:
    def __init__(self, pk: int):
        self.unit = stored(Unit, pk=pk)
        self.publication = stored(Publication, pk=self.unit["publication_id"])
        self.listed = stored(ListedUnit, unit=pk)
        self.component = _cited(pk)
        self.document = json.loads(self.publication["document"])
        self.has_mass = self._has_mass()
        self.has_reach = self.unit["channel"] in EXAMINED or self.unit["listing_reach"] is not None
        self.maker, self.model = self.unit["maker"], self.unit["model"]
        self.markings = {role: text for role, text in OWN_MARKING.items()
                         if any(row["marking"] == text for row in self.document["components"])}
        words_here = self._own_words()
        self.as_document = Template(self._with_numbers(self.document, pk), words_here)
        frozen = _without_defaults(json.loads(self.publication["frozen"]))
        self.as_frozen = Template(self._with_numbers(frozen, pk), words_here)
        self.as_words = Template(self.publication["words"], self._own_words(numbers=False))
        self._keep_search()
        self._keep_likeness(pk)

    def _has_mass(self):
        return self.listed["mass"] is not None and any(
            row["quantity"] == "mass_total" and "value" in row
            for row in self.document["measurements"])

    def _own_words(self, numbers=True):
        found = {self.maker: "maker", SUFFIX: "suffix", self.document["unit"]["uid"]: "uid",
                 **{text: role for role, text in self.markings.items()}}
        if numbers:
            found |= {f'"{PK}"': "pk", f'"{MASS}"': "mass", f'"{REACH}"': "reach",
                      f'"{OBTAINED}"': "obtained"}
        return found

    def _with_numbers(self, data, pk):
        """The JSON text with a word in the place of each number that a copy has of its own."""
        data = json.loads(json.dumps(data))
        of_unit = data["unit"]["fields"] if "fields" in data["unit"] else data["unit"]
        if "pk" in data["unit"]:
            data["unit"]["pk"] = PK
        if self.has_reach:
            of_unit["listing_reach"] = REACH
        rows = [row.get("fields", row) for found in data.values() if isinstance(found, list)
                for row in found]
        for row in rows:
            if row.get("unit") == pk:
                row["unit"] = PK
            if self.has_mass and row.get("quantity") == "mass_total":
                row["value"] = MASS
        return json.dumps(data, separators=(",", ":"))

    def _keep_search(self):
        """A search text is what all copies share and what each has of its own, together."""
        texts = of_document(self.document, self.publication["title"], self.maker, self.model)
        own = (self.maker, SUFFIX, *self.markings.values())

        def split(lines):
            mine = tuple(line for line in lines if any(word in line for word in own))
            return mine, tuple(line for line in lines if line not in mine)

        self.own_lines, lines = split(texts.lines)
        self.models = texts.models               # all: each is kept behind the maker as well
        self.own_markings, markings = split(texts.markings)
        self.title = texts.title
        self.all_lines = texts.lines
        self.shared = search_text(Findable.UNIT, 0, Texts(
            "", lines, (), (), markings, texts.claims))

    def _keep_likeness(self, pk):
        row = stored(Likeness, unit=pk)
        self.as_features = Template(row["features"], {
            **{text: role for role, text in self.markings.items()},
            **{alike(text): f"{role} alike" for role, text in self.markings.items()}})
        found = from_plain(json.loads(row["features"]))
        marks = {alike(text): role for role, text in self.markings.items()}
        self.own_features = [(marks[one.text], one) for one in found if one.text in marks]
        self.shared_words = words(one for one in found if one.text not in marks)
        self.likeness = row

    def draw(self, draw: Random, pk, publication, published_at, is_listed, families) -> Own:
        mass = self.listed["mass"] * draw.uniform(0.85, 1.18) if self.has_mass else None
        reach = names.reach(draw) if self.has_reach else None
        texts = {"maker": names.one_maker(draw, len(self.maker)), "suffix": names.suffix(draw),
                 "uid": str(UUID(int=draw.getrandbits(128), version=4)), "pk": str(pk),
                 "obtained": f'"{names.obtained(draw)}"', "reach": str(reach), "mass": ""}
        for role in self.markings:
            texts[role] = names.marking(draw)
            texts[f"{role} alike"] = alike(texts[role])
        if mass is not None:
            mass = round(mass, 5)
            total = mass + self._ballast()
            texts["mass"], mass = repr(total), total - self._ballast()
        return Own(pk, publication, texts, mass, reach, published_at, is_listed, families)

    def _ballast(self):
        return sum(row["value"] for row in self.document["measurements"]
                   if row["quantity"] == "mass_ballast" and "value" in row)

    def write(self, own: Own, writer: Writer, changed: int) -> None:
        texts = own.texts
        at = time_text(own.published_at)
        maker, model = texts["maker"], self.model.replace(SUFFIX, texts["suffix"])
        obtained = texts["obtained"].strip('"') if self.unit["obtained_on"] else None
        uid = texts["uid"] if "-" in str(self.unit["uid"]) else texts["uid"].replace("-", "")
        writer.add(Unit, self.unit | {
            "id": own.pk, "uid": uid, "maker": maker, "model": model, "obtained_on": obtained,
            "status": "published" if own.is_listed else "withdrawn", "created_at": at,
            "changed_at": at, "published_at": at, "submitted_at": at,
            "listing_reach": own.reach, "publication_id": own.publication})
        withdrawn = {} if own.is_listed else {
            "withdrawn_at": at, "withdrawal_code": "error", "withdrawal_reason": "Mixed up."}
        writer.add(Publication, self.publication | {
            "id": own.publication, "unit_id": own.pk, "number": 1, "maker": maker, "model": model,
            "document": self.as_document.filled(texts), "frozen": self.as_frozen.filled(texts),
            "words": self.as_words.filled(texts), "published_at": at, **withdrawn})
        year = int(obtained[:4]) if obtained else None
        writer.add(ListedUnit, self.listed | {
            "unit_id": own.pk, "publication_id": own.publication, "is_listed": own.is_listed,
            "changed": changed, "maker": maker, "model": model, "published_at": at, "year": year,
            "reach": own.reach, "mass": own.mass, "families": json.dumps(list(own.families))})
        if own.is_listed:
            self._write_found_by(own, writer, maker, model)

    def _write_found_by(self, own, writer, maker, model):
        if self.component:
            writer.add(Component, self.component | {"id": own.pk + Moulds.components,
                                                    "unit_id": own.pk})
        swap = {self.maker: maker, SUFFIX: own.texts["suffix"],
                **{text: own.texts[role] for role, text in self.markings.items()}}

        def swapped(line):
            for word, other in swap.items():
                line = line.replace(word, other)
            return line

        texts = Texts(swapped(self.title), tuple(map(swapped, self.own_lines)), (maker,),
                      tuple(map(swapped, self.models)), tuple(map(swapped, self.own_markings)))
        made = search_text(Findable.UNIT, own.pk, texts)
        writer.add(SearchText, {
            "id": text_key(Findable.UNIT, own.pk), "title": made.title,
            "body": "\n".join(map(swapped, self.all_lines)),
            "tokens": _tokens(self.shared.tokens, made.tokens),
            "run_together": _joined(self.shared.run_together, made.run_together, "\n")})
        for name in texts.names:
            self._learn(name, writer)
        writer.add(Likeness, self.likeness | {
            "unit_id": own.pk, "publication_id": own.publication,
            "features": self.as_features.filled(own.texts), "alike": "[]"})
        for word in self._words(own):
            writer.add(LikenessWord, {"word": word, "unit_id": own.pk})

    @staticmethod
    def _learn(name, writer):
        """Words besides are those of the unit that the mould was made from."""
        key = run_together(name)
        if key not in Moulds.known and SHORTEST <= len(key) <= LONGEST and not key.isdigit():
            Moulds.known.add(key)
            writer.add(SearchTerm, {"key": key, "backwards": key[::-1], "shown": name,
                                    "is_name": True})

    def _words(self, own):
        found = set(self.shared_words)
        for role, feature in self.own_features:
            found.update(_words_of(feature, own.texts[f"{role} alike"]))
        return found


class Moulds:
    """What all moulds share."""

    components = 0                     # key of a copy's component, less that of its unit
    known: set[str] = set()            # keys of search terms that are there


_KNOWN: dict[tuple[str, str], tuple[int, ...]] = {}


def _words_of(feature, text):
    key = (feature.slot, text)
    if key not in _KNOWN:
        _KNOWN[key] = words_of(type(feature)(feature.slot, text, text))
    return _KNOWN[key]


def _without_defaults(frozen):
    """Shorter, and thawed to the same rows."""
    def short(row):
        model = apps.get_model(row["model"])
        return row | {"fields": {
            name: value for name, value in row["fields"].items() if name in ALWAYS
            or value != model._meta.get_field(name).get_default()}}

    return {name: [short(row) for row in found] if isinstance(found, list) else found
            for name, found in frozen.items()}


def _tokens(shared, own):
    """A word that one of both has as printed is none that is only found folded."""
    found = {*shared.split(), *own.split()}
    printed = {f"{UNIT}{LOOSE}{token[2:]}" for token in found if token[1] == ANY}
    return " ".join(sorted(found - printed))


def _joined(shared, own, between):
    return between.join(sorted({*shared.split(between), *own.split(between)} - {""}))


def _cited(pk):
    """The row of the controller, where the library knows it: its page names the units."""
    row = Component.objects.filter(unit=pk, role="primary_controller",
                                   part__isnull=False).first()
    return stored(Component, pk=row.pk) if row else None
