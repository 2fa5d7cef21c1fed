package design

import (
	"bytes"
	"encoding/json"
	"strconv"
)

// BatchFormat and BatchVersion are what a saved batch says of itself.
const (
	BatchFormat  = "springrib job"
	BatchVersion = 1
)

// MostMembers bounds a batch.
const MostMembers = 60

// Batch is designs that are cut together: on the same machine, from the same sheets.
type Batch struct {
	Name    string
	Members []Member
}

// Member is a design of a batch. Problem, where it is not empty, says why the design could not be
// read; the others go on without it.
type Member struct {
	Quantity int
	Design   Document
	Problem  string
	raw      json.RawMessage // as it was, where it could not be read
}

type batchFile struct {
	Format  string       `json:"format"`
	Version int          `json:"version"`
	Name    string       `json:"name"`
	Members []memberFile `json:"members"`
}

type memberFile struct {
	Quantity int             `json:"quantity"`
	Design   json.RawMessage `json:"design"`
}

// IsBatch tells whether a file says that it is a batch.
func IsBatch(text []byte) bool {
	var f struct {
		Format string `json:"format"`
	}
	return json.Unmarshal(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")), &f) == nil && f.Format == BatchFormat
}

// OpenBatch reads a saved batch. The error, if any, is a *FileError. A member that can't be read has a
// Problem, and its text is kept for SaveBatch.
func OpenBatch(text []byte) (Batch, error) {
	if len(text) > MaxFile {
		return Batch{}, &FileError{TooLarge, "This file has " + strconv.Itoa(len(text)>>20) + " MB; a job never comes near that. Choose a job that was saved here."}
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if len(bytes.TrimSpace(text)) == 0 {
		return Batch{}, &FileError{Nothing, "This file is empty. Choose a job that was saved here."}
	}
	var f batchFile
	if err := json.Unmarshal(text, &f); err != nil {
		return Batch{}, &FileError{NotJSON, "This job is cut short or damaged. Save it again where it came from."}
	}
	switch {
	case f.Format != BatchFormat:
		return Batch{}, &FileError{NotDesign, "This file is not a job: it does not say that it is one. Choose one that was saved here."}
	case f.Version < 1:
		return Batch{}, &FileError{NotDesign, "This job does not say of which version it is. Save it again where it came from."}
	case f.Version > BatchVersion:
		return Batch{}, &FileError{Newer, "This job is of version " + strconv.Itoa(f.Version) + "; this one reads up to version " + strconv.Itoa(BatchVersion) + ". Open it where it was made."}
	case len(f.Members) > MostMembers:
		return Batch{}, &FileError{TooLarge, "This job holds " + strconv.Itoa(len(f.Members)) + " designs; at most " + strconv.Itoa(MostMembers) + " are cut together. Split it."}
	}
	b := Batch{Name: f.Name}
	for _, m := range f.Members {
		one := Member{Quantity: max(1, m.Quantity)}
		doc, _, err := Open(m.Design)
		if err != nil {
			one.Problem, one.raw = err.Error(), m.Design
		}
		one.Design = doc
		b.Members = append(b.Members, one)
	}
	return b, nil
}

// SaveBatch writes a batch with its designs whole. A member that could not be read is written as it
// was.
func SaveBatch(b Batch) []byte {
	f := batchFile{BatchFormat, BatchVersion, b.Name, []memberFile{}}
	for _, m := range b.Members {
		raw := m.raw
		if m.Problem == "" || raw == nil {
			raw = Save(m.Design)
		}
		f.Members = append(f.Members, memberFile{m.Quantity, raw})
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(f); err != nil {
		panic("design: a batch that can't be written: " + err.Error())
	}
	return out.Bytes()
}
