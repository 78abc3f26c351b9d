"""All settings, read from the environment; the defaults run the embedded site on one machine."""
from pathlib import Path

from environs import Env
from marshmallow.validate import Length, OneOf

from core import sqlite

sqlite.use_bundled_engine()
import sqlite3  # noqa: E402  (after the engine is chosen)

env = Env()
BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = env.path("UNDERPLATE_DATA_DIR", BASE_DIR / ".data")

DEBUG = env.bool("DEBUG", False)
SECRET_KEY = env.str("SECRET_KEY", "", validate=[Length(max=500)])
if not SECRET_KEY:
    from core.secret import local_secret_key

    SECRET_KEY = local_secret_key(DATA_DIR)
# Former keys, which still open what they signed and locked; `manage.py rotate_key` renews it.
SECRET_KEY_FALLBACKS: list[str] = env.list("SECRET_KEY_FALLBACKS", [])
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", ["localhost", "127.0.0.1", "[::1]"])
CSRF_TRUSTED_ORIGINS: list[str] = env.list("CSRF_TRUSTED_ORIGINS", [])
HTTPS = env.bool("HTTPS", False)
PROXIES = 1 if env.bool("BEHIND_PROXY", False) else 0      # whose forwarded headers are believed

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_filters",
    "django_q",
    "csp",
    "simple_history",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "allauth.usersessions",
    "core.accounts",
    "core.audit",
    "core",
    "teardowns",
]
MIDDLEWARE = [
    "core.request_id.numbered_requests",
    "core.operation.requests.seen_requests",
    "django.middleware.security.SecurityMiddleware",
    "core.compressed.CompressedPages",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "core.headers.extra_headers",
    "core.overload.refuse_late",
    "core.overload.leave_threads_to_readers",
    "core.outages.read_again",
    "teardowns.api.middleware.SpokenInJson",
    "core.accounts.bearer.BearerToken",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "core.words.middleware.ReadersLanguage",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "core.accounts.middleware.end_old_sessions",
    "core.accounts.middleware.require_second_factor",
    "allauth.account.middleware.AccountMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "core.policy.RefuseUnstated",
]
ROOT_URLCONF = "core.urls"
WSGI_APPLICATION = "core.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "builtins": ["django.templatetags.i18n", "core.templatetags.said"],
            "context_processors": [
                "django.template.context_processors.i18n",
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    }
]

EMBEDDED = f"sqlite:///{DATA_DIR / 'underplate.sqlite3'}"
DATABASES = {"default": env.dj_db_url("DATABASE_URL", EMBEDDED)}
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    DATABASES["default"]["OPTIONS"] = sqlite.options(sqlite3.sqlite_version_info)
    DATABASES["default"]["CONN_MAX_AGE"] = None
else:
    DATABASES["default"]["CONN_MAX_AGE"] = env.int("DATABASE_CONNECTION_AGE", 60)
    DATABASES["default"]["CONN_HEALTH_CHECKS"] = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "accounts.User"
AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": name, "OPTIONS": options} for name, options in (
        ("django.contrib.auth.password_validation.MinimumLengthValidator", {"min_length": 12}),
        ("django.contrib.auth.password_validation.UserAttributeSimilarityValidator", {}),
        # Some 20 000 that leaked most often; a larger list has to lie on this disk.
        ("django.contrib.auth.password_validation.CommonPasswordValidator", {}),
        ("core.accounts.passwords.NotMadeOfSiteWords", {}),
        ("core.accounts.passwords.NotAPattern", {}),
    )
]
LOGIN_URL = "sign_in"
LOGIN_REDIRECT_URL = "front_page"
LOGOUT_REDIRECT_URL = "front_page"

