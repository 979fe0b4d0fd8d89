"""Steps from one form of the store's file to the next, in order."""
