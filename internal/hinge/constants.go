package hinge

// Constant is one fitted constant of the law, for those who fit it again.
type Constant struct {
	Name  string
	Value float64
}

// Constants returns the fitted constants as the law uses them. "go run ./build law" fits
// them again from the stored finite elements and prints both, with what the law then
// misses by.
func Constants() []Constant {
	return []Constant{
		{"rootFlat", rootFlat}, {"rootRound", rootRound}, {"rootShrink", rootShrink},
		{"arraySharp", arraySharp}, {"arrayGrowth", arrayGrowth},
		{"neutral0", neutral0}, {"neutral1", neutral1}, {"neutral2", neutral2}, {"reachNeutral", reachNeutral},
		{"lever0", lever0}, {"lever1", lever1}, {"lever2", lever2}, {"lever4", lever4},
		{"reachLever", reachLever}, {"powerLever", powerLever},
		{"reachStrain", reachStrain}, {"powerStrain", powerStrain},
		{"strainPlain", strainPlain}, {"strainRelief", strainRelief}, {"reliefStretch", reliefStretch},
		{"reliefReach", reliefReach}, {"reliefSkin", reliefSkin}, {"bluntFlat", bluntFlat}, {"bluntRound", bluntRound},
	}
}
