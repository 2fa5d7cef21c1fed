package sheet

import "testing"

func TestStat(t *testing.T) {
	job := mixed(nil)
	pinned, free, _ := job.sortOut()
	p := newPacker(&job, pinned, free)
	for i, k := range p.kinds {
		t.Log(i, len(k.body), len(k.reach), k.slack, len(job.Pieces[i].Outline.Holes), len(job.Pieces[i].Outline.Outer.Segs), len(job.Pieces[i].Reach))
	}
	z, s := 0, 0
	for a := range p.kinds {
		for b := range a {
			f, _ := p.between(b, a)
			z += len(f.zones)
			s += len(f.sides)
		}
	}
	t.Log(float64(z)/(780), float64(s)/780)
}
