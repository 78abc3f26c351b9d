"""The list of published units: searched, narrowed, sorted, 25 to a page."""
from django.core.paginator import Paginator
from django.shortcuts import render
from django.utils.safestring import mark_safe

from teardowns.engine.safety_words import DEFERRAL
from teardowns.figures.strip import strip_axis
from teardowns.filters import UnitFilter
from teardowns.presenting.unit_rows import published_rows, unit_rows

PAGE_SIZE = 25


def unit_list(request):
    units = UnitFilter(request.GET, published_rows())
    page = Paginator(units.qs, PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/unit_list.html", {
        "form": units.form,
        "choices": [units.form[name] for name in ("verdict", "power", "kind", "channel", "sort")],
        "rows": unit_rows(page.object_list),
        "axis": mark_safe(strip_axis()),
        "deferral": DEFERRAL,
        "page": page,
        "found": _found(page.paginator.count),
        "narrowed": list(_narrowed(units.form, request.GET)),
        "earlier": _address(request.GET, page=page.number - 1) if page.has_previous() else "",
        "later": _address(request.GET, page=page.number + 1) if page.has_next() else "",
    })


def _found(count):
    return "1 unit" if count == 1 else f"{count} units"


def _narrowed(form, asked):
    """What narrows the list: in words, with the address of the list without it."""
    for name, value in form.cleaned_data.items():
        if value and name != "sort":
            shown = dict(getattr(form.fields[name], "choices", ())).get(value, value)
            yield {
                "label": form.fields[name].label,
                "shown": shown,
                "address": _address(asked, **{name: None, "page": None}),
            }


def _address(asked, **changes):
    """The query of this list with some values changed or, where None, left out; never empty."""
    query = asked.copy()
    for name, value in changes.items():
        query.pop(name, None)
        if value is not None:
            query[name] = value
    for name in [name for name, value in query.items() if not value]:
        del query[name]
    return f"?{query.urlencode()}"
