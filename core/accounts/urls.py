"""Every address about an account. What allauth offers and we do not use has none."""
from allauth.account import views as accounts
from allauth.mfa.base import views as factors
from allauth.mfa.recovery_codes import views as codes
from allauth.mfa.totp import views as app
from allauth.mfa.webauthn import views as keys
from allauth.usersessions import views as sessions
from django.urls import path

from core.accounts.views import account, delete, export, second_factor, tokens

entrance_urls = [
    path("sign-in/", accounts.login, name="sign_in"),
    path("sign-in/", accounts.login, name="account_login"),         # as allauth calls it
    path("sign-in/second-factor/", factors.authenticate, name="mfa_authenticate"),
    path("sign-in/passkey/", keys.login_webauthn, name="mfa_login_webauthn"),
    path("sign-out/", accounts.logout, name="sign_out"),
    path("sign-out/", accounts.logout, name="account_logout"),
    path("sign-up/", accounts.signup, name="account_signup"),
    path("sign-up/confirm/", accounts.email_verification_sent,
         name="account_email_verification_sent"),
    path("sign-up/confirm/<str:key>/", accounts.confirm_email, name="account_confirm_email"),
    path("password/", accounts.password_reset, name="account_reset_password"),
    path("password/sent/", accounts.password_reset_done, name="account_reset_password_done"),
    path("password/new/<str:uidb36>/<str:key>/", accounts.password_reset_from_key,
         name="account_reset_password_from_key"),
    path("password/changed/", accounts.password_reset_from_key_done,
         name="account_reset_password_from_key_done"),
]
account_urls = [
    path("account/", account.account, name="account"),
    path("account/closed/", accounts.account_inactive, name="account_inactive"),
    path("account/address/", accounts.email, name="account_email"),
    path("account/password/", accounts.password_change, name="account_change_password"),
    path("account/sessions/", sessions.list_usersessions, name="usersessions_list"),
    path("account/confirm/", accounts.reauthenticate, name="account_reauthenticate"),
    path("account/tokens/", tokens.account_tokens, name="account_tokens"),
    path("account/export/", export.account_export, name="account_export"),
    path("account/delete/", delete.account_delete, name="account_delete"),
]
second_factor_urls = [
    path("second-factor/", second_factor.second_factor, name="second_factor"),
    path("account/second-factor/", factors.index, name="mfa_index"),
    path("account/second-factor/confirm/", factors.reauthenticate, name="mfa_reauthenticate"),
    path("account/second-factor/app/", app.activate_totp, name="mfa_activate_totp"),
    path("account/second-factor/app/remove/", app.deactivate_totp, name="mfa_deactivate_totp"),
    path("account/second-factor/codes/", codes.view_recovery_codes,
         name="mfa_view_recovery_codes"),
    path("account/second-factor/codes/new/", codes.generate_recovery_codes,
         name="mfa_generate_recovery_codes"),
    path("account/second-factor/codes/file/", codes.download_recovery_codes,
         name="mfa_download_recovery_codes"),
    path("account/second-factor/keys/", keys.list_webauthn, name="mfa_list_webauthn"),
    path("account/second-factor/keys/new/", keys.add_webauthn, name="mfa_add_webauthn"),
    path("account/second-factor/keys/confirm/", keys.reauthenticate_webauthn,
         name="mfa_reauthenticate_webauthn"),
    path("account/second-factor/keys/<int:pk>/", keys.edit_webauthn, name="mfa_edit_webauthn"),
    path("account/second-factor/keys/<int:pk>/remove/", keys.remove_webauthn,
         name="mfa_remove_webauthn"),
]
urlpatterns = entrance_urls + account_urls + second_factor_urls
ACCOUNT_PAGES = frozenset(pattern.name for pattern in urlpatterns)
