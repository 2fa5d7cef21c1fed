"""Measures DXF drawings with ezdxf, for the tests of the DXF reader.

reference.py write DIR        writes a drawing for each DXF version and DIR/expected.json
reference.py read FILE...     prints what the drawings hold as JSON
reference.py paths DIR        writes DIR/kinds.dxf, a layer for each kind of entity, and
                              DIR/paths.json, the points of ezdxf's own paths of each layer

Each layer of a drawing is one case; its figures are the total length, the total of the
absolute areas (open lines closed by a chord), the box, and the colours.
"""
import json
import math
import os
import sys

import ezdxf
from ezdxf import disassemble
from ezdxf.math import Vec3, closed_uniform_bspline, rational_bspline_from_arc

SAG = 1e-4  # how closely curves are followed, in drawing units


def points(e):
    """World points of an entity that draws a line, curves flattened; None for others."""
    kind = e.dxftype()
    if kind == "LINE":
        return [e.dxf.start, e.dxf.end]
    if kind in ("ARC", "CIRCLE"):
        return list(e.flattening(SAG))
    if kind == "ELLIPSE":
        return list(e.flattening(SAG, segments=16))
    if kind == "SPLINE":
        return list(e.construction_tool().flattening(SAG, segments=16))
    if kind == "LWPOLYLINE" or (kind == "POLYLINE" and e.is_2d_polyline):
        return chain([points(part) for part in e.virtual_entities()])
    if kind == "POLYLINE" and e.is_3d_polyline:
        out = list(e.points())
        return out + [out[0]] if e.is_closed else out
    return None


def chain(parts):
    """One list of points; mirrored parts come out running backwards."""
    out = parts[0]
    if len(parts) > 1 and min(out[-1].distance(p) for p in (parts[1][0], parts[1][-1])) > 1e-6:
        out.reverse()
    for pts in parts[1:]:
        if pts[0].distance(out[-1]) > pts[-1].distance(out[-1]):
            pts.reverse()
        out += pts[1:]
    return out


def measure(doc):
    layers = {}
    drawn = ((top.dxf.layer, e) for top in doc.modelspace() for e in disassemble.recursive_decompose([top]))
    for layer, e in drawn:
        pts = points(e)
        if pts is None:
            continue
        pts = [Vec3(p.x, p.y) for p in pts]
        f = layers.setdefault(layer, {"length": 0, "area": 0, "box": [math.inf, math.inf, -math.inf, -math.inf], "colours": []})
        f["length"] += sum(a.distance(b) for a, b in zip(pts, pts[1:]))
        f["area"] += abs(sum(a.x * b.y - a.y * b.x for a, b in zip(pts, pts[1:] + pts[:1]))) / 2
        b = f["box"]
        f["box"] = [min([b[0]] + [p.x for p in pts]), min([b[1]] + [p.y for p in pts]),
                    max([b[2]] + [p.x for p in pts]), max([b[3]] + [p.y for p in pts])]
        f["colours"].append(e.rgb and "#%02x%02x%02x" % e.rgb or str(e.dxf.color))
    return {"version": doc.dxfversion, "insunits": doc.header.get("$INSUNITS", 0), "layers": layers}


