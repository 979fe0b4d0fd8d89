"""Paper and calendar: pages of words turned into PDF and calendar files."""
