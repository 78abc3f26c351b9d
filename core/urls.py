"""Every address of the site."""
from django.urls import include, path

from core.audit.views import audit_log
from core.csp_reports import csp_reports
from core.words.views import language

handler403 = "core.accounts.refusals.forbidden"
handler500 = "core.outages.server_error"

urlpatterns = [
    path("", include("core.accounts.urls")),
    path("log/", audit_log, name="audit_log"),
    path("", include("core.operation.urls")),
    path("csp-reports/", csp_reports, name="csp_reports"),
    path("language/", language, name="language"),
    path("", include("teardowns.api.urls")),
    path("", include("teardowns.urls")),
]

handler404 = "teardowns.views.not_found.not_found"
