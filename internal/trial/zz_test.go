package trial_test

import (
	"os"
	"sort"
	"strconv"
	"strings"
	"testing"

	"springrib/internal/trial"
)

func TestZZCones(t *testing.T) {
	n, _ := strconv.Atoi(os.Getenv("ZZ"))
	from, _ := strconv.Atoi(os.Getenv("ZZFROM"))
	seen, kinds := map[string]int{}, map[string][]string{}
	for s := uint64(from); n > 0; s++ {
		d := trial.Design(s)
		if !strings.HasPrefix(d.Curve.Kind, "cone") {
			continue
		}
		n--
		j := judgedBy(d, false)
		for k, v := range j.seen {
			seen[k] += v
		}
		for _, f := range j.view.Findings {
			if f.Severity == "stop" {
				seen["stop "+f.ID]++
			}
		}
		for _, f := range j.faults {
			kinds[f.kind] = append(kinds[f.kind], strconv.Itoa(int(s))+": "+f.text)
		}
	}
	var ks []string
	for k := range seen {
		ks = append(ks, k)
	}
	sort.Strings(ks)
	for _, k := range ks {
		t.Log(seen[k], k)
	}
	for k, v := range kinds {
		t.Logf("FAULT %s %d", k, len(v))
		for i, x := range v {
			if i < 6 {
				t.Log("    ", x)
			}
		}
	}
}

func TestZZOne(t *testing.T) {
	for _, s := range strings.Split(os.Getenv("SEEDS"), ",") {
		n, _ := strconv.Atoi(s)
		j := judgedBy(trial.Design(uint64(n)), false)
		k, _ := j.cone()
		t.Log(s, j.v.Curve.Kind, "r", k.r, "h", k.h, "slant", k.slant(), "lean", k.lean()*57.3, "sweep", k.sweep*57.3, "n", len(j.view.Scores), "T", j.v.Sheet.T, j.v.Panel.ScoredFace, "fit", j.p.Proof.Fit.Least, j.p.Proof.Fit.Most, j.p.Proof.Fit.LeastFlat, j.p.Proof.Fit.EndMiss)
		f := j.p.Scores.Layout.Folds
		round := k.sweep / float64(len(f))
		t.Log("D", f[0].D, f[1].D, f[2].D, "law", j.p.Law().Neutral(round*k.r[0]), j.p.Law().Neutral(round*k.r[1]), "heights", j.p.Panel.Strip.Rulings[1].Height, f[1].U-f[0].U, round*k.r[0])
		t.Log(j.p.Law().Neutral(f[1].U-f[0].U), j.v.Panel.Spacing, j.v.Panel.Count, j.v.Panel.Pitch, j.p.Scores.Layout.Runs, j.v.Sheet.Stock.ID, j.p.Try().Passes)
		for _, x := range j.faults {
			t.Log(x)
		}
	}
}
