"""Reference labels of canopy gaps, made by SciPy from a raster that this script draws itself.

Heights are whole decimetres, -1 where unknown, in blotches some cells wide. A gap is connected ground
(cells that share an edge) of at least 6 cells no higher than 2 m. Run it in this folder: it writes
heights.txt and labels.txt.
"""

import numpy as np
from scipy import ndimage

ROWS, COLUMNS = 60, 80
HIGHEST_OPEN = 20
FEWEST_CELLS = 6

rng = np.random.default_rng(20260612)
rough = ndimage.gaussian_filter(rng.normal(size=(ROWS, COLUMNS)), 1.1)
heights = np.clip(np.round(rough / rough.std() * 60 + 30), 0, None).astype(int)
heights[ndimage.gaussian_filter(rng.normal(size=(ROWS, COLUMNS)), 2) > 0.28] = -1

open_ground = (heights >= 0) & (heights <= HIGHEST_OPEN)
pieces, count = ndimage.label(open_ground)
sizes = np.bincount(pieces.ravel(), minlength=count + 1)

labels = np.zeros_like(pieces)
numbers, first_cells = np.unique(pieces, return_index=True)
kept = [n for _, n in sorted(zip(first_cells, numbers)) if n != 0 and sizes[n] >= FEWEST_CELLS]
for label, piece in enumerate(kept, start=1):
    labels[pieces == piece] = label

np.savetxt("heights.txt", heights, fmt="%d")
np.savetxt("labels.txt", labels, fmt="%d")
print(f"{count} pieces of open ground, {len(kept)} gaps, {np.count_nonzero(heights < 0)} unknown cells")
