"""Starting the pages: one secret for each folder, kept to its owner."""

import stat

from halfpail.web.secret import secret_key
from halfpail.web.settings import ALLOWED_HOSTS, DEBUG
from halfpail.web.start import page_settings


def test_a_secret_is_made_once_and_kept_to_its_owner(tmp_path):
    folder = tmp_path / "new folder"
    secret = secret_key(folder)
    assert len(secret) >= 50
    assert secret_key(folder) == secret
    assert stat.S_IMODE((folder / "secret").stat().st_mode) == 0o600


def test_two_gardens_have_two_secrets(tmp_path):
    assert secret_key(tmp_path / "one") != secret_key(tmp_path / "two")


def test_the_shipped_settings_are_for_this_machine_alone():
    assert DEBUG is False
    assert ALLOWED_HOSTS == ["localhost", "127.0.0.1", "[::1]"]
    assert page_settings("told")["SECRET_KEY"] == "told"
