"""Django's settings as far as the store needs them; the place of the file is set on opening.

An entrance that serves pages adds its own to these when it starts.
"""

USE_TZ = True
TIME_ZONE = "UTC"
USE_I18N = False
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
INSTALLED_APPS = ["halfpail.storage"]

BUSY_SECONDS = 5.0

# Write-ahead logging lets pages read while a job writes; FULL makes what was acknowledged outlive a
# power cut; IMMEDIATE waits for a writer at the start instead of failing in the middle.
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": ":memory:",
        "CONN_MAX_AGE": None,
        "OPTIONS": {
            "timeout": BUSY_SECONDS,
            "transaction_mode": "IMMEDIATE",
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL",
        },
    }
}
