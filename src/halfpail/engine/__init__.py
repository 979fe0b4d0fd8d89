"""The season engine: mixes, whole bags and feedings together, with a proven bound."""
