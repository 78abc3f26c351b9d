"""An address that can be read aloud: it leads to the record, whatever its title is by now."""
from django.shortcuts import redirect


def unit_by_title(request, pk, words):
    return redirect("unit_detail", pk, permanent=True)
