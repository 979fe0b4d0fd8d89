"""The trade itself: pure functions and frozen values, no table look-ups, no clock, no files."""
