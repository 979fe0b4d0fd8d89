"""Django's settings: this machine only, nothing from elsewhere, nothing inline.

`start.py` joins these to the store's own settings and adds the secret when the server starts, so
that reading them touches no file.
"""

from csp import constants as csp

DEBUG = False
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]
ROOT_URLCONF = "halfpail.web.urls"
APPEND_SLASH = False

INSTALLED_APPS = [
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",
    "django_htmx",
    "halfpail.web",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "halfpail.web.middleware.more_headers",
    "halfpail.web.middleware.check_host",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "halfpail.web.middleware.ask_for_code",
    "halfpail.web.middleware.refuse_other_sites",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "halfpail.web.middleware.Equip",
]

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "halfpail.web.navigation.around_the_page",
            ],
            "builtins": ["halfpail.web.templatetags.halfpail"],
        },
    }
]
FORM_RENDERER = "halfpail.web.forms.renderer.Renderer"

# ---- nothing from outside, nothing inline

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [csp.SELF],
        "script-src": [csp.SELF],
        "style-src": [csp.SELF],
        "img-src": [csp.SELF, "data:"],
        "connect-src": [csp.SELF],
        "object-src": [csp.NONE],
        "base-uri": [csp.NONE],
        "frame-ancestors": [csp.NONE],
        "form-action": [csp.SELF],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"

# ---- cookies: the session is signed and holds nothing but the last message

SESSION_ENGINE = "django.contrib.sessions.backends.signed_cookies"
SESSION_COOKIE_NAME = "halfpail_session"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_NAME = "halfpail_csrf"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "halfpail.web.faults.stale_form"

# ---- limits

DATA_UPLOAD_MAX_MEMORY_SIZE = 1_000_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 1000
DATA_UPLOAD_MAX_NUMBER_FILES = 5
FILE_UPLOAD_MAX_MEMORY_SIZE = 5_000_000

# ---- files that come with the package

STATIC_URL = "/static/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_ALLOW_ALL_ORIGINS = False
WHITENOISE_AUTOREFRESH = False
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.InMemoryStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}

# A page that fails says so on the terminal; the browser gets one plain sentence.
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"terminal": {"class": "logging.StreamHandler"}},
    "loggers": {"django": {"handlers": ["terminal"], "level": "ERROR", "propagate": False}},
}