ACCOUNT_ADAPTER = "core.accounts.adapter.AccountAdapter"
ACCOUNT_FORMS = {
    "login": "core.accounts.forms.SignInForm",
    "signup": "core.accounts.forms.SignUpForm",
    "add_email": "core.accounts.forms.ChangeAddressForm",
    "change_password": "core.accounts.forms.ChangePasswordForm",
    "reset_password": "core.accounts.forms.ResetPasswordForm",
    "reset_password_from_key": "core.accounts.forms.ResetPasswordKeyForm",
    "reauthenticate": "core.accounts.forms.ConfirmPasswordForm",
}
ACCOUNT_LOGIN_METHODS = {"username", "email"}
ACCOUNT_SIGNUP_FIELDS = ["username*", "email*", "password1*"]
ACCOUNT_EMAIL_VERIFICATION = "mandatory"        # nobody signs in with an address not confirmed
ACCOUNT_CHANGE_EMAIL = True
ACCOUNT_EMAIL_NOTIFICATIONS = True
ACCOUNT_EMAIL_SUBJECT_PREFIX = "[Underplate] "
ACCOUNT_EMAIL_UNKNOWN_ACCOUNTS = True           # else the time of sending would tell
ACCOUNT_REAUTHENTICATION_REQUIRED = True
ACCOUNT_SESSION_REMEMBER = True                 # core.accounts.sessions ends them
ACCOUNT_USERNAME_VALIDATORS = "core.accounts.names.VALIDATORS"
ALLAUTH_TRUSTED_PROXY_COUNT = PROXIES

MFA_ADAPTER = "core.accounts.adapter.SecondFactorAdapter"
MFA_FORMS = {
    "authenticate": "core.accounts.forms.CodeForm",
    "reauthenticate": "core.accounts.forms.ConfirmCodeForm",
    "activate_totp": "core.accounts.forms.SetUpAppForm",
    "add_webauthn": "core.accounts.forms.AddKeyForm",
}
MFA_SUPPORTED_TYPES = ["totp", "webauthn", "recovery_codes"]
MFA_PASSKEY_LOGIN_ENABLED = True
MFA_TOTP_ISSUER = "Underplate"
MFA_TOTP_TOLERANCE = 0      # used codes are remembered for one step: more would allow them twice
# Nobody gets this far without a confirmed address; only a change of it may be pending.
MFA_ALLOW_UNVERIFIED_EMAIL = True

# Attempts are counted where every process sees them; the table is made by `migrate`.
CACHES = {"default": {
    "BACKEND": "django.core.cache.backends.db.DatabaseCache", "LOCATION": "cache",
    "OPTIONS": {"MAX_ENTRIES": 20_000},
}}

# Without a mail server of yours, messages are files in the data directory.
EMAIL_CONFIG = env.dj_email_url("EMAIL_URL", f"file:///{DATA_DIR / 'mail'}")
vars().update(EMAIL_CONFIG)
DEFAULT_FROM_EMAIL = SERVER_EMAIL = env.str("EMAIL_FROM", "Underplate <underplate@localhost>")
EMAIL_TIMEOUT = 15
SITE_URL = env.str("SITE_URL", "http://localhost:8000").rstrip("/")     # as e-mails name it

LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English"), ("de", "Deutsch")]
LOCALE_PATHS = [BASE_DIR / "core" / "locale"]
LANGUAGE_COOKIE_NAME = "__Host-language" if HTTPS else "language"
LANGUAGE_COOKIE_SECURE = HTTPS
FORM_RENDERER = "core.words.form_renderer.SaidForms"
TIME_ZONE = "UTC"
USE_I18N = True
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = env.path("STATIC_ROOT", DATA_DIR / "static")
STATICFILES_DIRS = [BASE_DIR / "static"]
STATICFILES_FINDERS = [
    "django.contrib.staticfiles.finders.FileSystemFinder",
    "django.contrib.staticfiles.finders.AppDirectoriesFinder",
    "core.package_files.PackageFilesFinder",
]
INCOMING = DATA_DIR / "incoming"           # files that are still arriving or being checked
COPIES = DATA_DIR / "copies"               # of files of the bucket, while they are read here
COPIES_BYTES = env.int("COPIES_BYTES", 4_000_000_000)       # those used longest ago go first
S3_BUCKET = env.str("S3_BUCKET", "")
S3_ENDPOINT = env.str("S3_ENDPOINT", "")
SPOOLED = 1 << 20          # bytes of a file of the bucket in memory; beyond, it goes by the disk


