"""Files to be saved: every browser is told so, and shows none of them as a page."""

from django.http import HttpResponse

KINDS = {
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "zip": "application/zip",
    "json": "application/json",
    "toml": "application/toml; charset=utf-8",
    "sqlite3": "application/vnd.sqlite3",
    "ics": "text/calendar; charset=utf-8",
}


def download(content: bytes | str, name: str) -> HttpResponse:
    """A file to be saved under a name, whose ending tells its kind."""
    response = HttpResponse(content, content_type=KINDS[name.rpartition(".")[2]])
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response
