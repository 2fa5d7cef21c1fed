package export

import (
	"archive/zip"
	"bytes"
	"fmt"
	"path"
	"strings"
	"time"
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
// the same bytes.
func Zip(files []File) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	taken := map[string]bool{}
	for _, f := range files {
		h := &zip.FileHeader{
			Name:     unusedPath(safePath(f.Name), taken),
			Method:   zip.Deflate,
			Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC),
		}
		if isPacked(h.Name) {
			h.Method = zip.Store
		}
		// A bytes.Buffer takes everything, and the header is ours: no error can come.
		fw, err := w.CreateHeader(h)
		if err == nil {
			_, err = fw.Write(f.Data)
		}
		if err != nil {
			panic(err)
		}
	}
	if err := w.Close(); err != nil {
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
