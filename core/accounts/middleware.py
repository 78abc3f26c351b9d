"""What stands between a session and its person: its age, and the second factor."""
from django.contrib import messages
from django.contrib.auth import logout

from core.accounts import second_factor, sessions
from core.accounts.models import TRUSTED


def end_old_sessions(get_response):
    """Middleware: nobody stays signed in beyond what the role allows; whoever was is told."""

    def middleware(request):
        user = request.user
        if user.is_authenticated:
            over = sessions.why_over(request.session, user.role)
            if over:
                logout(request)
                messages.info(request, f"{over} Sign in again to go on.")
            else:
                sessions.note_use(request.session, user.role)
        return get_response(request)

    return middleware


def require_second_factor(get_response):
    """Middleware: without one in this session, a trusted person acts as a contributor."""

    def middleware(request):
        user = request.user
        if user.is_authenticated and user.role in TRUSTED:
            user.acts_in_role = second_factor.has_passed(request)
        return get_response(request)

    return middleware
