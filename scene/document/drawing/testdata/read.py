# Reads a DXF file from standard input with ezdxf, audits it, and tells as JSON what stands on each layer.
import io
import json
import sys

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode

document = ezdxf.read(io.StringIO(sys.stdin.read()))
audit = document.audit()
layers = {}
for e in document.modelspace():
    layer = layers.setdefault(e.dxf.layer, {"Rings": [], "Lines": [], "Arcs": [], "Points": 0, "Texts": []})
    kind = e.dxftype()
    if kind == "LWPOLYLINE":
        assert e.closed, "an open polyline"
        layer["Rings"].append([[p[0], p[1]] for p in e.get_points("xy")])
    elif kind == "LINE":
        layer["Lines"].append([[e.dxf.start.x, e.dxf.start.y], [e.dxf.end.x, e.dxf.end.y]])
    elif kind == "ARC":
        layer["Arcs"].append([e.dxf.center.x, e.dxf.center.y, e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle])
    elif kind == "POINT":
        layer["Points"] += 1
    elif kind == "TEXT":
        layer["Texts"].append(decode_dxf_unicode(e.plain_text()))
    else:
        raise SystemExit("an unknown kind: " + kind)
print(json.dumps({
    "Errors": [e.message for e in audit.errors], "Fixes": [e.message for e in audit.fixes],
    "Version": document.dxfversion, "Units": document.header["$INSUNITS"],
    "Low": list(document.header["$EXTMIN"])[:2], "High": list(document.header["$EXTMAX"])[:2],
    "Named": [l.dxf.name for l in document.layers], "Layers": layers,
}))
