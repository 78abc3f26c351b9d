"""Watch a unit, a part or a family, or stop; and the list of what one watches."""
from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from core.once import once
from teardowns import access
from teardowns.presenting.watch_rows import watch_rows
from teardowns.services import watch as service
from teardowns.workflow import NotNow

PAGE_SIZE = 50


def watch_list(request):
    watches = request.user.watches.select_related("unit", "part", "family")
    page = Paginator(watches, PAGE_SIZE).get_page(request.GET.get("page"))
    return render(request, "teardowns/watch_list.html", {
        "rows": watch_rows(page.object_list, access.units_seen_by(request.user)), "page": page,
        "number": f"{page.paginator.count} watched"})


@require_POST
@once
def watch(request):
    """`kind` and `key` name the thing, `to` is on or off, `back` is list or empty."""
    kind, key = request.POST.get("kind", ""), request.POST.get("key", "")
    back = "watch_list" if request.POST.get("back") == "list" else ""
    if request.POST.get("to") == "off":
        return _unwatch(request, kind, key, back)
    thing = access.thing_seen_by(request.user, kind, key)
    try:
        service.watch(person=request.user, thing=thing)
    except NotNow as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, f"You watch “{thing}” now: news of it stand under Notices.")
    return redirect(back or thing)


def _unwatch(request, kind, key, back):
    """Also of a thing that is out of sight by now, so that a list can be cleared."""
    if back:
        request.user.watches.filter(pk=key if key.isdecimal() and len(key) < 19 else 0).delete()
        messages.success(request, "You do not watch it any more.")
        return redirect(back)
    thing = access.thing_seen_by(request.user, kind, key)
    service.unwatch(person=request.user, thing=thing)
    messages.success(request, f"You do not watch “{thing}” any more.")
    return redirect(thing)
