"""Page objects: what a template needs, in words, rows and drawings."""
