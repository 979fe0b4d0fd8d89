"""The first form, as it is."""

from importlib import import_module

Migration = import_module("halfpail.storage.migrations.0001_first").Migration
