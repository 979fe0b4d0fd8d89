"""Halfpail: fertilizer by the scoop, worked out."""

__version__ = "0.1.0"
