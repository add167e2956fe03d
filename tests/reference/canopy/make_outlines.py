"""Reference outlines of canopy gaps: labels.txt as polygons, made by GDAL from cells that share an edge.

Run it in this folder, after make_labels.py, with /usr/bin/python3 (Debian: python3-gdal). It writes outlines.txt: a gap a
line, its number, its area, the length of its outlines, how many holes it has, and in order its vertices where an outline
turns, x to the east and y to the north of the south-west corner.
"""

import numpy as np
from osgeo import gdal, ogr

gdal.UseExceptions()
labels = np.loadtxt("labels.txt", dtype=np.int32)
rows, columns = labels.shape
raster = gdal.GetDriverByName("MEM").Create("", columns, rows, 1, gdal.GDT_Int32)
raster.SetGeoTransform((0, 1, 0, rows, 0, -1))
raster.GetRasterBand(1).WriteArray(labels)
source = ogr.GetDriverByName("Memory").CreateDataSource("")
layer = source.CreateLayer("gaps")
layer.CreateField(ogr.FieldDefn("gap", ogr.OFTInteger))
gdal.Polygonize(raster.GetRasterBand(1), None, layer, 0)


def turns(ring):
    points = [ring.GetPoint_2D(i) for i in range(ring.GetPointCount() - 1)]
    around = zip(points[-1:] + points[:-1], points, points[1:] + points[:1])
    return [b for a, b, c in around if (b[0] - a[0]) * (c[1] - b[1]) != (b[1] - a[1]) * (c[0] - b[0])]


lines = []
for feature in layer:
    if feature["gap"] == 0:
        continue
    polygon = feature.GetGeometryRef()
    assert polygon.IsValid()
    rings = [polygon.GetGeometryRef(i) for i in range(polygon.GetGeometryCount())]
    vertices = sorted(point for ring in rings for point in turns(ring))
    numbers = [feature["gap"], polygon.GetArea(), polygon.Boundary().Length(), len(rings) - 1]
    lines.append([int(n) for n in numbers] + [int(n) for point in vertices for n in point])
with open("outlines.txt", "w") as out:
    for line in sorted(lines):
        print(*line, file=out)
print(f"{len(lines)} gaps, {sum(line[3] for line in lines)} holes")
