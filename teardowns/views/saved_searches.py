"""The searches that a person watches: kept from the list, renamed, dropped."""
from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from core.once import once
from core.whole_number import whole_number
from teardowns.filters import list_query
from teardowns.forms.search_name_form import SearchNameForm
from teardowns.presenting.list_words import name_of
from teardowns.presenting.saved_search_rows import saved_search_rows
from teardowns.services.save_search import MOST, drop_search, rename_search, save_search
from teardowns.workflow import NotNow


def saved_searches(request):
    """POST renames: `search` is its number."""
    form, renamed = SearchNameForm(), _asked(request)
    if request.method == "POST":
        form = SearchNameForm(request.POST)
        if form.is_valid():
            name = form.cleaned_data["name"]
            is_there = rename_search(person=request.user, pk=renamed, name=name)
            _say(request, is_there, f"It is called “{name}” now.")
            return redirect("saved_searches")
    searches = request.user.saved_searches.defer("found")
    return render(request, "teardowns/saved_searches.html", {
        "rows": saved_search_rows(searches, renamed, form), "most": MOST})


@require_POST
@once
def search_save(request):
    """The search that the query of the address names; back to the list as it was."""
    asked = list_query(request.META["QUERY_STRING"])
    try:
        search, is_new = save_search(person=request.user, name=name_of(asked.conditions),
                                     text=asked.text, choices=asked.choices)
    except NotNow as refusal:
        messages.error(request, str(refusal))
    else:
        words = "You get a notice when it finds another unit" if is_new else "You watch it already"
        messages.success(request, f"{words}: “{search.name}”, under Saved searches.")
    return redirect(reverse("unit_list") + asked.query())


@require_POST
def search_drop(request):
    is_there = drop_search(person=request.user, pk=_asked(request))
    _say(request, is_there, "It is dropped: you get no more notices of it.")
    return redirect("saved_searches")


def _asked(request):
    """The number of a search, 0 where none is named."""
    return whole_number(request.POST.get("search", "")) or 0


def _say(request, is_there, words):
    if is_there:
        messages.success(request, words)
    else:
        messages.error(request, "This search is not there any more: nothing was changed.")
