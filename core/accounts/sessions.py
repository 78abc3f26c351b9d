"""How long a session lasts, and how sessions end."""
from datetime import timedelta

from allauth.usersessions.models import UserSession
from django.utils import timezone

from core import clock
from core.accounts.models import TRUSTED, Role

STARTED, SEEN = "signed_in_at", "seen_at"      # session keys, in seconds since the epoch
# Idle and absolute: OWASP ASVS 5.0.0, 7.3.1 and 7.3.2, ask for both; the spans are our own.
CONTRIBUTOR = (timedelta(days=14), timedelta(days=30))
TRUSTED_ROLE = (timedelta(hours=8), timedelta(hours=12))
LIMITS = {role: TRUSTED_ROLE if role in TRUSTED else CONTRIBUTOR for role in Role}
NOTED_EVERY = 1 / 32        # of the idle span: how exactly use is noted, for each note is a write


def start(session):
    session[STARTED] = session[SEEN] = clock.now().timestamp()


def why_over(session, role):
    """What ends the session now, as words for its owner; empty while it lasts."""
    idle, absolute = LIMITS[role]
    now = clock.now().timestamp()
    if now - session.get(STARTED, now) > absolute.total_seconds():
        return f"You were signed out: a session lasts {_words(absolute)} at most."
    if now - session.get(SEEN, now) > idle.total_seconds():
        return f"You were signed out after {_words(idle)} without a visit."
    return ""


def note_use(session, role):
    """Note that the session is in use, now and then."""
    idle, _ = LIMITS[role]
    if STARTED not in session:
        start(session)
    elif (now := clock.now().timestamp()) - session[SEEN] > idle.total_seconds() * NOTED_EVERY:
        session[SEEN] = now
        UserSession.objects.filter(session_key=session.session_key).update(
            last_seen_at=timezone.now())


def renew_key(request):
    """A new name for the session, when more is trusted to it than before."""
    old = request.session.session_key
    request.session.cycle_key()
    UserSession.objects.filter(session_key=old).update(session_key=request.session.session_key)


def end_sessions(user, but=None):
    """End every session of a person, or every one but that key."""
    for session in UserSession.objects.filter(user=user).exclude(session_key=but or ""):
        session.end()


def _words(span):
    return f"{span.days} days" if span.days else f"{span.seconds // 3600} hours"
