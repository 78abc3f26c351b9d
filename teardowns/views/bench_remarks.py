"""What a bench sheet was sent back for, beside what each remark speaks of."""
from collections import defaultdict

from teardowns.models import ReviewRemark


def remarks_by_ref(unit):
    """Those without an answer: {"measurement/mass": [remark, …]}; one query."""
    found = defaultdict(list)
    for remark in ReviewRemark.objects.of_open_work(unit).unanswered().select_related("author"):
        found[remark.ref].append(remark)
    return found


def put_remarks(form, unit):
    """Onto the rows of a section's form that they speak of."""
    found = remarks_by_ref(unit)
    for rows in form.row_sets:
        for row in rows.forms:
            row.review_remarks = found.get(f"{row.model._meta.model_name}/{row.own_key}", ())
