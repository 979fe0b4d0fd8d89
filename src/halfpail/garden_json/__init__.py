"""Whole gardens, and mixes and plans handed on, as JSON files with a version."""
