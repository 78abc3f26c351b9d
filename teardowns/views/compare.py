"""Two to six public units side by side; with fewer, a page that helps to choose."""
from django.shortcuts import render

from teardowns.forms.chosen_units import LEAST, MOST, Chosen, read_choice, written
from teardowns.presenting.compare_choice import compare_address, offered, picked, problems_of
from teardowns.presenting.compare_sheet import compare_sheet
from teardowns.services.compared_curves import compared_curves
from teardowns.services.compared_units import compared_units
from teardowns.services.page_state import page_state
from teardowns.services.units_to_compare import units_there, units_to_compare
from teardowns.views.kept_pages import kept_page

LONGEST_SEARCH = 100


def _state(request):
    """Of the units whose page this is; none while somebody chooses."""
    units = read_choice(request.GET.getlist("units"), units_there).units
    if "q" in request.GET or len(units) < LEAST:
        return None
    return page_state({one.pk for one in units})


@kept_page(_state)
def compare(request):
    """?units=3,8v2,12 in the order of the columns; &q=… looks for another one to add, &like=…
    offers what was found before."""
    choice = read_choice(request.GET.getlist("units"), units_there)
    found = compared_units([(one.pk, one.version) for one in choice.units])
    keys = [Chosen(*key) for key in found.keys]
    context = {
        "problems": problems_of(choice.problems, found.withdrawn, found.missing,
                                found.again),
        "picked": picked(found.units, keys), "units": written(keys), "most": MOST,
        "has_room": len(keys) < MOST,
    }
    if len(keys) < LEAST or "q" in request.GET:
        return render(request, "teardowns/compare_choose.html", context | _choosing(request, keys))
    sheet = compare_sheet(found.units, compared_curves(found.units), request.GET.get("stage", ""))
    return render(request, "teardowns/compare.html", context | sheet | {
        "here": compare_address(keys)})


def _choosing(request, keys):
    text, like = (request.GET.get(name, "").replace("\0", "")[:LONGEST_SEARCH]
                  for name in ("q", "like"))
    there, again, rows = {key.pk for key in keys}, [], []
    if len(keys) < MOST:
        again = units_to_compare(like, there) if like and not text else []
        rows = again or units_to_compare(text, there)
    return {
        "q": text, "again": bool(again), "is_enough": len(keys) >= LEAST,
        "here": compare_address(keys),
        "asks": _asks(len(keys)),
        # Whoever adds the first goes on in what was found; the second leads to the comparison.
        "offered": offered(rows, keys, (text or like) if len(keys) + 1 < LEAST else ""),
    }


def _asks(count):
    """What to do next."""
    if count == 0:
        return "Choose at least two units, up to six."
    if count == 1:
        return "One unit is chosen: choose at least one more."
    if count == MOST:
        return "Six units are chosen: take one out to make room for another."
    return "Choose another one, or compare those that are chosen."
