"""`halfpail serve` of a program that knows a newer form of the store, killed while it changes it.

    python -m tests.cli.serve_a_new_form FOLDER STATEMENT

It dies before the STATEMENT-th statement of the change, counted from one.
"""

import sys

from django.db.backends.signals import connection_created

from halfpail.cli.main import main
from halfpail.storage import open_store, setup
from halfpail.web import settings
from tests.storage.children import DieBefore

SECOND = 2


def run(folder: str, statement: int) -> None:
    """Serve as a program of the second form would."""
    vars(settings)["MIGRATION_MODULES"] = {"storage": "tests.storage.steps"}
    for module in (setup, open_store):
        vars(module)["newest_version"] = lambda: SECOND
    dying = DieBefore(statement)

    def watch(connection, **named):
        connection.execute_wrappers.append(dying)

    connection_created.connect(watch)
    main(["serve", "--no-browser", "--folder", folder])


if __name__ == "__main__":
    run(sys.argv[1], int(sys.argv[2]))