def draw(version):
    doc = ezdxf.new(version)
    m = doc.modelspace()
    new = version != "R12"
    if new:
        doc.header["$INSUNITS"] = {"R2000": 4, "R2004": 1, "R2007": 5, "R2010": 6, "R2013": 4, "R2018": 9}[version]
    on = lambda layer, **kw: dict(layer=layer, **kw)
    down = (0, 0, -1)
    m.add_line((1, 2), (11, 7), dxfattribs=on("line", color=1))
    m.add_line((1, 2, 5), (11, 7, -5), dxfattribs=on("line in space"))
    m.add_circle((20, 10), 7.5, dxfattribs=on("circle", color=3))
    m.add_circle((20, 10, 3), 7.5, dxfattribs=on("circle mirrored", extrusion=down))
    m.add_circle((20, 10, 3), 7.5, dxfattribs=on("circle tilted", extrusion=(0, 1, 1)))
    m.add_arc((5, 5), 4, 30, 200, dxfattribs=on("arc"))
    m.add_arc((5, 5), 4, 300, 20, dxfattribs=on("arc over zero"))
    m.add_arc((5, 5), 4, 30, 200, dxfattribs=on("arc mirrored", extrusion=down))
    bulges = [(0, 0, 0, 0, 1), (10, 0, 0, 0, 0), (10, 10, 0, 0, -0.3), (0, 10, 0, 0, 0.41421356237)]
    m.add_polyline2d([(p[0], p[1], p[4]) for p in bulges], format="xyb", close=True, dxfattribs=on("polyline"))
    m.add_polyline2d([(p[0], p[1], p[4]) for p in bulges], format="xyb", dxfattribs=on("polyline open"))
    m.add_polyline2d([(p[0], p[1], p[4]) for p in bulges], format="xyb", close=True, dxfattribs=on("polyline mirrored", extrusion=down))
    m.add_polyline3d([(0, 0, 0), (5, 0, 1), (5, 5, 2)], close=True, dxfattribs=on("polyline in space"))
    if new:
        m.add_lwpolyline(bulges, close=True, dxfattribs=on("light", true_color=0x123456))
        m.add_lwpolyline(bulges, dxfattribs=on("light open", color=5))
        m.add_lwpolyline(bulges, close=True, dxfattribs=on("light mirrored", extrusion=down, elevation=4))
        m.add_ellipse((10, 5), (8, 3), 0.4, dxfattribs=on("ellipse"))
        m.add_ellipse((10, 5), (8, 3), 0.4, 0.5, 4, dxfattribs=on("ellipse part"))
        m.add_ellipse((10, 5), (8, 3), 0.4, 5, 1, dxfattribs=on("ellipse over zero"))
        m.add_ellipse((10, 5), (8, 3), 0.4, 0.5, 4, dxfattribs=on("ellipse mirrored", extrusion=down))
        ctrl = [(0, 0), (3, 8), (9, -4), (14, 6), (20, 0), (24, 5), (30, 1)]
        for degree in (2, 3, 4, 5):
            m.add_open_spline(ctrl, degree=degree, dxfattribs=on("spline %d" % degree))
        closed = closed_uniform_bspline([Vec3(p) for p in ctrl], order=4)
        m.add_spline(dxfattribs=on("spline closed")).apply_construction_tool(closed)
        m.add_rational_spline(ctrl, [1, 2, 0.5, 3, 1, 0.7, 1], degree=3, dxfattribs=on("rational 3"))
        m.add_rational_spline(ctrl, [1, 2, 0.5, 3, 1, 0.7, 1], degree=4, dxfattribs=on("rational 4"))
        m.add_spline(dxfattribs=on("rational arc")).apply_construction_tool(rational_bspline_from_arc((3, 4), 6, 20, 310))
        s = m.add_spline(dxfattribs=on("double knot", degree=3))
        s.control_points = [(p[0], p[1], 0) for p in ctrl]
        s.knots = [0, 0, 0, 0, 1, 1, 2, 3, 3, 3, 3]
    block = doc.blocks.new("PIECE", base_point=(1, 1))
    block.add_line((1, 1), (5, 1), dxfattribs=on("0"))
    block.add_arc((5, 3), 2, 270, 90, dxfattribs=on("0", color=0))
    block.add_circle((3, 3), 0.5, dxfattribs=on("0"))
    outer = doc.blocks.new("NEST")
    outer.add_blockref("PIECE", (2, 0), dxfattribs=on("0", rotation=30, xscale=2, yscale=2))
    outer.add_blockref("PIECE", (-2, 0), dxfattribs=on("0", xscale=-1))
    put = lambda name, at, layer, **kw: m.add_blockref(name, at, dxfattribs=on(layer, **kw))
    put("PIECE", (10, 10), "insert", color=4)
    put("PIECE", (10, 10), "insert turned", rotation=37, xscale=1.5, yscale=1.5)
    put("PIECE", (10, 10), "insert mirrored", xscale=-1, yscale=1, rotation=10)
    put("PIECE", (10, 10), "insert downwards", extrusion=down)
    if new:  # stretched circles become ellipses, which R12 has not
        put("PIECE", (10, 10), "insert stretched", xscale=2, yscale=0.5, rotation=20)
    put("PIECE", (10, 10), "insert rows", column_count=3, row_count=2, column_spacing=12, row_spacing=8, rotation=15)
    put("NEST", (0, -20), "insert nested", rotation=45)
    return doc


def kinds():
    """The drawing of R2010 with what it has not: quadrilaterals, a helix, rows of blocks."""
    doc = draw("R2010")
    doc.header["$INSUNITS"] = 4
    m = doc.modelspace()
    on = lambda layer, **kw: dict(layer=layer, **kw)
    corners = [(0, 0), (12, 1), (1, 9), (10, 8)]
    m.add_solid(corners, dxfattribs=on("solid"))
    m.add_solid(corners, dxfattribs=on("solid mirrored", extrusion=(0, 0, -1)))
    m.add_trace(corners, dxfattribs=on("trace"))
    m.add_3dface([(0, 0, 1), (12, 1, 2), (10, 8, 0), (1, 9, 5)], dxfattribs=on("face"))
    m.add_helix(20, 5, 3, dxfattribs=on("helix"))
    m.add_circle((5, 5), 4, dxfattribs=on("circle tilted", extrusion=(0, 0.6, 0.8)))
    m.add_arc((5, 5, 2), 4, 20, 200, dxfattribs=on("arc tilted", extrusion=(0.6, 0, 0.8)))
    m.add_polyline3d([(0, 0, 0), (5, 2, 9), (9, 9, 1)], close=True, dxfattribs=on("polyline in space"))
    return doc


def paths(doc):
    from ezdxf import path
    out = {}
    drawn = ((top.dxf.layer, e) for top in doc.modelspace() for e in disassemble.recursive_decompose([top]))
    for layer, e in drawn:
        try:
            pts = path.make_path(e).flattening(0.001)
        except TypeError:  # text and the like
            continue
        if e.dxftype() == "SPLINE" and not e.construction_tool().is_clamped:
            # Of a spline whose ends don't lie on its control points, make_path draws more
            # than its knots allow (ezdxf 0.18); the spline itself is flattened instead.
            pts = e.construction_tool().flattening(0.001, segments=16)
        out.setdefault(layer, []).append([[round(v.x, 5), round(v.y, 5)] for v in pts])
    return out


def main():
    if sys.argv[1] == "paths":
        doc = kinds()
        doc.saveas(os.path.join(sys.argv[2], "kinds.dxf"))
        with open(os.path.join(sys.argv[2], "paths.json"), "w") as f:
            json.dump(paths(doc), f)
        return
    if sys.argv[1] == "read":
        print(json.dumps({f: measure(ezdxf.readfile(f)) for f in sys.argv[2:]}))
        return
    out = {}
    for version in ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"):
        doc = draw(version)
        name = version + ".dxf"
        path = os.path.join(sys.argv[2], name)
        doc.saveas(path)
        out[name] = measure(ezdxf.readfile(path))
    with open(os.path.join(sys.argv[2], "expected.json"), "w") as f:
        json.dump(out, f)


main()
