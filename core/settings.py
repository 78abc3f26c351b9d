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
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", ["localhost", "127.0.0.1", "[::1]"])
CSRF_TRUSTED_ORIGINS: list[str] = env.list("CSRF_TRUSTED_ORIGINS", [])
HTTPS = env.bool("HTTPS", False)

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
    "core.accounts",
    "core",
    "teardowns",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "core.headers.extra_headers",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
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
            "context_processors": [
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
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}", "OPTIONS": options}
    for name, options in (
        ("MinimumLengthValidator", {"min_length": 12}),
        ("UserAttributeSimilarityValidator", {}),
        ("CommonPasswordValidator", {}),
    )
]
LOGIN_URL = "sign_in"
LOGIN_REDIRECT_URL = "front_page"
LOGOUT_REDIRECT_URL = "front_page"

LANGUAGE_CODE = "en"
TIME_ZONE = "UTC"
USE_I18N = False
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = DATA_DIR / "static"
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
    return {"BACKEND": "storages.backends.s3.S3Storage", "OPTIONS": {
        "bucket_name": S3_BUCKET, "location": folder, "endpoint_url": S3_ENDPOINT or None,
        "default_acl": "private", "file_overwrite": True,
        "max_memory_size": SPOOLED}}


STORAGES = {
    "default": private("media"),
    "originals": private("originals"),      # as they came in, never served to the public
    "pictures": private("pictures"),        # what was derived from them
    "channels": private("channels"),        # the numbers that were read out of logs
    "staticfiles": {"BACKEND": "core.static_files.HashedStaticFiles"},
}

Q_CLUSTER = {
    "name": "underplate",
    "orm": "default",
    "workers": env.int("WORKERS", 1),
    "timeout": 120,
    "retry": 180,          # longer than the timeout: redelivered only after its worker died
    "max_attempts": 5,
    "catch_up": False,
}

SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_NAME = "__Host-session" if HTTPS else "session"
CSRF_COOKIE_NAME = "__Host-csrf" if HTTPS else "csrf"
CSRF_COOKIE_SAMESITE = "Lax"
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = 2 * 365 * 86400 if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = HTTPS
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
if env.bool("BEHIND_PROXY", False):
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000        # a bench sheet with many rows is one form

LOG_LEVEL = env.str("LOG_LEVEL", "INFO", validate=OneOf(["DEBUG", "INFO", "WARNING", "ERROR"]))
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    "root": {"handlers": ["console"], "level": LOG_LEVEL},
    "loggers": {"django-q": {"level": "WARNING"}},       # it greets at every start
}

from core.headers import CONTENT_SECURITY_POLICY  # noqa: E402,F401
