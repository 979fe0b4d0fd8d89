"""Spreadsheets from anywhere, opened in a process of its own that can do no harm."""
