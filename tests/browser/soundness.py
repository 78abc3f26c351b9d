"""What makes a page sound: accessible, quiet, and nothing sideways."""
from axe_playwright_python.sync_playwright import Axe
from django.db.models import F

from teardowns.models import Unit

# Only violations are read; writing down what passed takes twice as long as looking.
LEVELS = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
          "resultTypes": ["violations"]}


# Siblings of one make are alike: of each make the first few of a parent are looked at, and the rest
# hidden meanwhile. A page of a thousand rows takes a minute otherwise.
HIDE_ALIKE = """kept => {
  for (const parent of document.body.querySelectorAll("*")) {
    const seen = {};
    for (const child of parent.children) {
      const make = [child.tagName, child.getAttribute("class"),
                    ...[...child.children].map(one => one.tagName + one.getAttribute("class"))];
      seen[make] = (seen[make] ?? 0) + 1;
      if (seen[make] > kept && !child.contains(document.activeElement)) {
        child.setAttribute("data-alike", child.style.display);
        child.style.display = "none";
      }
    }
  }
}"""
SHOW_ALIKE = """() => {
  for (const one of document.querySelectorAll("[data-alike]")) {
    one.style.display = one.getAttribute("data-alike");
    one.removeAttribute("data-alike");
  }
}"""
KEPT = 3
MOST_BYTES = 150_000         # of a page as it is sent, before pictures
PLACES = "target-size"       # how near to each other: asked while everything is in its place


def richest():
    """The published unit of the largest claim, with lines and claims to look at."""
    largest = F("assessments__claimed_power").desc(nulls_last=True)
    return Unit.objects.published().order_by(largest, "pk").first()


def public_addresses():
    """The public pages, among them a rich, a poor and a contradictory unit."""
    units = Unit.objects.published()
    rich = richest()
    poor = units.filter(assessments__verdict="no evidence").first() or rich
    odd = units.filter(assessments__verdict="evidence contradicts itself").first() or rich
    lines = [line for line in rich.assessments.latest().payload["lines"] if line["used"]]
    claim = rich.claims.filter(kind__in=["output", "total"]).first()
    return [
        "/", "/units/", "/units/?q=nothing-like-this", "/makers/?q=brethuldox", "/data/",
        "/method/", "/styleguide/", "/sign-in/",
        *(unit.get_absolute_url() for unit in (rich, poor, odd)),
        f"/units/{rich.pk}/working/{lines[0]['id']}/low/",
        f"/units/{rich.pk}/claims/{claim.key}/",
    ]


def violations(page):
    page.wait_for_load_state()      # a click that leads away leaves a page without a body meanwhile
    page.evaluate(HIDE_ALIKE, KEPT)
    found = Axe().run(page, options=LEVELS | {"rules": {PLACES: {"enabled": False}}}).response[
        "violations"]
    page.evaluate(SHOW_ALIKE)
    only = LEVELS | {"runOnly": {"type": "rule", "values": [PLACES]}}
    found += Axe().run(page, options=only).response["violations"]
    return [(v["id"], [node["target"] for node in v["nodes"]][:3]) for v in found]


def check(page, address):
    """No violation, nothing sideways, nothing in the console."""
    assert page.goto(address).status == 200, address
    check_shown(page, address)


def check_shown(page, address):
    """The same of the page that is shown already."""
    assert violations(page) == [], address
    check_width(page, address)


def check_width(page, address):
    """Nothing sideways, nothing in the console, not heavy, of the page that is shown."""
    sent = page.evaluate("performance.getEntriesByType('navigation')[0].transferSize")
    assert sent <= MOST_BYTES, f"{address} takes {sent} bytes"
    width = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert width <= 0, f"{address} is {width} px wider than the screen"
    assert page.complaints == [], address
