"""Searching and narrowing the list of units; the address holds the whole choice."""
import django_filters
from django import forms
from django.db.models import F, Q
from django.db.models.functions import NullIf

from teardowns.engine.verdicts import WORDS
from teardowns.models import Channel, Kind, Publication

MOST_WORDS = 8
POWER_BANDS = {                     # code: (label, over, up to) in W
    "0-10": ("up to 10 W", 0, 10),
    "10-20": ("over 10 to 20 W", 10, 20),
    "20-30": ("over 20 to 30 W", 20, 30),
    "30-65": ("over 30 to 65 W", 30, 65),
    "65-": ("over 65 W", 65, 1e6),
}
NEWEST = (F("published_at").desc(nulls_last=True), "-pk")
ORDERS = {                          # code: (label, expressions)
    "newest": ("newest first", NEWEST),
    "gap": ("widest gap between claim and capability", (
        (F("claimed_power") / NullIf(F("capability"), 0.0)).desc(nulls_last=True), "-pk",
    )),
    "power": ("highest claimed power", (F("claimed_power").desc(nulls_last=True), "-pk")),
}
NOT_A_CHOICE = {
    "invalid_choice": "“%(value)s” is not among the choices, so it narrows nothing: choose one "
                      "of the list and press Show.",
}
UNSEARCHABLE = {
    "max_length": "This is longer than %(limit_value)d characters: search for a part of it.",
    "null_characters_not_allowed": "This holds a character that cannot be searched for: type it "
                                   "anew instead of pasting it.",
}


def _one_of(label, choices, any_label=None, **rest):
    empty = f"any {any_label}" if any_label else None
    return django_filters.ChoiceFilter(
        label=label, choices=choices, empty_label=empty, error_messages=NOT_A_CHOICE, **rest
    )


class UnitFilter(django_filters.FilterSet):
    """Over the queryset of `presenting.unit_rows.published_rows`."""

    q = django_filters.CharFilter(
        label="Search", method="containing", max_length=100, error_messages=UNSEARCHABLE
    )
    verdict = _one_of("Verdict", [(word, word) for word in (*WORDS[1:], WORDS[0])], "verdict")
    power = _one_of(
        "Claimed power", [(code, label) for code, (label, *_) in POWER_BANDS.items()], "power",
        method="in_band",
    )
    kind = _one_of("Kind", Kind.choices, "kind")
    channel = _one_of("Where obtained", Channel.choices, "channel")
    sort = _one_of(
        "Sort by", [(code, label) for code, (label, _) in ORDERS.items()], method="unchanged"
    )

    class Meta:
        model = Publication
        fields = ()
        form = forms.Form

    def filter_queryset(self, queryset):
        order = self.form.cleaned_data.get("sort") or "newest"
        return super().filter_queryset(queryset).order_by(*ORDERS[order][1])

    def containing(self, units, name, text):
        """Units in which every word of the search occurs somewhere."""
        for word in text.split()[:MOST_WORDS]:
            units = units.filter(
                Q(title__icontains=word) | Q(maker__icontains=word) | Q(model__icontains=word)
                | Q(words__icontains=word)
            )
        return units

    def in_band(self, units, name, code):
        _, over, up_to = POWER_BANDS[code]
        return units.filter(claimed_power__gt=over, claimed_power__lte=up_to)

    def unchanged(self, units, name, value):
        """The order is put in at the end, once all else is narrowed."""
        return units
