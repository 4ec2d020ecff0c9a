"""Sheets to hand on: headings, sentences and tables, as Markdown, as a page and on paper."""
