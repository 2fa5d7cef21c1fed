package export

import (
	"springrib/internal/cut"
	"springrib/internal/finding"
)

// JobFiles returns every kind of file of one sheet, named after n: SVG, DXF as
// R2000 and R12, the paper template whole and tiled over paper, and a picture. With
// repeat, cutting files write passes as repeated layers.
func JobFiles(job cut.Job, n Name, paper Paper, repeat bool) ([]File, []finding.Finding) {
	var files []File
	var findings []finding.Finding
	n.Sheet, n.Sheets = job.Sheet, job.Sheets
	add := func(what, ext string, data []byte, fs []finding.Finding) {
		name := n
		name.What, name.Ext = what, ext
		files = append(files, File{FileName(name), data})
		findings = append(findings, fs...)
	}
	add("", "svg", SVG(job, SVGOptions{RepeatPasses: repeat}), nil)
	data, fs := DXF(job, DXFOptions{RepeatPasses: repeat})
	add("", "dxf", data, fs)
	data, fs = DXF(job, DXFOptions{R12: true, RepeatPasses: repeat})
	add("R12", "dxf", data, fs)
	data, fs = PDF(job, PDFOptions{})
	add("template", "pdf", data, fs)
	data, _ = PDF(job, PDFOptions{Paper: paper}) // the same characters are missing
	add("template "+paper.Name, "pdf", data, nil)
	add("picture", "png", PNG(job, PNGOptions{}), nil)
	return files, findings
}
