package drawing

import (
	"bytes"
)

// The tables that a reader of AC1015 expects before the first entity; their handles lie below those of entities.

// table writes one table with its records.
func table(b *bytes.Buffer, name string, handle int, records ...func()) {
	group(b, 0, "TABLE")
	group(b, 2, name)
	group(b, 5, hex(handle))
	group(b, 330, 0)
	group(b, 100, "AcDbSymbolTable")
	group(b, 70, len(records))
	if name == "DIMSTYLE" {
		group(b, 100, "AcDbDimStyleTable")
	}
	for _, r := range records {
		r()
	}
	group(b, 0, "ENDTAB")
}

// record opens a record of a table.
func record(b *bytes.Buffer, kind, class string, handle, owner int, name string) {
	group(b, 0, kind)
	code := 5
	if kind == "DIMSTYLE" {
		code = 105
	}
	group(b, code, hex(handle))
	group(b, 330, hex(owner))
	group(b, 100, "AcDbSymbolTableRecord")
	group(b, 100, class)
	group(b, 2, name)
}

// dashes are the line types beside the solid one, as lengths drawn and left, in millimetres on a drawing of 1:50.
var dashes = map[string][]float64{"DASHED": {150, -75}, "DASHDOT": {300, -75, 75, -75}}

func (d *dxf) tables(b *bytes.Buffer) {
	table(b, "VPORT", 0x8, func() { d.view(b, 0x30) })
	types := []func(){}
	for i, name := range [...]string{"ByBlock", "ByLayer", "Continuous", "DASHED", "DASHDOT"} {
		types = append(types, func() { d.lineType(b, 0x14+i, name) })
	}
	table(b, "LTYPE", 0x5, types...)
	layers := []func(){}
	for i, l := range append([]layer{{"0", 7, "Continuous"}}, d.layers...) {
		layers = append(layers, func() {
			record(b, "LAYER", "AcDbLayerTableRecord", 0x40+i, 0x2, l.name)
			group(b, 70, 0)
			group(b, 62, l.color)
			group(b, 6, l.line)
		})
	}
	table(b, "LAYER", 0x2, layers...)
	table(b, "STYLE", 0x3, func() {
		record(b, "STYLE", "AcDbTextStyleTableRecord", 0x11, 0x3, "Standard")
		for _, g := range []struct {
			code  int
			value any
		}{{70, 0}, {40, 0.0}, {41, 1.0}, {50, 0.0}, {71, 0}, {42, 2.5}, {3, "txt"}, {4, ""}} {
			group(b, g.code, g.value)
		}
	})
	table(b, "VIEW", 0x6)
	table(b, "UCS", 0x7)
	table(b, "APPID", 0x9, func() {
		record(b, "APPID", "AcDbRegAppTableRecord", 0x12, 0x9, "ACAD")
		group(b, 70, 0)
	})
	table(b, "DIMSTYLE", 0xA, func() {
		record(b, "DIMSTYLE", "AcDbDimStyleTableRecord", 0x27, 0xA, "Standard")
		group(b, 70, 0)
	})
	table(b, "BLOCK_RECORD", 0x1,
		func() { record(b, "BLOCK_RECORD", "AcDbBlockTableRecord", modelSpace, 0x1, "*Model_Space") },
		func() { record(b, "BLOCK_RECORD", "AcDbBlockTableRecord", paperSpace, 0x1, "*Paper_Space") })
}

// view is the part of the drawing that a reader opens on: all of it.
func (d *dxf) view(b *bytes.Buffer, handle int) {
	record(b, "VPORT", "AcDbViewportTableRecord", handle, 0x8, "*Active")
	mid, high := xy{}, 1.0
	if d.lo.x <= d.hi.x {
		mid, high = d.lo.mid(d.hi), 1.1*max(d.hi.y-d.lo.y, (d.hi.x-d.lo.x)/2)
	}
	group(b, 70, 0)
	for _, g := range []struct {
		code  int
		value float64
	}{{10, 0}, {20, 0}, {11, 1}, {21, 1}, {12, mid.x}, {22, mid.y}, {40, high}, {41, 2}} {
		group(b, g.code, g.value)
	}
}

func (d *dxf) lineType(b *bytes.Buffer, handle int, name string) {
	record(b, "LTYPE", "AcDbLinetypeTableRecord", handle, 0x5, name)
	pattern, unit := dashes[name], 1.0
	if d.inches {
		unit = 1 / 25.4
	}
	whole := 0.0
	for _, p := range pattern {
		whole += max(p, -p) * unit
	}
	group(b, 70, 0)
	group(b, 3, name)
	group(b, 72, 65)
	group(b, 73, len(pattern))
	group(b, 40, whole)
	for _, p := range pattern {
		group(b, 49, p*unit)
		group(b, 74, 0)
	}
}

// block writes an empty block; model and paper space are blocks, whose entities stand in a section of their own.
func block(b *bytes.Buffer, name string, owner, handle int) {
	open := func(kind string, handle int) {
		group(b, 0, kind)
		group(b, 5, hex(handle))
		group(b, 330, hex(owner))
		group(b, 100, "AcDbEntity")
		if name == "*Paper_Space" {
			group(b, 67, 1)
		}
		group(b, 8, "0")
	}
	open("BLOCK", handle)
	group(b, 100, "AcDbBlockBegin")
	group(b, 2, name)
	group(b, 70, 0)
	for _, code := range [...]int{10, 20, 30} {
		group(b, code, 0.0)
	}
	group(b, 3, name)
	group(b, 1, "")
	open("ENDBLK", handle+1)
	group(b, 100, "AcDbBlockEnd")
}

func dictionary(b *bytes.Buffer, handle, owner int) {
	group(b, 0, "DICTIONARY")
	group(b, 5, hex(handle))
	group(b, 330, hex(owner))
	group(b, 100, "AcDbDictionary")
	group(b, 281, 1)
}
