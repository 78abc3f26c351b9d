"""Which workers are alive: each says so every half second, to the table that all share."""
from django.core.cache import caches
from django_q.conf import Conf
from django_q.signing import BadSignature, SignedPackage


def workers_alive():
    """What each cluster of workers said of itself in the last three seconds."""
    return [said for said in map(_opened, _said()) if said is not None]


def workers_at_work() -> int:
    """How many jobs can be done at the same time."""
    return sum(len(each.workers) for each in workers_alive())


def other_keys() -> int:
    """How many clusters sign with a key that is not ours."""
    return sum(_opened(each) is None for each in _said())


def _said():
    cache = caches[Conf.CACHE]
    names = cache.get(Conf.Q_STAT) or []
    return [said for said in cache.get_many(names).values() if said]


def _opened(said):
    try:
        return SignedPackage.loads(said)
    except BadSignature:
        return None
