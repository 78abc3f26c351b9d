"""Atom feeds (RFC 4287): newest records, serious findings, and the records of one board family."""
from __future__ import annotations

from datetime import UTC, datetime

from django.http import HttpResponse
from django.urls import reverse
from django.utils.cache import get_conditional_response
from django.utils.feedgenerator import Atom1Feed
from django.utils.http import http_date

from teardowns import access
from teardowns.models import ListedUnit, Publication
from teardowns.presenting.feed_entries import headline_entries, publication_entries
from teardowns.services.feed_state import feed_state
from teardowns.services.serious_headlines import serious_headlines

ENTRIES = 30
FRESH = 300              # seconds for which a reader need not ask again
BEGINNING = datetime(2026, 1, 1, tzinfo=UTC)         # the date of a feed without entries


class Feed(Atom1Feed):
    """With the date of what it tells; Django's would be now for an empty one."""

    def latest_post_date(self):
        return self.feed["changed"]


def feed_newest(request):
    """Records as they are published, the newest first."""
    return _answer(request, "Newest records", "Chargers that somebody opened, as published.",
                   lambda: publication_entries(_newest(ListedUnit.objects.listed())))


def feed_serious(request):
    """Findings of serious risk that two reviewers confirmed, and no others."""
    return _answer(
        request, "Serious findings",
        "Findings of serious risk, each confirmed by two independent reviewers.",
        lambda: headline_entries(serious_headlines()))


def feed_family(request, slug):
    """Records whose board belongs to one family."""
    family = access.family_to_see(slug)
    return _answer(
        request, f"Board family {family.name}", "Records whose board belongs to this family.",
        lambda: publication_entries(_newest(
            ListedUnit.objects.listed().filter(unit__in=family.published_units()))),
        family.name, str(family.version))


def _newest(listed):
    """What is public of the newest of these units."""
    pks = listed.order_by("-published_at", "-unit").values_list("publication", flat=True)[:ENTRIES]
    return Publication.objects.current().filter(pk__in=list(pks)).select_related(
        "unit__contributor", "standing").defer("document", "frozen", "words").order_by(
        "-published_at", "-pk")


def _answer(request, title, about, entries, *extra):
    """304 where nothing changed since the reader asked last; the entries are made only if so."""
    state = feed_state(request.build_absolute_uri(request.path), *extra)
    changed = state.changed_at and int(state.changed_at.timestamp())
    response = get_conditional_response(request, etag=state.etag, last_modified=changed)
    if response is None or response.status_code != 304:
        response = HttpResponse(_written(request, title, about, entries()[:ENTRIES]),
                                content_type="application/atom+xml; charset=utf-8")
    response["ETag"] = state.etag
    if changed:
        response["Last-Modified"] = http_date(changed)
    response["Cache-Control"] = f"public, max-age={FRESH}"
    return response


def _written(request, title, about, entries):
    updated = max((one.updated for one in entries), default=BEGINNING)
    feed = Feed(
        f"Underplate: {title}", request.build_absolute_uri(reverse("unit_list")), about,
        language="en", author_name="Underplate", subtitle=about, changed=updated,
        feed_url=request.build_absolute_uri(request.path),
        feed_guid=request.build_absolute_uri(request.path))
    for one in entries:
        feed.add_item(
            one.title, request.build_absolute_uri(one.path), str(one.html), unique_id=one.uid,
            author_name=one.author, pubdate=one.published, updateddate=one.updated)
    return feed.writeString("utf-8")
