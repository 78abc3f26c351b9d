"""A real Chromium, and the demo to look at."""
import os
import shutil

import pytest
from playwright.sync_api import sync_playwright

from teardowns.models import Unit
from tests.cast import person
from tests.demo import KeptDemo

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--no-first-run",
]

# What the content policy stopped, also where a page's own script would be told and nobody else.
VIOLATIONS = """document.addEventListener("securitypolicyviolation", (event) => console.error(
  `content policy: ${event.effectiveDirective} blocked ${event.blockedURI}`))"""


@pytest.fixture(scope="session")
def chromium():
    """The browser; its absence fails the run where browser tests are required."""
    if CHROMIUM is None:
        if os.environ.get("REQUIRE_BROWSER"):
            pytest.fail("No Chromium on this machine, and REQUIRE_BROWSER is set.")
        pytest.skip("No Chromium on this machine: apt-get install chromium")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def page(chromium):
    """A fresh page that remembers what its console complained of."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    yield watched(context.new_page())
    context.close()


def watched(page):
    """The page, which remembers from now on what its console complained of."""
    page.complaints = []
    page.add_init_script(VIOLATIONS)
    page.on("console", lambda m: page.complaints.append(m.text) if m.type == "error" else None)
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.on("request", lambda r: _note_foreign(page, r.url))
    return page


def _note_foreign(page, url):
    if not url.startswith(("http://localhost:", "http://127.0.0.1:", "data:", "blob:")):
        page.complaints.append(f"request to another site: {url}")


@pytest.fixture(scope="session")
def kept_demo():
    return KeptDemo()


@pytest.fixture
def demo(transactional_db, settings, kept_demo):
    """The demo's report: units loaded and assessed, accounts with their passwords."""
    return kept_demo.there()


@pytest.fixture
def alices_sheet(page, live_server):
    """The address of a sheet whose contributor is signed in; its pages follow it."""
    alice = person("alice")
    unit = Unit.objects.create(contributor=alice, title="Veltrice VQ-45")
    page.goto(f"{live_server.url}/sign-in/")
    page.get_by_label("Username").fill("alice")
    page.get_by_label("Password").fill("alice-of-the-cast")
    page.locator("main").get_by_role("button", name="Sign in").click()
    return f"{live_server.url}/bench/{unit.pk}"


@pytest.fixture
def signed_in(page, demo, live_server):
    """A page on which the demo contributor has signed in through the form."""
    page.goto(f"{live_server.url}/sign-in/")
    page.get_by_label("Username").fill("alma")
    page.get_by_label("Password").fill(demo.passwords["alma"])
    page.locator("main").get_by_role("button", name="Sign in").click()
    return page
