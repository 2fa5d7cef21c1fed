package export

import (
	"springrib/internal/cut"
	"springrib/internal/plane"
)

// The frame that a DXF file needs round its entities. Handles of the objects that
// refer to each other are fixed; those of entities and the rest are counted on from
// firstFree.
const (
	vportTable     = "1"
	ltypeTable     = "2"
	layerTable     = "3"
	styleTable     = "4"
	viewTable      = "5"
	ucsTable       = "6"
	appidTable     = "7"
	dimstyleTable  = "8"
	recordTable    = "9"
	rootDictionary = "A"
	groupsObject   = "B"
	layoutsObject  = "C"
	modelSpace     = "D" // block record
	paperSpace     = "E"
	modelLayout    = "F"
	paperLayout    = "10"
	plotStyles     = "11"
	plotNormal     = "12"
	firstFree      = 0x20
)

// unitLayer is the empty layer of an R12 file that says what its unit is.
const unitLayer = "UNITS-MM"

func (w *dxfWriter) section(name string, body func()) {
	w.text(0, "SECTION")
	w.text(2, name)
	body()
	w.text(0, "ENDSEC")
}

// fileR12 writes the least that R12 readers ask for.
func (w *dxfWriter) fileR12(job cut.Job, ls []dxfLayer) {
	w.section("HEADER", func() {
		w.variable("$ACADVER", 1, "AC1009")
		w.extents(job)
	})
	w.section("TABLES", func() {
		w.text(0, "TABLE")
		w.text(2, "LTYPE")
		w.integer(70, 1)
		w.text(0, "LTYPE")
		w.linetype("CONTINUOUS", "Solid line")
		w.text(0, "ENDTAB")
		w.text(0, "TABLE")
		w.text(2, "LAYER")
		w.integer(70, len(ls)+2)
		for _, l := range append([]dxfLayer{{name: "0", index: 7}, {name: unitLayer, index: 7}}, ls...) {
			w.text(0, "LAYER")
			w.text(2, l.name)
			w.integer(70, 0)
			w.integer(62, l.index)
			w.text(6, "CONTINUOUS")
		}
		w.text(0, "ENDTAB")
	})
	w.section("ENTITIES", func() { w.entities(ls) })
	w.text(0, "EOF")
}

// fileR2000 writes all tables, blocks and objects that R2000 readers ask for.
func (w *dxfWriter) fileR2000(job cut.Job, ls []dxfLayer) {
	// The header tells the first handle not in use, so the rest is written first.
	rest := &dxfWriter{o: w.o, handles: firstFree}
	rest.section("CLASSES", rest.classes)
	rest.section("TABLES", func() { rest.tables(job, ls) })
	rest.section("BLOCKS", rest.blocks)
	rest.section("ENTITIES", func() { rest.entities(ls) })
	rest.section("OBJECTS", func() { rest.objects(job) })
	rest.text(0, "EOF")
	w.section("HEADER", func() {
		w.variable("$ACADVER", 1, "AC1015")
		w.variable("$DWGCODEPAGE", 3, "ANSI_1252")
		w.variable("$INSUNITS", 70, "4")    // millimetres
		w.variable("$MEASUREMENT", 70, "1") // metric
		w.variable("$LUNITS", 70, "2")      // decimal
		w.variable("$LUPREC", 70, "3")
		w.extents(job)
		w.variable("$HANDSEED", 5, rest.handle())
	})
	w.b = append(w.b, rest.b...)
}

func (w *dxfWriter) variable(name string, code int, value string) {
	w.text(9, name)
	w.text(code, value)
}

// extents states the sheet as the drawing's limits.
func (w *dxfWriter) extents(job cut.Job) {
	corner := plane.Pt(job.Width, job.Height)
	w.text(9, "$EXTMIN")
	w.point(10, plane.Point{})
	w.text(9, "$EXTMAX")
	w.point(10, corner)
	w.text(9, "$LIMMIN")
	w.flatPoint(10, plane.Point{})
	w.text(9, "$LIMMAX")
	w.flatPoint(10, corner)
}

func (w *dxfWriter) table(name, handle string, n int, body func()) {
	w.text(0, "TABLE")
	w.text(2, name)
	w.text(5, handle)
	w.text(330, "0")
	w.text(100, "AcDbSymbolTable")
	w.integer(70, n)
	body()
	w.text(0, "ENDTAB")
}

