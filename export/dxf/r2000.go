package dxf

import (
	"math"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// file is a drawing on its way into one of the forms.
type file struct {
	*printer
	lines  []polyline
	layers []figure.Layer
	unit   Unit
}

// units returns $INSUNITS and $MEASUREMENT.
func (f *file) units() (insert, measurement int) {
	if f.unit == Inch {
		return 1, 0
	}
	return 4, 1
}

// Handles: fixed ones for what every file has, then the layers, then the
// outlines.
const (
	hViewports = 0x1 + iota
	hLinetypes
	hLayers
	hStyles
	hViews
	hSystems
	hApplications
	hDimStyles
	hBlockRecords
	hViewport
	hByBlock
	hByLayer
	hContinuous
	hLayerZero
	hStyle
	hApplication
	hDimStyle
	hModelRecord
	hPaperRecord
	hModelBlock
	hModelEnd
	hPaperBlock
	hPaperEnd
	hRoot
	hGroups
	hFirstFree
)

func (f *file) layerHandle(i int) int  { return hFirstFree + i }
func (f *file) entityHandle(i int) int { return hFirstFree + len(f.layers) + i }

func (f *file) point(x, y int, v plane.Vec) {
	f.real(x, v.X)
	f.real(y, v.Y)
}

func (f *file) header() {
	insert, measurement := f.units()
	f.tags(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1015", 9, "$DWGCODEPAGE", 3, "ANSI_1252")
	f.text(9, "$HANDSEED")
	f.handle(5, f.entityHandle(len(f.lines)))
	f.tags(9, "$INSUNITS", 70, insert, 9, "$MEASUREMENT", 70, measurement, 9, "$LUNITS", 70, 2, 9, "$LUPREC", 70, 4)
	f.extents()
	f.tags(0, "ENDSEC", 0, "SECTION", 2, "CLASSES", 0, "ENDSEC")
}

func (f *file) extents() {
	b := box(f.lines)
	f.text(9, "$EXTMIN")
	f.point(10, 20, b.Min)
	f.real(30, 0)
	f.text(9, "$EXTMAX")
	f.point(10, 20, b.Max)
	f.real(30, 0)
}

// table writes a table's head, its records and its end.
func (f *file) table(name string, handle, n int, records func()) {
	f.tags(0, "TABLE", 2, name)
	f.handle(5, handle)
	f.tags(330, "0", 100, "AcDbSymbolTable", 70, n)
	if name == "DIMSTYLE" {
		f.text(100, "AcDbDimStyleTable")
	}
	records()
	f.text(0, "ENDTAB")
}

// record writes the head of a table's record; kind is the class that follows
// the general one.
func (f *file) record(name string, handle, owner int, kind string) {
	f.text(0, name)
	if name == "DIMSTYLE" {
		f.handle(105, handle)
	} else {
		f.handle(5, handle)
	}
	f.handle(330, owner)
	f.tags(100, "AcDbSymbolTableRecord", 100, kind)
}

func (f *file) tables() {
	none := func() {}
	f.tags(0, "SECTION", 2, "TABLES")
	f.table("VPORT", hViewports, 1, f.viewport)
	f.table("LTYPE", hLinetypes, 3, f.linetypes)
	f.table("LAYER", hLayers, 1+len(f.layers), f.layerRecords)
	f.table("STYLE", hStyles, 1, func() {
		f.record("STYLE", hStyle, hStyles, "AcDbTextStyleTableRecord")
		f.tags(2, "Standard", 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "")
	})
	f.table("VIEW", hViews, 0, none)
	f.table("UCS", hSystems, 0, none)
	f.table("APPID", hApplications, 1, func() {
		f.record("APPID", hApplication, hApplications, "AcDbRegAppTableRecord")
		f.tags(2, "ACAD", 70, 0)
	})
	f.table("DIMSTYLE", hDimStyles, 1, func() {
		f.record("DIMSTYLE", hDimStyle, hDimStyles, "AcDbDimStyleTableRecord")
		f.tags(2, "Standard", 70, 0)
	})
	f.table("BLOCK_RECORD", hBlockRecords, 2, func() {
		f.record("BLOCK_RECORD", hModelRecord, hBlockRecords, "AcDbBlockTableRecord")
		f.text(2, "*Model_Space")
		f.record("BLOCK_RECORD", hPaperRecord, hBlockRecords, "AcDbBlockTableRecord")
		f.text(2, "*Paper_Space")
	})
	f.text(0, "ENDSEC")
}

// viewport shows the whole drawing when the file is opened.
func (f *file) viewport() {
	b := box(f.lines)
	mid, size := b.Min.Add(b.Max).Mul(0.5), b.Size()
	f.record("VPORT", hViewport, hViewports, "AcDbViewportTableRecord")
	f.tags(2, "*Active", 70, 0, 10, 0.0, 20, 0.0, 11, 1.0, 21, 1.0)
	f.point(12, 22, mid)
	f.tags(13, 0.0, 23, 0.0, 14, 10.0, 24, 10.0, 15, 10.0, 25, 10.0)
	f.tags(16, 0.0, 26, 0.0, 36, 1.0, 17, 0.0, 27, 0.0, 37, 0.0)
	f.fixed(40, 1.1*math.Max(size.Y, 0.75*size.X), 3)
	f.tags(41, 1.333, 42, 50.0, 43, 0.0, 44, 0.0, 50, 0.0, 51, 0.0)
	f.tags(71, 0, 72, 1000, 73, 1, 74, 3, 75, 0, 76, 0, 77, 0, 78, 0)
}

func (f *file) linetypes() {
	for i, name := range [...]string{"ByBlock", "ByLayer", "Continuous"} {
		f.record("LTYPE", hByBlock+i, hLinetypes, "AcDbLinetypeTableRecord")
		f.tags(2, name, 70, 0, 3, "", 72, 65, 73, 0, 40, 0.0)
	}
}

func (f *file) layerRecords() {
	f.layer("0", hLayerZero, 7)
	for i, l := range f.layers {
		f.layer(string(l), f.layerHandle(i), colour(l))
	}
}

func (f *file) layer(name string, handle, colour int) {
	f.record("LAYER", handle, hLayers, "AcDbLayerTableRecord")
	f.tags(2, name, 70, 0, 62, colour, 6, "Continuous", 370, -3)
}

func (f *file) blocks() {
	f.tags(0, "SECTION", 2, "BLOCKS")
	f.block("*Model_Space", hModelRecord, hModelBlock, hModelEnd)
	f.block("*Paper_Space", hPaperRecord, hPaperBlock, hPaperEnd)
	f.text(0, "ENDSEC")
}

func (f *file) block(name string, record, begin, end int) {
	paper := func() {
		if strings.HasPrefix(name, "*Paper") {
			f.int(67, 1)
		}
	}
	f.text(0, "BLOCK")
	f.handle(5, begin)
	f.handle(330, record)
	f.text(100, "AcDbEntity")
	paper()
	f.tags(8, "0", 100, "AcDbBlockBegin", 2, name, 70, 0, 10, 0.0, 20, 0.0, 30, 0.0, 3, name, 1, "")
	f.text(0, "ENDBLK")
	f.handle(5, end)
	f.handle(330, record)
	f.text(100, "AcDbEntity")
	paper()
	f.tags(8, "0", 100, "AcDbBlockEnd")
}

func (f *file) entities() {
	f.tags(0, "SECTION", 2, "ENTITIES")
	for i, l := range f.lines {
		f.text(0, "LWPOLYLINE")
		f.handle(5, f.entityHandle(i))
		f.handle(330, hModelRecord)
		f.tags(100, "AcDbEntity", 8, string(l.layer), 100, "AcDbPolyline", 90, len(l.steps), 70, l.flag(), 43, 0.0)
		for _, s := range l.steps {
			f.point(10, 20, s.At)
			if s.Sweep != 0 {
				f.fixed(42, math.Tan(s.Sweep/4), bulgeDecimals)
			}
		}
	}
	f.text(0, "ENDSEC")
}

func (f *file) objects() {
	f.tags(0, "SECTION", 2, "OBJECTS", 0, "DICTIONARY")
	f.handle(5, hRoot)
	f.tags(330, "0", 100, "AcDbDictionary", 281, 1, 3, "ACAD_GROUP")
	f.handle(350, hGroups)
	f.text(0, "DICTIONARY")
	f.handle(5, hGroups)
	f.handle(330, hRoot)
	f.tags(100, "AcDbDictionary", 281, 1, 0, "ENDSEC")
}
