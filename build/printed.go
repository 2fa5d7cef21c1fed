package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/tdewolff/font"

	"springrib/internal/export"
)

// printedName holds the typeface of the PDFs, as export.ReadFaces takes it. It lies among the
// sources, so that files can be written without the page's packages; the licence lies beside it.
const printedName = "site/print/faces.json"

// printedCuts are its cuts: Latin letters in both weights, and further letters of names in
// the regular one alone.
var printedCuts = [...]struct {
	file string // of the package
	name string
	bold bool
}{
	{"latin-400", "RIBAAA+AlegreyaSans-Regular", false},
	{"latin-ext-400", "RIBAAB+AlegreyaSans-Regular", false},
	{"greek-400", "RIBAAC+AlegreyaSans-Regular", false},
	{"cyrillic-400", "RIBAAD+AlegreyaSans-Regular", false},
	{"latin-700", "RIBAAE+AlegreyaSans-Bold", true},
	{"latin-ext-700", "RIBAAF+AlegreyaSans-Bold", true},
}

// printedFaces makes the typeface of the PDFs anew from the package.
func printedFaces(root string) ([]byte, error) {
	wanted := slices.Concat([]rune(letters), export.Further())
	slices.Sort(wanted)
	var out export.Faces
	for _, c := range printedCuts {
		packed, err := os.ReadFile(filepath.Join(root, "site", "node_modules", filepath.FromSlash(typefacePackage), "files", "alegreya-sans-"+c.file+"-normal.woff2"))
		if err != nil {
			return nil, err
		}
		cut, err := printedCut(packed, wanted)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.file, err)
		}
		cut.Name, cut.Bold = c.name, c.bold
		out.Cuts = append(out.Cuts, cut)
	}
	return json.Marshal(out)
}

// printedCut leaves the wanted letters of a font, with figures that stand on the line and are
// all of one width.
func printedCut(woff2 []byte, wanted []rune) (c export.Cut, err error) {
	plain, err := font.ToSFNT(woff2)
	if err != nil {
		return c, err
	}
	sfnt, err := font.ParseSFNT(plain, 0)
	if err != nil {
		return c, err
	}
	em := float64(sfnt.Head.UnitsPerEm)
	glyphs := []uint16{0}
	var runes []rune
	for _, r := range slices.Compact(wanted) {
		g := sfnt.GlyphIndex(r)
		if g == 0 {
			continue
		}
		for _, feature := range []string{"lnum", "tnum"} {
			g = instead(sfnt.Tables["GSUB"], feature, g)
		}
		glyphs, runes = append(glyphs, g), append(runes, r)
		c.Widths = append(c.Widths, int(float64(sfnt.GlyphAdvance(g))*1000/em+0.5))
	}
	c.Runes = string(runes)
	h := sfnt.Head
	of := func(v int16) int { return int(float64(v) * 1000 / em) }
	// Flags: not symbolic; a stem as thick as viewers guess, since no table of the font says (ISO 32000-1, 9.8).
	c.Metrics = fmt.Sprintf("/Flags 32 /FontBBox [%d %d %d %d] /ItalicAngle 0 /Ascent %d /Descent %d /CapHeight %d /StemV 80",
		of(h.XMin), of(h.YMin), of(h.XMax), of(h.YMax), of(sfnt.Hhea.Ascender), of(sfnt.Hhea.Descender), of(sfnt.OS2.SCapHeight))
	small, err := sfnt.Subset(glyphs, font.SubsetOptions{Tables: font.KeepPDFTables})
	if err != nil {
		return c, err
	}
	file := dated(small.Write(), sfnt.Tables["head"])
	c.Length = len(file)
	var b bytes.Buffer
	z, err := zlib.NewWriterLevel(&b, zlib.BestCompression)
	if err != nil {
		return c, err
	}
	z.Write(file) // a bytes.Buffer takes everything
	z.Close()
	c.File = b.Bytes()
	return c, nil
}

// dated gives a font that was just written the date of the one it is from: the same font gives
// the same bytes (OpenType 1.9, table head; checksums as the font file's own chapter has them).
func dated(file, head []byte) []byte {
	const directory, entry, adjustment, modified = 12, 16, 8, 28
	be := binary.BigEndian
	sum := func(b []byte) (n uint32) {
		for len(b) >= 4 {
			n += be.Uint32(b)
			b = b[4:]
		}
		return n
	}
	for i := range int(be.Uint16(file[4:])) {
		row := file[directory+entry*i:]
		if string(row[:4]) != "head" {
			continue
		}
		at, long := be.Uint32(row[8:]), (be.Uint32(row[12:])+3)&^3
		table := file[at : at+long]
		copy(table[modified:modified+8], head[modified:])
		clear(table[adjustment : adjustment+4])
		be.PutUint32(row[4:], sum(table))
		be.PutUint32(table[adjustment:], 0xb1b0afba-sum(file))
	}
	return file
}

// instead returns the glyph that a feature puts in the place of another, by a substitution
// of one for one (OpenType 1.9, GSUB, lookup type 1), whatever the script.
func instead(gsub []byte, feature string, glyph uint16) uint16 {
	if len(gsub) == 0 {
		return glyph
	}
	at := func(i int) int { return int(binary.BigEndian.Uint16(gsub[i:])) }
	features, lookups := at(6), at(8)
	for i := range at(features) {
		record := features + 2 + 6*i
		if string(gsub[record:record+4]) != feature {
			continue
		}
		table := features + at(record+4)
		for k := range at(table + 2) {
			lookup := lookups + at(lookups+2+2*at(table+4+2*k))
			if at(lookup) != 1 {
				continue
			}
			for s := range at(lookup + 4) {
				sub := lookup + at(lookup+6+2*s)
				n, ok := covered(gsub, sub+at(sub+2), glyph)
				switch {
				case !ok:
				case at(sub) == 1:
					return glyph + uint16(at(sub+4))
				default:
					return uint16(at(sub + 6 + 2*n))
				}
			}
		}
	}
	return glyph
}

// covered is the place of a glyph in a coverage table.
func covered(gsub []byte, table int, glyph uint16) (n int, ok bool) {
	at := func(i int) int { return int(binary.BigEndian.Uint16(gsub[i:])) }
	for i := range at(table + 2) {
		if at(table) == 1 {
			if at(table+4+2*i) == int(glyph) {
				return i, true
			}
			continue
		}
		r := table + 4 + 6*i
		if int(glyph) >= at(r) && int(glyph) <= at(r+2) {
			return at(r+4) + int(glyph) - at(r), true
		}
	}
	return 0, false
}

// writePrinted writes the typeface of the PDFs, and its licence beside it.
func writePrinted(root string) error {
	faces, err := printedFaces(root)
	if err != nil {
		return err
	}
	licence, err := typefaceLicence(root)
	if err != nil {
		return err
	}
	dir := filepath.Dir(filepath.Join(root, filepath.FromSlash(printedName)))
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	return errors.Join(write(dir, filepath.Base(printedName), faces), write(dir, licenceName, []byte(licence)))
}

// readPrinted reads the typeface of the PDFs.
func readPrinted() ([]byte, error) {
	root, err := findRoot()
	if err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(root, filepath.FromSlash(printedName)))
}
