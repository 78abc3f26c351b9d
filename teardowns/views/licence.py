"""The terms under which contributions are handed in, for anyone to read."""
from django.shortcuts import render

from teardowns.licence import ADDRESSES, IN_FORCE, NAMES


def licence(request):
    return render(request, "teardowns/licence.html", {
        "terms": IN_FORCE,
        "licences": [{"id": each, "name": NAMES[each], "address": ADDRESSES[each]}
                     for each in NAMES],
    })
