"""The desk: the whole job in one page, served on this machine for its designer alone.

A face like the commands: it opens files, answers the page and holds no craft knowledge.
What it shows is computed by the stages above it, in processes of their own, so that the
page can always write, save and be closed.
"""
