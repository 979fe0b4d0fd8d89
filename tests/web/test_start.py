"""Starting the pages: for this machine alone."""

from halfpail.web.settings import ALLOWED_HOSTS, DEBUG
from halfpail.web.start import page_settings


def test_the_shipped_settings_are_for_this_machine_alone():
    assert DEBUG is False
    assert ALLOWED_HOSTS == ["localhost", "127.0.0.1", "[::1]"]
    assert page_settings("told")["SECRET_KEY"] == "told"
