"""Words of the account pages. The user agents are of the shape of RFC 9110, 10.1.5."""
import pytest

from core.templatetags.account_words import browser_words


@pytest.mark.parametrize(("user_agent", "words"), [
    ("Mozilla/5.0 (X11; Linux x86_64; rv:144.0) Gecko/20100101 Firefox/144.0", "Firefox on Linux"),
    ("Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Version/18.0 Safari/604.1",
     "Safari on iPhone"),
    ("Mozilla/5.0 (Linux; Android 15) Chrome/140.0 Mobile Safari/537.36",
     "Chromium or Chrome on Android"),
    ("Mozilla/5.0 (Windows NT 10.0) Chrome/140.0 Safari/537.36 Edg/140.0", "Edge on Windows"),
    ("bench-script/2", "bench-script/2"), ("", "No name given"),
])
def test_a_browser_is_named_in_a_few_words(user_agent, words):
    assert browser_words(user_agent) == words