// record starts an entry of a table; flags 0 unless given.
func (w *dxfWriter) record(kind, class, table, handle, name string) {
	w.text(0, kind)
	code := 5
	if kind == "DIMSTYLE" {
		code = 105
	}
	w.text(code, handle)
	w.text(330, table)
	w.text(100, "AcDbSymbolTableRecord")
	w.text(100, class)
	w.text(2, name)
	if kind != "BLOCK_RECORD" {
		w.integer(70, 0)
	}
}

func (w *dxfWriter) tables(job cut.Job, ls []dxfLayer) {
	w.table("VPORT", vportTable, 1, func() { w.viewport(job) })
	w.table("LTYPE", ltypeTable, 3, func() {
		for _, name := range []string{"ByBlock", "ByLayer", "Continuous"} {
			w.record("LTYPE", "AcDbLinetypeTableRecord", ltypeTable, w.handle(), name)
			w.linePattern("")
		}
	})
	w.table("LAYER", layerTable, len(ls)+1, func() {
		w.layer("0", 7)
		for _, l := range ls {
			w.layer(l.name, l.index)
			w.integer(420, int(l.colour.R)<<16|int(l.colour.G)<<8|int(l.colour.B))
		}
	})
	w.table("STYLE", styleTable, 1, func() {
		w.record("STYLE", "AcDbTextStyleTableRecord", styleTable, w.handle(), "Standard")
		w.length(40, 0)
		w.length(41, 1)
		w.length(50, 0)
		w.integer(71, 0)
		w.length(42, 2.5)
		w.text(3, "txt")
		w.text(4, "")
	})
	w.table("VIEW", viewTable, 0, func() {})
	w.table("UCS", ucsTable, 0, func() {})
	w.table("APPID", appidTable, 1, func() { w.record("APPID", "AcDbRegAppTableRecord", appidTable, w.handle(), "ACAD") })
	w.table("DIMSTYLE", dimstyleTable, 1, func() {
		w.text(100, "AcDbDimStyleTable")
		w.record("DIMSTYLE", "AcDbDimStyleTableRecord", dimstyleTable, w.handle(), "Standard")
	})
	w.table("BLOCK_RECORD", recordTable, 2, func() {
		w.record("BLOCK_RECORD", "AcDbBlockTableRecord", recordTable, modelSpace, "*Model_Space")
		w.text(340, modelLayout)
		w.record("BLOCK_RECORD", "AcDbBlockTableRecord", recordTable, paperSpace, "*Paper_Space")
		w.text(340, paperLayout)
	})
}

func (w *dxfWriter) layer(name string, index int) {
	w.record("LAYER", "AcDbLayerTableRecord", layerTable, w.handle(), name)
	w.integer(62, index)
	w.text(6, "Continuous")
	w.text(390, plotNormal)
}

// linetype is an R12 entry, which has no handles.
func (w *dxfWriter) linetype(name, description string) {
	w.text(2, name)
	w.integer(70, 0)
	w.linePattern(description)
}

func (w *dxfWriter) linePattern(description string) {
	w.text(3, description)
	w.integer(72, 65)
	w.integer(73, 0)
	w.length(40, 0)
}

// viewport makes a program that opens the file show the whole sheet.
func (w *dxfWriter) viewport(job cut.Job) {
	w.record("VPORT", "AcDbViewportTableRecord", vportTable, w.handle(), "*Active")
	pair := func(code int, x, y float64) { w.flatPoint(code, plane.Pt(x, y)) }
	pair(10, 0, 0)
	pair(11, 1, 1)
	pair(12, job.Width/2, job.Height/2)
	pair(13, 0, 0)
	pair(14, 10, 10)
	pair(15, 10, 10)
	pair(16, 0, 0)
	w.length(36, 1) // looked at from above
	w.point(17, plane.Point{})
	w.length(40, 1.05*job.Height)
	w.ratio(41, max(1, job.Width/max(job.Height, 1)))
	w.length(42, 50)
}

func (w *dxfWriter) blocks() {
	for _, b := range []struct{ record, name string }{{modelSpace, "*Model_Space"}, {paperSpace, "*Paper_Space"}} {
		w.text(0, "BLOCK")
		w.blockPart(b.record, "AcDbBlockBegin")
		w.text(2, b.name)
		w.integer(70, 0)
		w.point(10, plane.Point{})
		w.text(3, b.name)
		w.text(1, "")
		w.text(0, "ENDBLK")
		w.blockPart(b.record, "AcDbBlockEnd")
	}
}

