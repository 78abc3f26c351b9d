"""The searches that a person watches, as a list."""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from teardowns.browsing.addresses import query_of
from teardowns.models import SavedSearch


def saved_search_rows(searches: Iterable[SavedSearch], renamed: int,
                      form: Any) -> list[dict[str, Any]]:
    """renamed : the number of the search that a form with an error is for, or 0"""
    return [_row(search, form if search.pk == renamed else None) for search in searches]


def _row(search, form):
    return {"pk": search.pk, "name": search.name,
            "address": reverse("unit_list") + query_of(search.text, search.choices),
            "since": f"{search.created_at:%Y-%m-%d}",
            "typed": form["name"].value() if form else search.name,
            "error": " ".join(form["name"].errors) if form else ""}
