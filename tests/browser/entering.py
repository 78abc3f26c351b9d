"""How a page comes to be somebody's."""
from django.test import Client

from core.accounts.models import User


def visit(page, live_server, path):
    return page.goto(live_server.url + path)


def enter(page, live_server, name, by_cookie=False):
    """By the form, or by a session made for the test with its second factor passed."""
    if by_cookie:
        return _by_cookie(page, live_server, name)
    visit(page, live_server, "/sign-in/")
    page.get_by_label("Username").fill(name)
    page.get_by_label("Password").fill(f"{name}-of-the-cast")
    page.locator("main").get_by_role("button", name="Sign in").click()


def _by_cookie(page, live_server, name):
    client = Client()
    client.force_login(User.objects.get(username=name))
    page.context.add_cookies([{"name": "session", "value": client.cookies["session"].value,
                               "url": live_server.url}])


def show_password(page, name):
    """Fresh authentication, where a page asks for it; the next page has its scripts then."""
    page.get_by_label("Password", exact=True).fill(f"{name}-of-the-cast")
    with page.expect_navigation():
        page.get_by_role("button", name="Go on").click()
