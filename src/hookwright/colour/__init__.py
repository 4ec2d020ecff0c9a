"""In which order do the colours lie, and how many rows has each stripe?

The entry is `planning.colour_plan`. What is computed of the colours themselves comes from
coloraide, which is brought in only when a plan is made; `check` never needs it.
"""
