"""Words of the account pages."""
from django import template

register = template.Library()
# The order matters: most browsers name others beside themselves.
BROWSERS = (("Edg", "Edge"), ("OPR", "Opera"), ("Firefox", "Firefox"),
            ("Chrom", "Chromium or Chrome"), ("Safari", "Safari"))
SYSTEMS = (("Android", "Android"), ("iPhone", "iPhone"), ("iPad", "iPad"), ("Windows", "Windows"),
           ("Mac OS", "macOS"), ("CrOS", "ChromeOS"), ("Linux", "Linux"))


@register.filter
def browser_words(user_agent):
    """What a browser calls itself, in a few words; what is not known is quoted."""
    browser = _first(BROWSERS, user_agent)
    system = _first(SYSTEMS, user_agent)
    if not browser:
        return user_agent[:60] or "No name given"
    return f"{browser} on {system}" if system else browser


def _first(marks, text):
    return next((words for mark, words in marks if mark in text), "")
