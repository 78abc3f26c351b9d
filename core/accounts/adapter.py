"""Where the site differs from what allauth does by itself."""
import qrcode
from allauth.account.adapter import DefaultAccountAdapter
from allauth.mfa.adapter import DefaultMFAAdapter
from allauth.mfa.models import Authenticator
from django.urls import reverse
from django.utils.html import format_html

from core.accounts import devices
from core.mail import Lasting
from core.sealed import box

PURPOSE = "second factor"

WRONG_PAIR = ("This name and password do not belong together. Both tell capital from small "
              "letters: check Caps Lock, then try again.")
TOO_MANY = "Too many tries in a short time. Wait some minutes, then try again."


class AccountAdapter(DefaultAccountAdapter):
    error_messages = DefaultAccountAdapter.error_messages | {
        "username_password_mismatch": WRONG_PAIR,
        "email_password_mismatch": WRONG_PAIR,
        "too_many_login_attempts": TOO_MANY,
        "rate_limited": TOO_MANY,
        "incorrect_password": "This is not your password. Check Caps Lock, then try again.",
        "enter_current_password": "This is not your present password. Check Caps Lock.",
        "username_taken": "Somebody has this name already. Choose another.",
        "same_as_current": "This is the address that you have now.",
    }

    def pre_login(self, request, user, **how):
        request.signed_in_before = user.last_login is not None
        return super().pre_login(request, user, **how)

    def _get_login_attempts_cache_key(self, request, **credentials):
        """A browser in which the owner signed in before counts its own wrong passwords."""
        key = super()._get_login_attempts_cache_key(request, **credentials)
        login = credentials.get("email", credentials.get("username", ""))
        browser = devices.browser_known_to(request, login)
        return f"{key}:{browser}" if browser else key

    def render_mail(self, *args, **kwargs):
        """A mail server that is away keeps nobody from signing up: the message goes out later."""
        message = super().render_mail(*args, **kwargs)
        message.connection = Lasting()
        return message

    def get_reset_password_from_key_url(self, key):
        uid, _, secret = key.partition("-")
        return self.request.build_absolute_uri(
            reverse("account_reset_password_from_key", args=[uid, secret]))

    def get_password_change_redirect_url(self, request):
        return reverse("account")

    def get_email_verification_redirect_url(self, email_address):
        return reverse("account" if self.request.user.is_authenticated else "sign_in")


class SecondFactorAdapter(DefaultMFAAdapter):
    error_messages = DefaultMFAAdapter.error_messages | {
        "incorrect_code": "This code does not fit. Each is good once and for a short time: "
                          "wait for the next, and check that the clock of your device is right.",
    }

    def encrypt(self, text):
        return box(PURPOSE).encrypt(text.encode()).decode()

    def decrypt(self, encrypted_text):
        return box(PURPOSE).decrypt(encrypted_text.encode()).decode()

    def _get_user_identifier(self, user):
        """The public name: what a device lists must not give the address away."""
        return user.username

    def _get_site_name(self):
        return "Underplate"

    def generate_authenticator_name(self, user, type):
        return f"Key {Authenticator.objects.filter(user=user, type=type).count() + 1}"

    def build_totp_svg(self, url):
        """The square code as one path, for pages here carry no pictures in their addresses."""
        code = qrcode.QRCode(border=4)
        code.add_data(url)
        rows = code.get_matrix()
        dark = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows)
                       for x, is_dark in enumerate(row) if is_dark)
        return format_html(
            '<svg class="square-code" viewBox="0 0 {0} {0}" role="img" '
            'aria-label="Square code for an authenticator app; the key below says the same">'
            '<rect width="{0}" height="{0}"/><path d="{1}"/></svg>', len(rows), dark)

