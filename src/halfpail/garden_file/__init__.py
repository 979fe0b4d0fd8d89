"""The garden as one TOML file that a person can write by hand."""
