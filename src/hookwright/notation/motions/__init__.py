"""Definitions in hook motions: words, then places and steps, then loops on the hook."""
