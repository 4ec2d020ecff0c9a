"""Sheets to hand on, as Markdown, as a page and on paper."""