def private(folder):
    """A storage whose files no address of the site leads to: a folder, or a bucket's prefix.

    Who may use the bucket, AWS_ACCESS_KEY_ID and AWS_SECRET_ACCESS_KEY say in the environment.
    """
    if not S3_BUCKET:
        return {"BACKEND": "core.durable_storage.DurableStorage",
                "OPTIONS": {"location": DATA_DIR / folder, "base_url": None}}
    return {"BACKEND": "core.object_storage.ObjectStorage", "OPTIONS": {
        "bucket_name": S3_BUCKET, "location": folder, "endpoint_url": S3_ENDPOINT or None,
        "default_acl": "private", "file_overwrite": True,
        "max_memory_size": SPOOLED}}


STORAGES = {
    "default": private("media"),
    "originals": private("originals"),      # as they came in, never served to the public
    "pictures": private("pictures"),        # what was derived from them
    "channels": private("channels"),        # the numbers that were read out of logs
    "printouts": private("printouts"),      # records on paper, made anew when they are wanted
    "exports": private("exports"),          # bulk data
    "staticfiles": {"BACKEND": "core.static_files.HashedStaticFiles"},
}

Q_CLUSTER = {
    "name": "underplate",
    "orm": "default",
    "workers": env.int("WORKERS", 1),
    "timeout": 120,
    "retry": 180,          # s after which one that failed is tried again
    "broker_class": "core.leased_jobs.LeasedJobs",
    "max_attempts": 5,
    "catch_up": False,
}

SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_AGE = 30 * 86400      # the longest; roles have shorter ones
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_NAME = "__Host-session" if HTTPS else "session"
CSRF_COOKIE_NAME = "__Host-csrf" if HTTPS else "csrf"
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "core.sent_forms.old_token"
MESSAGE_STORAGE = "core.said_once.SaidOnce"
SECURE_SSL_REDIRECT = HTTPS
SECURE_REDIRECT_EXEMPT = [r"^api/v1/",      # refused there: a program would go on sending in clear
                          r"^health/", r"^metrics$"]        # asked from beside, past the proxy
SECURE_HSTS_SECONDS = 2 * 365 * 86400 if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = HTTPS
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
if PROXIES:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
# Requests of the API in a minute: without a token, of a network; with one, of its owner; writes.
API_READS, API_READS_OF_OWNER, API_WRITES = (
    env.int("API_READS", 300), env.int("API_READS_OF_OWNER", 600), env.int("API_WRITES", 60))
# Searches on pages in a minute, of an account or a network, counted by each process.
SEARCHES = env.int("SEARCHES", 240)
# What one account may keep: bytes of photos and logs, and sheets that are open at once. A moderator
# gives more to who needs it. And how many files it may begin to send in an hour.
ACCOUNT_BYTES, ACCOUNT_SHEETS, UPLOADS = (
    env.int("ACCOUNT_BYTES", 5_000_000_000), env.int("ACCOUNT_SHEETS", 50),
    env.int("UPLOADS", 600))
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000        # a bench sheet with many rows is one form

METRICS_TOKEN = env.str("METRICS_TOKEN", "")        # with it a program reads /metrics
BACKUPS = env.path("BACKUPS", None)                 # where `doctor` looks how old the newest is

LOG_FORMAT = env.str("LOG_FORMAT", "text", validate=OneOf(["text", "json"]))
LOG_LEVEL = env.str("LOG_LEVEL", "INFO", validate=OneOf(["DEBUG", "INFO", "WARNING", "ERROR"]))
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"request": {"()": "core.request_id.WithRequest"},
                "paths": {"()": "core.operation.logs.WithoutPaths"}},
    "formatters": {"text": {"format": "{levelname} {name} [{request_id}] {message}", "style": "{"},
                   "json": {"()": "core.operation.logs.JsonLines"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": LOG_FORMAT,
                             "filters": ["request", "paths"]}},
    "root": {"handlers": ["console"], "level": LOG_LEVEL},
    "loggers": {"django-q": {"level": "WARNING"},        # it greets at every start
                "core.requests": {"level": "INFO" if LOG_FORMAT == "json" else "WARNING"},
                "bagit": {"level": "ERROR"}},            # and names every file that is whole
}

from core.headers import CONTENT_SECURITY_POLICY  # noqa: E402,F401
