package export

import (
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"path"
	"strings"
)

// File is one finished file.
type File struct {
	Name string
	Data []byte
}

// Zip returns files packed into one, in their order. Names may hold folders,
// "sheet 1/cut.svg"; whatever they are, what is unpacked stays inside the folder
// it is unpacked in, and no file overwrites another.
//
// All files carry the earliest date the format knows, so that the same files give
// the same bytes. The records are those of PKWARE's APPNOTE.TXT, version 6.3.10, sections
// 4.3.7, 4.3.12 and 4.3.16, written here because package archive/zip brings clocks and
// file systems with it, which is a fortieth of the download. All files together have to
// stay under 4 GB.
func Zip(files []File) []byte {
	var b, directory record
	taken := map[string]bool{}
	for _, f := range files {
		name := unusedPath(safePath(f.Name), taken)
		method, data := uint16(8), f.Data
		if isPacked(name) {
			method = 0
		} else {
			data = deflated(f.Data)
		}
		at := uint32(b.Len())
		head := func(r *record) { // what both records of a file have
			r.u16(20, utf8Names, method, 0, earliest)
			r.u32(crc32.ChecksumIEEE(f.Data), uint32(len(data)), uint32(len(f.Data)))
			r.u16(uint16(len(name)), 0)
		}
		b.u32(0x04034b50)
		head(&b)
		b.WriteString(name)
		b.Write(data)
		directory.u32(0x02014b50)
		directory.u16(20)
		head(&directory)
		directory.u16(0, 0, 0)
		directory.u32(0, at)
		directory.WriteString(name)
	}
	at, n := uint32(b.Len()), uint16(len(files))
	b.Write(directory.Bytes())
	b.u32(0x06054b50)
	b.u16(0, 0, n, n)
	b.u32(uint32(directory.Len()), at)
	b.u16(0)
	return b.Bytes()
}

const (
	utf8Names = 1 << 11  // general purpose bit 11: names are UTF-8
	earliest  = 1<<5 | 1 // 1 January 1980: year since 1980 << 9, month << 5, day
)

// record is bytes with numbers among them, low byte first.
type record struct{ bytes.Buffer }

func (r *record) u16(values ...uint16) {
	for _, v := range values {
		r.WriteByte(byte(v))
		r.WriteByte(byte(v >> 8))
	}
}

func (r *record) u32(values ...uint32) {
	for _, v := range values {
		r.u16(uint16(v), uint16(v>>16))
	}
}

// deflated packs data. A bytes.Buffer takes everything, and the level is one there is: no
// error can come.
func deflated(data []byte) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.DefaultCompression)
	if err == nil {
		_, err = w.Write(data)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic(err)
	}
	return b.Bytes()
}

// isPacked reports files that hardly shrink any further.
func isPacked(name string) bool {
	switch path.Ext(name) {
	case ".png", ".pdf", ".zip":
		return true
	}
	return false
}

// safePath returns name as a relative path of safe parts.
func safePath(name string) string {
	var parts []string
	for _, p := range strings.FieldsFunc(name, func(r rune) bool { return r == '/' || r == '\\' }) {
		ext := ""
		if i := strings.LastIndexByte(p, '.'); i > 0 {
			p, ext = p[:i], word(p[i+1:], "", maxWord)
		}
		if p = word(p, "", maxPath); p == "" {
			continue
		}
		if reserved(p) {
			p = "file-" + p
		}
		if ext != "" {
			p += "." + ext
		}
		parts = append(parts, p)
	}
	if len(parts) == 0 {
		return "file"
	}
	return strings.Join(parts, "/")
}

// unusedPath returns name, with a number before its extension if it is taken.
// Many systems do not tell capitals from small letters. A name that others have as
// a folder is taken too.
func unusedPath(name string, taken map[string]bool) string {
	ext := path.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	try := name
	for n := 2; taken[strings.ToLower(try)] || underFile(try, taken); n++ {
		try = fmt.Sprintf("%s-%d%s", stem, n, ext)
		if underFile(try, taken) { // the trouble is in the folder: flatten
			stem = strings.ReplaceAll(stem, "/", "-")
		}
	}
	key := strings.ToLower(try)
	taken[key] = true
	for d := path.Dir(key); d != "."; d = path.Dir(d) {
		taken[d+"/"] = true
	}
	return try
}

// underFile reports whether try lies under a file, or is a folder of others.
func underFile(try string, taken map[string]bool) bool {
	key := strings.ToLower(try)
	if taken[key+"/"] {
		return true
	}
	for d := path.Dir(key); d != "."; d = path.Dir(d) {
		if taken[d] {
			return true
		}
	}
	return false
}
