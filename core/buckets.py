"""Limits on how often: each a bucket in the database that fills up as time passes.

One conditional UPDATE takes from a bucket, so that any number of processes together never take
more than it holds. Take before the work and outside of its transaction: a change that is given up
counts all the same, and nobody waits for the row meanwhile.
"""
import ipaddress
import math
from collections.abc import Callable
from functools import wraps
from time import time

from django.conf import settings
from django.db.models import F, FloatField, Value
from django.db.models.functions import Greatest, Least
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.crypto import salted_hmac

from core.models import Bucket

Limit = tuple[float, float]             # how many, and the seconds in which as many come back
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
FORGOTTEN = 3 * DAY         # longer than any limit: a bucket left alone as long is full


def take(bucket_name: str, key: object, amount: float, per: float, cost: float = 1,
         now: float | None = None) -> int:
    """Take `cost` out of a bucket of `amount` that fills up in `per` seconds.

    0 when it was taken, else the seconds after which it can be. `key` is whose bucket: a person's
    number, a network, or "" for the whole site. A clock that jumps back fills nothing.
    """
    if not 0 < cost <= amount:
        raise ValueError(f"{cost} never fits into {bucket_name}, which holds {amount}.")
    now, rate = time() if now is None else now, amount / per
    bucket = Bucket.objects.filter(name=bucket_name, owner=_owner(bucket_name, key))
    if _take(bucket, amount, rate, cost, now):
        return 0
    Bucket.objects.bulk_create(
        [Bucket(name=bucket_name, owner=_owner(bucket_name, key), left=amount, at=now)],
        ignore_conflicts=True)
    if _take(bucket, amount, rate, cost, now):
        return 0
    left, at = bucket.values_list("left", "at").get()
    return max(1, math.ceil((cost - left) / rate + at - now))


def left_of(bucket_name: str, key: object, amount: float, per: float, now: float) -> float:
    """How much of a bucket is left; nothing is taken."""
    bucket = Bucket.objects.filter(name=bucket_name, owner=_owner(bucket_name, key))
    for left, at in bucket.values_list("left", "at"):
        return min(amount, left + max(now - at, 0.0) * amount / per)
    return amount


def _take(bucket, amount, rate, cost, now):
    elapsed = Greatest(Value(now, FloatField()) - F("at"), Value(0.0))
    filled = Least(F("left") + elapsed * Value(rate, FloatField()), Value(float(amount)))
    return bucket.alias(filled=filled).filter(filled__gte=cost).update(
        left=filled - cost, at=Greatest(F("at"), Value(now, FloatField())))


def _owner(bucket_name, key):
    return salted_hmac(f"core.buckets.{bucket_name}", str(key), algorithm="sha256").hexdigest()


def sweep_buckets() -> int:
    """Forget buckets that have long been full: how many."""
    return Bucket.objects.filter(at__lt=time() - FORGOTTEN).delete()[0]


def network_of(request: HttpRequest) -> str:
    """The network that a request comes from: an IPv4 address, or the /64 of an IPv6 one.

    Behind a proxy it is what the outermost of our own proxies saw, counted from the right of
    `X-Forwarded-For`: what a client wrote there itself stands further left and is not believed.
    """
    seen = [request.META.get("REMOTE_ADDR", "")]
    if settings.PROXIES:
        forwarded = request.META.get("HTTP_X_FORWARDED_FOR", "")
        seen = [part for part in forwarded.split(",") if part.strip()] + seen
    try:
        address = ipaddress.ip_address(seen[-1 - min(settings.PROXIES, len(seen) - 1)].strip())
    except ValueError:
        return "unknown"
    if isinstance(address, ipaddress.IPv4Address):
        return str(address)
    return str(address.ipv4_mapped or ipaddress.ip_network((int(address), 64), strict=False))


def limited(bucket_name: str, *, account: Limit | None = None, network: Limit | None = None,
            site: Limit | None = None, methods: tuple[str, ...] = ("POST",)) -> Callable:
    """Decorate a view, outermost: an account, a network, the site have a bucket each.

    Beyond it the answer is 429 with Retry-After, and a page that says when to come back.
    """
    def decorate(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
        @wraps(view)
        def counted(request, *args, **kwargs):
            if request.method not in methods:
                return view(request, *args, **kwargs)
            person = request.user.pk if request.user.is_authenticated else None
            owners = {"account": (account if person else None, person),
                      "network": (network, network_of(request)), "site": (site, "")}
            for kind, (limit, owner) in owners.items():
                if limit and (wait := take(f"{bucket_name}/{kind}", owner, *limit)):
                    return too_many(request, wait)
            return view(request, *args, **kwargs)
        return counted
    return decorate


def too_many(request: HttpRequest, wait: int) -> HttpResponse:
    """429, with the seconds to wait in Retry-After and in words."""
    response = render(request, "core/too_often.html", {"wait": _in_words(wait)}, status=429)
    response.headers["Retry-After"] = str(wait)
    return response


def _in_words(seconds):
    for unit, size in (("hour", HOUR), ("minute", MINUTE)):
        if seconds > size:
            return f"{math.ceil(seconds / size)} {unit}s"
    return f"{seconds} second{'s' if seconds != 1 else ''}"
