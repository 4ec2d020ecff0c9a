"""Versions of a pattern, compared by what their rows make and not by their letters."""
