"""What does the work look like: symbol charts, outlines with measures, stripes, fabric?"""

import hookwright.shape  # noqa: F401 - says how many threads numpy takes, before numpy is there
