"""Response headers that every answer carries."""
from csp.constants import NONCE, NONE, SELF

REPORTS = "/csp-reports/"                   # core/csp_reports.py
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF, NONCE],
        "style-src": [SELF, NONCE],
        "img-src": [SELF],
        "connect-src": [SELF],
        "font-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "object-src": [NONE],
        "frame-ancestors": [NONE],
        "report-uri": [REPORTS],            # for browsers that do not know the other yet
        "report-to": ["csp"],
    }
}
ENDPOINTS = f'csp="{REPORTS}"'              # what report-to means (Reporting API)
PERMISSIONS = ", ".join(
    f"{feature}=()"
    for feature in ("camera", "microphone", "geolocation", "payment", "usb", "serial")
)


def extra_headers(get_response):
    """Middleware: headers without a setting of Django; private pages and errors are not stored."""

    def middleware(request):
        response = get_response(request)
        response.headers.setdefault("Permissions-Policy", PERMISSIONS)
        response.headers.setdefault("Reporting-Endpoints", ENDPOINTS)
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        if response.status_code >= 400 or _is_signed_in(request):
            response.headers.setdefault("Cache-Control", "no-store")
        return response

    return middleware


def _is_signed_in(request):
    """No for a request that was refused before anybody looked who it is from."""
    return getattr(request, "user", None) is not None and request.user.is_authenticated
