"""Hookwright: reads a written crochet pattern and works every stitch of it."""

__version__ = "0.1.0"
