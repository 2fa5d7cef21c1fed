package trial_test

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"regexp"
	"runtime/debug"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/view"
	"springrib/internal/wire"
)

// fault is something that must not be, by its kind.
type fault struct{ kind, text string }

// judge holds one design, what the page is told of it, and what is wrong with that.
type judge struct {
	doc    design.Document
	raw    []byte
	core   view.Core
	view   wire.PlanView
	v      design.Values
	p      plan.Plan
	every  bool // look at all that is else looked at in a sample of designs
	faults []fault
	seen   map[string]int // how often each feature was looked at
	loops  []*chain       // of the flat panel
	lone   bool           // a panel of a cone has one score
}

// judged asks for a plan as the page does and holds it, and every file, to what is promised.
func judged(doc design.Document) *judge { return judgedBy(doc, true) }

func judgedBy(doc design.Document, every bool) (j *judge) {
	j = &judge{doc: doc, core: view.New(), every: every, seen: map[string]int{}}
	defer func() {
		if p := recover(); p != nil {
			j.say("panic", "%v at %s", p, regexp.MustCompile(`\S+\.go:\d+`).FindAllString(string(debug.Stack()), 9))
		}
	}()
	var err error
	if j.raw, err = json.Marshal(doc); err != nil {
		panic(err)
	}
	if j.view, _, err = j.core.Plan(j.raw, wire.Show{Untried: true}); err != nil {
		j.say("no-answer", "%v", err)
		return j
	}
	var found []finding.Finding
	j.v, found = design.Read(doc)
	if finding.Worst(found) == finding.Stop || !j.view.Drawn {
		if len(j.cutFiles()) > 0 {
			j.say("files-of-nothing", "files of a design that is not drawn")
		}
		return j
	}
	j.seen["drawn"]++
	j.p = new(plan.Memory).Alone(j.v) // passes that are not taken are in no file
	j.places()
	j.rings()
	j.skinRibs()
	j.files()
	j.sound()
	return j
}

// places looks whether scores lie in their order with something between them.
func (j *judge) places() {
	for i := 1; i < len(j.view.Scores); i++ {
		a, b := j.view.Scores[i-1], j.view.Scores[i]
		if d := b.U - a.U; d <= j.v.Machine.ScoreWidth && !j.has("land-narrow") {
			j.say("scores-meet", "scores %d and %d lie %.4f apart, %.3f and %.3f along", a.N, b.N, d, a.U, b.U)
			return
		}
	}
}

func (j *judge) say(kind, format string, args ...any) {
	j.faults = append(j.faults, fault{kind, fmt.Sprintf(format, args...)})
}

// has tells whether a finding of an id was made, at least as grave as told.
func (j *judge) has(id string, atLeast ...finding.Severity) bool {
	for _, f := range j.view.Findings {
		if f.ID != id {
			continue
		}
		for _, s := range atLeast {
			if f.Severity == s {
				return true
			}
		}
		if len(atLeast) == 0 {
			return true
		}
	}
	return false
}

// worst returns the gravest finding.
func (j *judge) worst() finding.Severity { return finding.Worst(j.view.Findings) }

var (
	strips = regexp.MustCompile(`test-strips`)
	cuts   = regexp.MustCompile(`\.(svg|dxf)$|template[^.]*\.pdf$`)
)

// cutFiles are the names of the files that parts are cut from; test strips are not among
// them.
func (j *judge) cutFiles() []string {
	var out []string
	for _, f := range j.view.Files {
		if cuts.MatchString(f.Name) && !strips.MatchString(f.Name) {
			out = append(out, f.Name)
		}
	}
	return out
}

// file fetches one file.
func (j *judge) file(name string) []byte {
	body, err := j.core.File(j.raw, name, nil)
	if err != nil {
		j.say("no-file", "%s: %v", name, err)
		return nil
	}
	data, err := base64.StdEncoding.DecodeString(body.Base64)
	if err != nil {
		j.say("no-file", "%s: %v", name, err)
	}
	return data
}

// withholds are stops with which a cut file is wrong or dangerous: none may leave.
var withholds = map[string]string{
	"must-not-laser": "poisonous gas",
	"parts-overlap":  "one part is cut out of another",
	"off-bed":        "not all of it can be cut",
	"slots-meet":     "the base falls apart",
	"slot-off-base":  "a slot is open",
	"does-not-fit":   "the panel misses its rib",
	"too-many-parts": "parts are left out",
	"no-outline":     "a part is left out",
}

