"""Shipped tables, their passports and the bibliography, read into domain values."""
