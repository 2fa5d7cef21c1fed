package export

import (
	"fmt"
	"strings"

	"springrib/internal/cut"
)

// jobTitle is the name of a job on one line: "Reading lamp, revision 2, sheet 1 of 3".
func jobTitle(job cut.Job) string {
	s := cleanName(job.Title)
	if r := cleanName(job.Revision); r != "" {
		s += ", revision " + r
	}
	if job.Sheet > 0 {
		s += fmt.Sprintf(", sheet %d of %d", job.Sheet, job.Sheets)
	}
	return s
}

// fault says what is wrong with a job, "" for nothing.
func fault(job cut.Job) string {
	if job.Fault == "" {
		return ""
	}
	return "Not sound: " + job.Fault + "."
}

// headline is all that a job says of itself, on one line: what is wrong first.
func headline(job cut.Job) string { return strings.TrimSpace(fault(job) + " " + ofItself(job)) }

// ofItself is its title and what was done about the kerf.
func ofItself(job cut.Job) string { return cleanLine(jobTitle(job) + ". " + job.Note) }
