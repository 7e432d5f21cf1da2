package dxf

import "math"

// r12 writes the sections of the R12 form: what every reader since has had to
// understand. It has no place for the unit but a comment.
func (f *file) r12() {
	f.tags(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1009")
	f.extents()
	f.tags(9, "$LUNITS", 70, 2, 9, "$LUPREC", 70, 4, 0, "ENDSEC")
	f.tables12()
	f.tags(0, "SECTION", 2, "BLOCKS", 0, "ENDSEC")
	f.tags(0, "SECTION", 2, "ENTITIES")
	for _, l := range f.lines {
		f.tags(0, "POLYLINE", 8, string(l.layer), 66, 1, 10, 0.0, 20, 0.0, 30, 0.0, 70, l.flag())
		for _, s := range l.steps {
			f.tags(0, "VERTEX", 8, string(l.layer))
			f.point(10, 20, s.At)
			f.real(30, 0)
			if s.Sweep != 0 {
				f.fixed(42, math.Tan(s.Sweep/4), bulgeDecimals)
			}
		}
		f.tags(0, "SEQEND", 8, string(l.layer))
	}
	f.text(0, "ENDSEC")
}

func (f *file) tables12() {
	b := box(f.lines)
	mid, size := b.Min.Add(b.Max).Mul(0.5), b.Size()
	f.tags(0, "SECTION", 2, "TABLES")
	f.tags(0, "TABLE", 2, "VPORT", 70, 1, 0, "VPORT", 2, "*ACTIVE", 70, 0, 10, 0.0, 20, 0.0, 11, 1.0, 21, 1.0)
	f.point(12, 22, mid)
	f.tags(13, 0.0, 23, 0.0, 14, 10.0, 24, 10.0, 15, 10.0, 25, 10.0, 16, 0.0, 26, 0.0, 36, 1.0, 17, 0.0, 27, 0.0, 37, 0.0)
	f.fixed(40, 1.1*math.Max(size.Y, 0.75*size.X), 3)
	f.tags(41, 1.333, 42, 50.0, 43, 0.0, 44, 0.0, 50, 0.0, 51, 0.0)
	f.tags(71, 0, 72, 1000, 73, 1, 74, 3, 75, 0, 76, 0, 77, 0, 78, 0, 0, "ENDTAB")
	f.tags(0, "TABLE", 2, "LTYPE", 70, 1, 0, "LTYPE", 2, "CONTINUOUS", 70, 0, 3, "Solid line", 72, 65, 73, 0, 40, 0.0, 0, "ENDTAB")
	f.tags(0, "TABLE", 2, "LAYER", 70, 1+len(f.layers))
	f.tags(0, "LAYER", 2, "0", 70, 0, 62, 7, 6, "CONTINUOUS")
	for _, l := range f.layers {
		f.tags(0, "LAYER", 2, string(l), 70, 0, 62, colour(l), 6, "CONTINUOUS")
	}
	f.text(0, "ENDTAB")
	f.tags(0, "TABLE", 2, "STYLE", 70, 1, 0, "STYLE", 2, "STANDARD", 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "", 0, "ENDTAB")
	f.tags(0, "ENDSEC")
}
