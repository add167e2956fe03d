"""Reference labels of canopy gaps, made by SciPy from a raster that this script draws itself.

Cells of 1 m. Heights are whole decimetres, -1 where unknown, in blotches some cells wide, with four plots drawn on
them that lie at the limits of what is a gap. A gap is connected ground (cells that share an edge) of at least 25 m² no
higher than 2 m. Run it in this folder: it writes heights.txt, labels.txt and areas.txt.
"""

import numpy as np
from scipy import ndimage

ROWS, COLUMNS = 90, 120
HIGHEST_OPEN = 20
LEAST_AREA = 25

# '.' is open, '2' just 2 m high, '3' a decimetre higher, '?' unknown, '#' canopy
PLOTS = {  # by their north-west corner
    (4, 6): ["########", "#......#", "#.####.#", "#.#..#.#", "#.#.##.#",  # 25 cells wind
             "#.#....#", "#.######", "#.222#.#", "########"],
    (4, 40): ["#######", "#.....#", "#.....#", "#..3..#", "#.....#", "#.....#", "#######"],  # 24 cells, one too high
    (4, 70): ["#######", "#.....#", "#.....#", "#..?..#", "#.....#", "#.....#", "#######"],  # 24 cells, one unknown
    (70, 50): ["##########", "#....#####", "#....#####", "#....#####", "#....#####",  # 16 and 16 meet at a corner
               "#####....#", "#####....#", "#####....#", "#####....#", "##########"],
}
HEIGHTS = {".": 0, "2": 20, "3": 21, "?": -1, "#": 90}

rng = np.random.default_rng(20260612)
rough = ndimage.gaussian_filter(rng.normal(size=(ROWS, COLUMNS)), 1.4)
heights = np.clip(np.round(rough / rough.std() * 60 + 35), 0, None).astype(int)
heights[ndimage.gaussian_filter(rng.normal(size=(ROWS, COLUMNS)), 2) > 0.28] = -1
for (top, left), rows in PLOTS.items():
    drawn = np.array([[HEIGHTS[letter] for letter in row] for row in rows])
    heights[top:top + drawn.shape[0], left:left + drawn.shape[1]] = drawn

open_ground = (heights >= 0) & (heights <= HIGHEST_OPEN)
pieces, count = ndimage.label(open_ground)
sizes = np.bincount(pieces.ravel(), minlength=count + 1)

labels = np.zeros_like(pieces)
numbers, first_cells = np.unique(pieces, return_index=True)
kept = [n for _, n in sorted(zip(first_cells, numbers)) if n != 0 and sizes[n] >= LEAST_AREA]
for label, piece in enumerate(kept, start=1):
    labels[pieces == piece] = label
areas = ndimage.sum_labels(open_ground, labels, np.arange(1, len(kept) + 1)).astype(int)

np.savetxt("heights.txt", heights, fmt="%d")
np.savetxt("labels.txt", labels, fmt="%d")
np.savetxt("areas.txt", areas, fmt="%d")
_, by_corners = ndimage.label(open_ground, structure=np.ones((3, 3)))
print(f"{count} pieces of open ground ({by_corners} if corners joined them), {len(kept)} gaps, "
      f"{np.count_nonzero(areas == LEAST_AREA)} of just {LEAST_AREA} m², {np.count_nonzero(heights < 0)} unknown cells")
print("plots: label and open cells", [(int(labels[t + 1, l + 1]), int(sizes[pieces[t + 1, l + 1]])) for t, l in PLOTS])
