"""Names, HTTPS, the proxy in front, and what Django's own deployment check says."""
from urllib.parse import urlsplit

from django.conf import settings
from django.core import checks

from core.doctor.findings import examines, fault, good, note, warning

HERE = {"localhost", "127.0.0.1", "[::1]", "testserver"}


def serves_others():
    return bool(set(settings.ALLOWED_HOSTS) - HERE)


@examines("web")
def debug_is_off():
    if settings.DEBUG:
        yield fault("DEBUG is on: every error shows settings and code to whoever caused it.",
                    "Unset DEBUG.")


@examines("web")
def names_are_stated():
    if "*" in settings.ALLOWED_HOSTS:
        yield fault("ALLOWED_HOSTS lets a request give the site any name.",
                    "Name the site's own: ALLOWED_HOSTS=units.example.")
    elif not serves_others():
        yield note("The site answers to this machine's own names only.",
                   "To serve others set ALLOWED_HOSTS, HTTPS, SITE_URL and, behind a proxy, "
                   "BEHIND_PROXY.")
    else:
        yield good(f"The site answers to {', '.join(settings.ALLOWED_HOSTS)}.")


@examines("web")
def connections_are_encrypted():
    if serves_others() and not settings.HTTPS:
        yield fault("Others are served without HTTPS: passwords travel in clear.",
                    "Put nginx with a certificate in front (fixtures/deploy/) and set HTTPS=1.")
    elif settings.HTTPS and not settings.PROXIES:
        yield warning("HTTPS is on and no proxy is believed: gunicorn itself would have to speak "
                      "TLS, else every page redirects to itself.",
                      "Set BEHIND_PROXY=1 where nginx ends TLS.")
    elif settings.HTTPS:
        yield good("Pages are served over HTTPS alone, and one proxy is believed.")


@examines("web")
def mails_name_the_site():
    site = urlsplit(settings.SITE_URL)
    if serves_others() and (site.hostname or "") not in settings.ALLOWED_HOSTS:
        yield warning(f"E-mails lead to {settings.SITE_URL}, a name the site does not answer to.",
                      "Set SITE_URL to the address that people open.")
    elif settings.HTTPS and site.scheme != "https":
        yield warning(f"E-mails lead to {settings.SITE_URL}, without HTTPS.",
                      f"SITE_URL=https://{site.netloc}")


@examines("web")
def deployment_check_is_clean():
    """What `check --deploy` says, but for HTTPS, of which our own words are above."""
    if not serves_others():
        return
    all_said = checks.run_checks(include_deployment_checks=True)
    found = [said for said in all_said
             if said.level >= checks.WARNING and not said.is_silenced()]
    for said in found:
        yield warning(f"{said.id}: {said.msg.splitlines()[0]}", said.hint or "See check --deploy.")
    if not found:
        yield good("Django's deployment check has nothing to say.")
