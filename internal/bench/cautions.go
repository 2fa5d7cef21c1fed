package bench

import (
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/stock"
)

// Cautions returns what belongs beside a cut file, of the tool and of all sheets that
// parts are cut from. Sources: HSE, "MDF" questions and answers (wood dust, COSHH);
// university laser-cutter guidance (never unattended, extract outdoors, clean bed,
// extinguisher); first-aid sheets for cyanoacrylate. Lines on saws, routers, knives and
// plastic are common practice, no source.
func Cautions(p *plan.Plan) []string {
	tool := p.V.Machine.Tool
	used := stocks(p)
	wood, plastic := false, false
	for _, s := range used {
		wood = wood || wooden(s.Family)
		plastic = plastic || s.Family == stock.Plastic
	}
	first := "The machine's manual, your local rules and people trained on the machine come first. What stands here only reminds."
	if tool == machine.Knife {
		first = "The makers' instructions, your local rules and people trained in the work come first. What stands here only reminds."
	}
	out := append([]string{first}, ofTool(tool)...)
	if wood {
		out = append(out, dust(tool))
	}
	if plastic && (tool == machine.Router || tool == machine.Saw) {
		out = append(out, "Chips of plastic are sharp and hot. Protect your eyes, and clear them with a brush, not by hand.")
	}
	out = append(out, "Follow the label of your glue. Instant glue bonds skin in seconds and can heat and smoke on cotton or tissue: no cotton gloves, air the room, and get help for eyes.")
	if plastic {
		out = append(out, "Solvent cement burns, and its vapour harms. Follow its label and safety sheet, air the room well, and keep flames and sparks away.")
	}
	said := map[string]bool{}
	for _, s := range used {
		notes := s.Notes
		if tool == machine.Laser {
			notes = append(append([]string{}, notes...), s.BeamNotes...)
		}
		for _, n := range notes {
			if !said[n] {
				said[n] = true
				out = append(out, n)
			}
		}
	}
	return out
}

// ofTool is what to mind with a tool, whatever the sheet.
func ofTool(tool machine.Tool) []string {
	switch tool {
	case machine.Router:
		return []string{
			"Clamp the sheet so that freed parts can't be thrown. Wear eye and ear protection, keep hands and sleeves from the cutter, and stop it before you reach in.",
			"Cut the power before you change a cutter.",
		}
	case machine.Saw:
		return []string{
			"A partial cut often means a raised or removed guard: use push block and stop, keep hands off the line of the blade, and put the guard back.",
			"Wear eye and ear protection. Cut the power before you change or set the blade.",
		}
	case machine.Knife:
		return []string{"Use a sharp blade, a steel rule with a lip, and several light strokes. Keep the other hand behind the edge."}
	}
	return []string{
		"Never leave a running laser alone. Keep an extinguisher in reach, the bed clean, and nothing that burns beside the sheet.",
		"Cut only sheet you know. PVC and other chlorinated plastics give off corrosive, poisonous gas. Extract the fumes outdoors; a filter that returns the air does not hold formaldehyde.",
		"Keep lids and interlocks as they are, and wear eyewear made for your laser's wavelength where the beam is not enclosed: a scattered beam harms eyes too.",
	}
}

// dust is the caution about the dust of wood.
func dust(tool machine.Tool) string {
	const harm = "Dust of MDF and wood harms lungs and may cause cancer. "
	if tool == machine.Knife {
		return harm + "Wear a fitted mask rated for it when you sand, and check the limits that hold where you work."
	}
	return harm + "Extract at the tool, wear a fitted mask rated for it when you brush the scores or sand, and check the limits that hold where you work."
}
