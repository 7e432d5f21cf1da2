"""Reads a DXF with ezdxf and fails on any error or fix of its audit, on an outline
that is not a polyline, or open without a word about bridges in the file, and on a
form or a unit that the file's name does not say: NAME.dxf is R2000 in
millimetres, NAME-in.dxf in inches, NAME-r12.dxf the R12 form, which has no unit."""
import re
import sys

import ezdxf

path = sys.argv[1]
doc = ezdxf.readfile(path)
audit = doc.audit()
problems = [e.message for e in audit.errors] + [f.message for f in audit.fixes]
name = path.rsplit("/", 1)[-1]
old, inch = name.endswith("-r12.dxf"), bool(re.search(r"-in(-r12)?\.dxf$", name))
text = open(path).read()
if doc.dxfversion != ("AC1009" if old else "AC1015"):
    problems.append("version " + doc.dxfversion)
if "Unit: %s." % ("inch" if inch else "millimetre") not in text:
    problems.append("no comment about the unit")
if not old and (doc.header.get("$INSUNITS"), doc.header.get("$MEASUREMENT")) != ((1, 0) if inch else (4, 1)):
    problems.append("not in the unit of the name")
bridges = "bridges of" in text
outlines = 0
for e in doc.modelspace():
    if e.dxftype() in ("LWPOLYLINE", "POLYLINE"):
        outlines += 1
        if not (e.closed if e.dxftype() == "LWPOLYLINE" else e.is_closed) and not (bridges and e.dxf.layer == "CUT_OUTSIDE"):
            problems.append("an open outline")
    elif e.dxf.layer.startswith("CUT"):
        problems.append("a " + e.dxftype() + " on a cut layer")
    if e.dxf.layer not in doc.layers:
        problems.append("no layer " + e.dxf.layer)
if outlines == 0:
    problems.append("no outline")
for p in problems:
    print(path + ": " + p)
sys.exit(1 if problems else 0)
