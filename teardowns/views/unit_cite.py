"""How to cite a record, and how to show its verdict elsewhere."""
from django.conf import settings
from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.html import format_html

from teardowns.presenting.badge_of import badge_lines
from teardowns.presenting.citation import citation_of, in_bibtex, in_ris, in_text
from teardowns.presenting.share_words import readable_path
from teardowns.services.public_versions import public_versions, shown_assessments
from teardowns.views.kept_pages import kept_with_unit
from teardowns.views.unit_report import asked_version

# Name in ?as=, media type, suffix, and what writes it.
FORMS = {
    "text": ("text/plain; charset=utf-8", "txt", in_text),
    "bibtex": ("application/x-bibtex; charset=utf-8", "bib", in_bibtex),
    "ris": ("application/x-research-info-systems; charset=utf-8", "ris", in_ris),
}
SNIPPET = ('<a href="{}"><img src="{}" alt="{}" height="64"></a>')


@kept_with_unit
def unit_cite(request, pk):
    versions = public_versions([(pk, asked_version(request))])
    if not versions:
        raise Http404("No such unit.")
    publication, = versions
    assessment = shown_assessments(publication)[0]
    citation = citation_of(publication, assessment)
    if request.GET.get("as", "") in FORMS:
        return _file(citation, *FORMS[request.GET["as"]])
    return render(request, "teardowns/unit_cite.html", {
        "unit": publication.unit, "publication": publication, "citation": citation,
        "text": in_text(citation), "bibtex": in_bibtex(citation), "ris": in_ris(citation),
        "asked": f"?version={publication.number}",
        "readable": settings.SITE_URL + readable_path(pk, publication.title),
        **_embedded(publication, assessment)})


def _file(citation, media_type, suffix, write):
    answer = HttpResponse(write(citation), content_type=media_type)
    answer["Content-Disposition"] = f'attachment; filename="{citation.key}.{suffix}"'
    return answer


def _embedded(publication, assessment):
    """The badge of what stands, and that of this version; each links to what it speaks of."""
    pk, number = publication.unit_id, publication.number
    stands = publication.pk == publication.unit.publication_id
    said = ". ".join(badge_lines(publication, assessment.payload, stands=stands))
    of_unit = reverse("unit_detail", args=[pk]), reverse("unit_badge", args=[pk])
    of_version = (reverse("unit_version", args=[pk, number]),
                  reverse("unit_version_badge", args=[pk, number]))
    return {
        "badge": of_unit[1], "badge_alt": said,
        "snippet": _snippet(*of_unit, f"Verdict of Underplate on the unit examined, record {pk}"),
        "version_snippet": _snippet(*of_version, said)}


def _snippet(page, picture, alt):
    return str(format_html(SNIPPET, settings.SITE_URL + page, settings.SITE_URL + picture, alt))
