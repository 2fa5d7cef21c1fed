package bench

import (
	"slices"

	"springrib/internal/machine"
	"springrib/internal/plan"
)

// Cautions returns what belongs beside a cut file, of every stock that is cut. Sources: HSE, "MDF" questions and
// answers (wood dust, COSHH); university laser-cutter guidance (never unattended,
// extract outdoors, clean bed, extinguisher); first-aid sheets for cyanoacrylate. Saw
// and router lines are common practice, no source.
func Cautions(p *plan.Plan) []string {
	out := []string{
		"The machine's manual, your local rules and people trained on the machine come first. What stands here only reminds.",
	}
	switch p.V.Machine.Tool {
	case machine.Laser:
		out = append(out,
			"Never leave a running laser alone. Keep an extinguisher in reach, the bed clean, and nothing that burns beside the sheet.",
			"Cut only sheet you know. PVC and other chlorinated plastics give off corrosive, poisonous gas. Extract the fumes outdoors; a filter that returns the air does not hold formaldehyde.",
			"Keep lids and interlocks as they are, and wear eyewear made for your laser's wavelength where the beam is not enclosed: a scattered beam harms eyes too.")
	case machine.Router:
		out = append(out, "Clamp the sheet so that freed parts can't be thrown. Wear eye and ear protection, keep hands and sleeves from the cutter, and stop it before you reach in.")
	case machine.Saw:
		out = append(out, "A partial cut often means a raised or removed guard: use push block and stop, keep hands off the line of the blade, and put the guard back.")
	case machine.Knife:
		out = append(out, "Use a sharp blade, a steel rule with a lip, and several light strokes. Keep the other hand behind the edge.")
	}
	out = append(out,
		"Dust of MDF and wood harms lungs and may cause cancer. Extract at the tool, wear a fitted mask rated for it when you brush the scores or sand, and check the limits that hold where you work.",
		"Follow the label of your glue. Instant glue bonds skin in seconds and can heat and smoke on cotton or tissue: no cotton gloves, air the room, and get help for eyes.")
	for _, from := range p.Stocks() {
		for _, note := range from.Stock.Notes {
			if !slices.Contains(out, note) {
				out = append(out, note)
			}
		}
	}
	return out
}
