"""Reads a DXF with ezdxf and fails on any error or fix of its audit, on an outline
that is not a closed LWPOLYLINE, and on any unit but millimetres."""
import sys

import ezdxf

path = sys.argv[1]
doc = ezdxf.readfile(path)
audit = doc.audit()
problems = [e.message for e in audit.errors] + [f.message for f in audit.fixes]
if doc.dxfversion != "AC1015":
    problems.append("version " + doc.dxfversion)
if doc.header.get("$INSUNITS") != 4 or doc.header.get("$MEASUREMENT") != 1:
    problems.append("not in millimetres")
outlines = 0
for e in doc.modelspace():
    if e.dxftype() == "LWPOLYLINE":
        outlines += 1
        if not e.closed:
            problems.append("an open outline")
    elif e.dxf.layer.startswith("CUT"):
        problems.append("a " + e.dxftype() + " on a cut layer")
if outlines == 0:
    problems.append("no outline")
for p in problems:
    print(path + ": " + p)
sys.exit(1 if problems else 0)
