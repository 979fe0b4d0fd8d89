"""Use cases, one per file, named by their verb."""
