"""The store: one SQLite file in the user's data folder, behind the ports of the shelf."""
