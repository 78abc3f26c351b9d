"""What became of a report, for whoever has its receipt's address."""
from django.http import Http404
from django.shortcuts import render

from teardowns.models import Report
from teardowns.presenting.moderation_times import moment
from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.reasons import BY_CODE


def report_receipt(request, uid):
    report = Report.objects.filter(uid=uid).first()
    if report is None:
        raise Http404("No report has this receipt.")
    statements = report.statements.select_related("unit").order_by("pk")
    return render(request, "teardowns/report_receipt.html", {
        "report": report, "words": BY_CODE[report.code].words,
        "received": moment(report.received_at), "due": moment(report.due_at),
        "statements": [statement_sheet(one) for one in statements],
        "is_reporter": request.user.is_authenticated and request.user.pk == report.reporter_id})
