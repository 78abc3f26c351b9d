"""What a small document observes of one quantity."""
from teardowns.exchange.observations import observations
from tests.exchange.small import small


def seen(code, confirmed_only=False, **lists):
    return [one for one in observations(small(**lists), confirmed_only) if one.code == code]


def values(code, **lists):
    return [one.value for one in seen(code, **lists)]
