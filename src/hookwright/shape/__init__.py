"""Where does every stitch lie, how large is the piece, and does it lie flat?

This is where numpy begins. Its linear algebra is told to keep to one thread before it is
imported: on matrices of this size further threads only wait for one another.
"""

from __future__ import annotations

import os

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
    os.environ.setdefault(_name, "1")