// files judges every cut file of the design.
func (j *judge) files() {
	names := j.cutFiles()
	j.forbidden(names)
	if j.sample(3) {
		j.strips()
	}
	if len(names) == 0 {
		if j.worst() != finding.Stop {
			j.say("no-files", "no cut file, and no stop says why")
		}
		return
	}
	j.seen["files"]++
	if j.worst() == finding.Stop {
		j.stopped(names)
	}
	var sheets []drawing
	for _, name := range names {
		if !strings.HasSuffix(name, ".svg") {
			continue
		}
		d, err := readDrawing(j.file(name))
		if err != nil {
			j.say("svg-unreadable", "%s: %v", name, err)
			return
		}
		sheets = append(sheets, d)
	}
	if len(sheets) == 0 {
		if t := j.v.Machine.Tool; t != machine.Saw && t != machine.Knife {
			j.say("no-files", "no SVG for a machine that reads one")
		}
		return
	}
	if len(sheets) != len(j.p.Lay.Jobs) {
		j.say("sheet-missing", "%d files, %d sheets", len(sheets), len(j.p.Lay.Jobs))
		return
	}
	laid := j.laid()
	for i := range sheets {
		j.sheet(&sheets[i], laid[i], i)
	}
	if j.sample(6) {
		n := 0
		for _, name := range names {
			if strings.HasSuffix(name, ".svg") {
				n++
			} else if strings.HasSuffix(name, ".dxf") && !(j.v.Cut.Splines && !strings.HasSuffix(name, "R12.dxf")) {
				j.sameAsDXF(&sheets[n-1], name)
			}
		}
	}
	if j.sample(2) {
		j.bench(laid)
	}
	j.tenons()
}

// sample tells of one in n designs, for what takes long.
func (j *judge) sample(n int) bool { return j.every || len(j.raw)%n == 0 }

// strips judges the files of test strips, which are cut as well.
func (j *judge) strips() {
	for _, f := range j.view.Files {
		if !strips.MatchString(f.Name) || !strings.HasSuffix(f.Name, ".svg") {
			continue
		}
		d, err := readDrawing(j.file(f.Name))
		if err != nil {
			j.say("svg-unreadable", "%s: %v", f.Name, err)
			return
		}
		j.seen["strips"]++
		j.segments(&d)
		j.onBed(&d, -1)
	}
}

// forbidden looks for parts of a stock that must not be lasered.
func (j *judge) forbidden(names []string) {
	if j.v.Machine.Tool != machine.Laser {
		return
	}
	never := map[string]bool{"panel": j.v.Sheet.Stock.Laser.Never, "caul": j.v.Rib.Stock.Laser.Never, "base": j.v.Base.Stock.Laser.Never}
	for _, s := range j.p.Supports.All {
		if s.Stock.Laser.Never {
			never[j.p.Ribs.Kinds[s.Kind].ID] = true
		}
	}
	for _, laid := range j.laid() {
		for _, pc := range laid {
			if !never[pc.part.ID] {
				continue
			}
			j.seen["forbidden"]++
			if len(names) > 0 {
				j.say("forbidden-stock", "the %s is of a stock that must not be lasered, and leaves as %s", pc.part.ID, names[0])
				return
			}
		}
	}
	for _, f := range j.view.Files {
		if j.v.Sheet.Stock.Laser.Never && strips.MatchString(f.Name) {
			j.say("forbidden-stock", "test strips of a stock that must not be lasered leave as %s", f.Name)
			return
		}
	}
}

// stopped looks at the files of a design that a stop speaks against.
func (j *judge) stopped(names []string) {
	j.seen["stopped"]++
	for _, f := range j.view.Findings {
		if f.Severity == finding.Stop && withholds[f.ID] != "" {
			j.say("stop-leaves", "%s (%s) and still %s", f.ID, withholds[f.ID], names[0])
			return
		}
	}
	for _, name := range names {
		if !marked(name) {
			j.say("stop-unmarked", "%s, and its name says nothing of %s", name, j.view.Findings[0].ID)
			return
		}
		if strings.HasSuffix(name, ".svg") {
			if d, err := readDrawing(j.file(name)); err == nil && !marked(d.title) {
				j.say("stop-unmarked", "%s: its title says nothing of %s: %q", name, j.view.Findings[0].ID, d.title)
				return
			}
		}
	}
}

// marked tells whether a name or a title says that something is wrong.
func marked(s string) bool {
	return regexp.MustCompile(`(?i)do.?not.?cut|not.?sound`).MatchString(s)
}

var identity = plane.Identity()
