"""Accounts by public name and role, with what each contributed; no addresses."""
from django.core.paginator import Paginator
from django.shortcuts import render

from core.accounts.models import Role
from teardowns.presenting.people_rows import person_row
from teardowns.services.people import accounts

PAGE_SIZE = 50
LONGEST = 80


def people(request):
    asked = request.GET.get("q", "")[:LONGEST].strip()
    role = request.GET.get("role", "") if request.GET.get("role") in Role.values else ""
    page = Paginator(accounts(asked, role), PAGE_SIZE).get_page(request.GET.get("page"))
    query = f"q={asked}&role={role}"
    return render(request, "teardowns/people.html", {
        "rows": [person_row(one) for one in page.object_list], "page": page, "asked": asked,
        "role": role, "roles": Role.choices, "query": query})