func (w *dxfWriter) blockPart(record, class string) {
	w.text(5, w.handle())
	w.text(330, record)
	w.text(100, "AcDbEntity")
	w.text(8, "0")
	w.text(100, class)
}

func (w *dxfWriter) objects(job cut.Job) {
	w.dictionary(rootDictionary, "0", "ACAD_GROUP", groupsObject, "ACAD_LAYOUT", layoutsObject, "ACAD_PLOTSTYLENAME", plotStyles)
	w.dictionary(groupsObject, rootDictionary)
	w.dictionary(layoutsObject, rootDictionary, "Model", modelLayout, "Layout1", paperLayout)
	w.layout(job, "Model", modelLayout, modelSpace, 0)
	w.layout(job, "Layout1", paperLayout, paperSpace, 1)
	w.text(0, "ACDBDICTIONARYWDFLT")
	w.text(5, plotStyles)
	w.text(330, rootDictionary)
	w.text(100, "AcDbDictionary")
	w.integer(281, 1)
	w.text(3, "Normal")
	w.text(350, plotNormal)
	w.text(100, "AcDbDictionaryWithDefault")
	w.text(340, plotNormal)
	w.text(0, "ACDBPLACEHOLDER")
	w.text(5, plotNormal)
	w.text(330, plotStyles)
}

// dictionary writes an object that names others: name, handle, name, handle...
func (w *dxfWriter) dictionary(handle, owner string, entries ...string) {
	w.text(0, "DICTIONARY")
	w.text(5, handle)
	w.text(330, owner)
	w.text(100, "AcDbDictionary")
	w.integer(281, 1)
	for i := 0; i < len(entries); i += 2 {
		w.text(3, entries[i])
		w.text(350, entries[i+1])
	}
}

// layout writes the object that ties a space to a paper: one the size of the sheet,
// at 1:1, in mm.
func (w *dxfWriter) layout(job cut.Job, name, handle, record string, tab int) {
	w.text(0, "LAYOUT")
	w.text(5, handle)
	w.text(330, layoutsObject)
	w.text(100, "AcDbPlotSettings")
	w.text(1, "")
	w.text(2, "none_device")
	w.text(4, "")
	w.text(6, "")
	for code := 40; code <= 43; code++ { // margins
		w.length(code, 0)
	}
	w.length(44, job.Width)
	w.length(45, job.Height)
	for code := 46; code <= 49; code++ {
		w.length(code, 0)
	}
	w.length(140, 0)
	w.length(141, 0)
	w.length(142, 1)
	w.length(143, 1)
	w.integer(70, 1024*(1-tab)) // the model tab prints the model
	w.integer(72, 1)            // paper in mm
	w.integer(73, 0)
	w.integer(74, 5)
	w.text(7, "")
	w.integer(75, 16) // 1:1
	w.length(147, 1)
	w.length(148, 0)
	w.length(149, 0)
	w.text(100, "AcDbLayout")
	w.text(1, name)
	w.integer(70, 1)
	w.integer(71, tab)
	w.flatPoint(10, plane.Point{})
	w.flatPoint(11, plane.Pt(job.Width, job.Height))
	w.point(12, plane.Point{})
	w.point(14, plane.Point{})
	w.point(15, plane.Pt(job.Width, job.Height))
	w.length(146, 0)
	w.point(13, plane.Point{})
	w.point(16, plane.Pt(1, 0))
	w.point(17, plane.Pt(0, 1))
	w.integer(76, 0)
	w.text(330, record)
}

// classes are the objects above that are not built into every reader.
func (w *dxfWriter) classes() {
	for _, c := range [][2]string{
		{"ACDBDICTIONARYWDFLT", "AcDbDictionaryWithDefault"},
		{"ACDBPLACEHOLDER", "AcDbPlaceHolder"},
		{"LAYOUT", "AcDbLayout"},
	} {
		w.text(0, "CLASS")
		w.text(1, c[0])
		w.text(2, c[1])
		w.text(3, "ObjectDBX Classes")
		w.integer(90, 0)
		w.integer(280, 0)
		w.integer(281, 0)
	}
}
