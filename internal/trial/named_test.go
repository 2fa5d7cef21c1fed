package trial_test

import (
	"fmt"
	"math"
	"strconv"

	"springrib/internal/bench"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/stock"
)

// bench holds what the bench sheet names to what the files hold.
func (j *judge) bench(laid [][]*piece) {
	cut := map[string]int{}
	for _, on := range laid {
		for _, pc := range on {
			if len(pc.cut) > 0 {
				cut[pc.part.Name]++
			}
		}
	}
	for _, row := range j.listed() {
		j.seen["bench row"]++
		n, err := strconv.Atoi(row[1])
		if err != nil || n != cut[row[0]] {
			if !j.has("off-bed", finding.Stop) && !j.has("too-many-parts", finding.Stop) {
				j.say("bench-parts", "the bench sheet names %s of the %s, the files cut %d", row[1], row[0], cut[row[0]])
			}
		}
		if isStockID(row[2]) {
			j.say("bench-stock", "the bench sheet names a sheet %q", row[2])
		}
	}
}

// listed are the rows of parts on the bench sheet. The page's own sheet also says what would mend the
// findings, which takes long to try and is looked at elsewhere: of some designs it is asked for, and
// has the same rows.
func (j *judge) listed() [][]string {
	var out, page [][]string
	for _, sec := range bench.Make(&j.p, j.view.Findings).Sections {
		if sec.ID == "parts" && sec.Table != nil {
			out = append(out, sec.Table.Rows...)
		}
	}
	if !j.sample(20) {
		return out
	}
	sheet, _, err := j.core.Bench(j.raw)
	if err != nil {
		j.say("no-bench", "%v", err)
	}
	for _, sec := range sheet.Sections {
		for _, row := range sec.Rows {
			if sec.ID == "parts" {
				page = append(page, row.Cells)
			}
		}
	}
	if fmt.Sprint(page) != fmt.Sprint(out) {
		j.say("bench-parts", "the page lists %v, the sheet %v", page, out)
	}
	j.seen["bench sheet"]++
	return out
}

func isStockID(name string) bool { _, ok := stock.Lookup(name); return ok }

// tenons holds tenons and slots to each other.
func (j *judge) tenons() {
	b := j.p.Base
	cut := 0
	for _, s := range j.p.Supports.All {
		if s.Task.Stub == nil {
			continue
		}
		j.seen["stub"]++
		if w := s.Task.Stub.Width; w < j.v.Rib.StubWidth-0.01 && !j.has("tenon-wide") && j.v.Rib.Foot != design.Plain {
			j.say("tenon-narrow", "the rib %.1f across has a tenon or stub %.2f wide, %.2f were asked for, and nothing says so", s.Across, w, j.v.Rib.StubWidth)
		}
		if s.Foot == design.Tenon {
			cut++
		}
	}
	if b == nil {
		return
	}
	// Each base has a slot for every tenon of the panels that stand on it, as wide as the
	// rib is thick and the fit asks.
	if len(b.Slots) != cut*b.Copies {
		j.say("slot-missing", "%d slots for %d panels with %d tenons each", len(b.Slots), b.Copies, cut)
	}
	if len(b.Outline.Holes) != len(b.Slots) {
		j.say("slot-missing", "%d slots, %d holes", len(b.Slots), len(b.Outline.Holes))
	}
	if b.Quantity*b.Copies < j.v.Panel.Quantity {
		j.say("slot-missing", "%d bases for %d panels each, %d panels", b.Quantity, b.Copies, j.v.Panel.Quantity)
	}
	j.seen["slot"] += len(b.Slots)
	for i, s := range b.Slots {
		fits := false
		for _, q := range j.p.Supports.All {
			fits = fits || q.Task.Stub != nil && math.Abs(s.Width-q.Thickness-j.v.Rib.Fit) < 1e-6 && math.Abs(s.Length-q.Task.Stub.Width-j.v.Rib.Fit) < 1e-6
		}
		if !fits {
			j.say("slot-size", "slot %d of %.3f by %.3f fits no tenon", i+1, s.Length, s.Width)
		}
	}
}
