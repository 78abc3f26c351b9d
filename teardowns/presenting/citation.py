"""How a record is cited: in words, in BibTeX and in RIS."""
from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.urls import reverse

from teardowns.writing.render import visible

from .record_foot import rulebook_text

SITE = "Underplate"
ABOUT = "Teardown record of one unit examined"
# BibTeX counts braces behind a backslash too (from memory), so that a single one ends the entry.
_BIBTEX = str.maketrans({
    "\\": r"\textbackslash{}", "{": r"\textbraceleft{}", "}": r"\textbraceright{}", "%": r"\%",
    "&": r"\&", "#": r"\#", "_": r"\_", "$": r"\$", "~": r"\textasciitilde{}",
    "^": r"\textasciicircum{}"})


@dataclass(frozen=True, slots=True)
class Citation:
    unit: int
    version: int
    title: str               # with maker and model
    author: str              # public name of the contributor
    day: str                 # of publication, ISO 8601
    address: str             # of this version, for good
    rulebook: str
    digest: str              # of the evidence, sha256

    @property
    def key(self) -> str:
        return f"underplate-{self.unit}-v{self.version}"


def citation_of(publication: Any, assessment: Any) -> Citation:
    """publication : with its unit and contributor; assessment : whose numbers are cited"""
    return Citation(
        unit=publication.unit_id, version=publication.number, title=visible(_named(publication)),
        author=visible(publication.unit.contributor.get_username()),
        day=publication.published_at.date().isoformat(), address=version_address(publication),
        rulebook=rulebook_text(assessment.rulebook), digest=assessment.evidence_digest)


def _named(publication: Any) -> str:
    """The title, and what is printed on the unit, by which others look for it."""
    printed = " ".join(filter(None, (publication.maker, publication.model)))
    return f"{publication.title} ({printed})" if printed else publication.title


def version_address(publication: Any) -> str:
    path = reverse("unit_version", args=[publication.unit_id, publication.number])
    return f"{settings.SITE_URL}{path}"


def in_text(one: Citation) -> str:
    return (f"{one.author} ({one.day[:4]}): {one.title}. {ABOUT}, unit {one.unit}, version "
            f"{one.version}, {one.day}. {SITE}, rulebook {one.rulebook}. {one.address}")


def in_bibtex(one: Citation) -> str:
    """An entry `@misc`; fields of BibTeX 0.99d and `url`, which common styles print."""
    fields = {
        "author": f"{{{_tex(one.author)}}}", "title": f"{{{_tex(one.title)}}}",
        "year": one.day[:4], "month": one.day[5:7].lstrip("0"),
        "howpublished": f"{SITE}, unit {one.unit}, version {one.version}",
        "note": _tex(f"{ABOUT}. Rulebook {one.rulebook}; evidence sha256 {one.digest}"),
        "url": one.address}
    body = ",\n".join(f"  {name} = {{{value}}}" for name, value in fields.items())
    return f"@misc{{{one.key},\n{body}\n}}\n"


def in_ris(one: Citation) -> str:
    """Tags of the RIS format, two letters each; lines end with CR LF."""
    tags = [("TY", "DATA"), ("AU", one.author), ("TI", one.title), ("PY", one.day[:4]),
            ("DA", one.day.replace("-", "/")), ("ET", f"Version {one.version}"), ("PB", SITE),
            ("AN", f"Unit {one.unit}"),
            ("N1", f"{ABOUT}. Rulebook {one.rulebook}; evidence sha256 {one.digest}"),
            ("UR", one.address), ("ER", "")]
    return "".join(f"{tag}  - {_line(value)}\r\n" for tag, value in tags)


def _tex(text):
    return _line(text).translate(_BIBTEX)


def _line(text):
    """Without what would end the line, or could not be seen."""
    return " ".join("".join(" " if unicodedata.category(each) == "Cc" else each
                            for each in text).split())
