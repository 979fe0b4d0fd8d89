"""A garden of our own invention, so that everything can be tried before a bag is bought."""
