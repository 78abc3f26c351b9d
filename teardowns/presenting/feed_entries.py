"""Entries of the Atom feeds: about the unit examined, with the maker's reply as large beside it."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import uuid5

from django.urls import reverse
from django.utils.html import escape, format_html
from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.risk import BESIDE, ILLUSTRATION
from teardowns.models import Publication, Reply
from teardowns.writing import render
from teardowns.writing.render import visible

from .wording import power_sentence, voltage_sentence

ONE = ("This is about one unit that somebody opened. Its apparent origin and authenticity were not "
       "established.")
SERIOUS = "Serious risk in one unit examined: {finding} ({title})"
CONFIRMED = "Confirmed by {} reviewers, none of them the contributor."


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a feed (RFC 4287, 4.1.2)."""

    uid: str                 # never changes, whatever the address
    title: str
    path: str
    author: str
    published: datetime
    updated: datetime
    html: SafeString


def publication_entries(publications: Iterable[Publication]) -> list[Entry]:
    """Of versions with unit, contributor and standing assessment; one query for all replies."""
    publications = list(publications)
    replies = _replies([one.unit_id for one in publications])
    return [_publication(one, replies[one.unit_id]) for one in publications]


def _publication(publication, replies):
    report = publication.standing.payload
    said = [power_sentence(report), voltage_sentence(report)] if report else []
    title = visible(publication.title)
    if publication.number > 1:
        title = f"{title} (version {publication.number})"
    return _entry(publication, f"version/{publication.number}", title, "", [*said, ONE], replies)


def headline_entries(headlines: Iterable[Any]) -> list[Entry]:
    """Of `services.serious_headlines`: nothing else is told as serious."""
    headlines = list(headlines)
    replies = _replies([one.publication.unit_id for one in headlines])
    return [_headline(one, replies[one.publication.unit_id]) for one in headlines]


def _headline(headline, replies):
    finding, publication = headline.finding, headline.publication
    title = SERIOUS.format(finding=finding["title"], title=visible(publication.title))
    said = [finding["sentence"], CONFIRMED.format(headline.confirmed), f"{BESIDE}. {ILLUSTRATION}",
            ONE]
    return _entry(publication, f"serious/{finding['scenario']}", title, "#findings", said, replies)


def _entry(publication, mark, title, fragment, said, replies):
    unit = publication.unit
    changed = [publication.published_at, *(one.now_decided_at for one in replies)]
    return Entry(
        uid=uuid5(unit.uid, mark).urn, title=title,
        path=reverse("unit_detail", args=[unit.pk]) + fragment,
        author=visible(unit.contributor.get_username()), published=publication.published_at,
        updated=max(changed), html=_html(said, replies))


def _html(said, replies):
    paragraphs = [f"<p>{escape(visible(text))}</p>" for text in said if text]
    return mark_safe("".join([*paragraphs, *map(_reply, replies)]))


def _reply(reply):
    return format_html(
        '<p>{} replied on {}:</p><blockquote lang="{}">{}</blockquote>', visible(reply.author_name),
        f"{reply.now_received_at:%Y-%m-%d}", reply.now_language,
        mark_safe(render(reply.now_text)))


def _replies(units):
    found = defaultdict(list)
    for reply in Reply.objects.shown().filter(unit__in=units):
        found[reply.unit_id].append(reply)
    return found
