package wire

import (
	"encoding/json"
	"errors"

	"springrib/internal/design"
	"springrib/internal/finding"
)

// Waiting is a Core that plans nothing: it draws an empty square, so that the way from
// the page and back can be walked without a plan.
type Waiting struct{}

// Controls describes a form without fields.
func (Waiting) Controls() (Controls, error) {
	empty, err := json.Marshal(design.Document{Format: design.Format, Version: design.Version, Units: "mm"})
	return Controls{Empty: empty}, err
}

// Plan draws a square of 100 mm, whatever the design says.
func (Waiting) Plan(doc []byte, _ Show) (PlanView, [][]float32, error) {
	var d design.Document
	if err := json.Unmarshal(doc, &d); err != nil {
		return PlanView{}, nil, errors.New("this is not a design: " + err.Error())
	}
	return PlanView{
		Drawn:    true,
		Verdict:  Verdict{Severity: "note", Word: "Waiting", Sentence: "Nothing is computed yet."},
		Drawings: []Drawing{{ID: "flat", Title: "Flat panel", Box: [4]float64{0, 0, 100, 100}, Items: []Item{{Role: "panel", To: 13}}}},
	}, [][]float32{{0, 0, 0, 1, 100, 0, 1, 100, 100, 1, 0, 100, 3}}, nil
}

// Bench is an empty sheet.
func (Waiting) Bench([]byte) (BenchSheet, [][]float32, error) { return BenchSheet{}, nil, nil }

// Machine changes nothing.
func (Waiting) Machine(doc []byte, _ string) ([]byte, []finding.Finding, error) { return doc, nil, nil }
func (Waiting) Stock(doc []byte, _ string) ([]byte, []finding.Finding, error)   { return doc, nil, nil }

// Pack leaves everything where it is.
func (Waiting) Pack(doc []byte, _ Work) ([]byte, Packed, error) { return doc, Packed{}, nil }

// Drag moves nothing.
func (Waiting) Drag(doc []byte, _ Drag) (map[string]string, []byte, error) {
	return map[string]string{}, doc, nil
}

// Open reads a design that has the right shape.
func (Waiting) Open(text string) ([]byte, []finding.Finding, error) {
	var d design.Document
	if err := json.Unmarshal([]byte(text), &d); err != nil {
		return nil, nil, errors.New("this file is not a design: " + err.Error())
	}
	doc, err := json.Marshal(d)
	return doc, nil, err
}

// Save returns the design as it came.
func (Waiting) Save(doc []byte) (FileBody, error) {
	return Body("design.json", "application/json", doc), nil
}

// Intake finds nothing in any file.
func (Waiting) Intake([]byte, Intake) (IntakeView, []float32, error) {
	return IntakeView{Sentence: "There is nothing in it."}, nil, nil
}

// Take takes nothing.
func (Waiting) Take(doc []byte, _ Intake) ([]byte, error) { return doc, nil }

// File knows no files.
func (Waiting) File([]byte, string, []byte) (FileBody, error) {
	return FileBody{}, errors.New("there is no file of this name")
}

func (Waiting) Job(string, []byte) (FileBody, []finding.Finding, error) {
	return FileBody{}, nil, errors.New("there is no job")
}
