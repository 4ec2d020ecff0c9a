"""Answers to what makers ask of a published pattern, each with its working shown."""
