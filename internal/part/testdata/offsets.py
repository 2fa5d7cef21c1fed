"""Offsets of regions by shapely (GEOS), a general-purpose geometry library, for the test
of offsets and of the kerf allowance.

Standard input has one JSON object a line: "d", the distance, and "rings", the outline
and the holes as lists of points. Standard output has one line for each: the area of
the offset with round corners, the number of its pieces, and the number of their holes;
pieces and holes under "least" in area are not counted.
"""
import json
import sys

from shapely.geometry import Polygon

ROUND = 48  # chords to a quarter circle: areas of round corners to 2e-4 of themselves

for line in sys.stdin:
    case = json.loads(line)
    rings = case["rings"]
    out = Polygon(rings[0], rings[1:]).buffer(case["d"], resolution=ROUND, join_style=1)
    pieces = [p for p in getattr(out, "geoms", [out]) if p.area > case["least"]]
    holes = [h for p in pieces for h in p.interiors if Polygon(h).area > case["least"]]
    print(out.area, len(pieces), len(holes))
