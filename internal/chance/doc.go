// Package chance reckons how likely a panel of many scores fails: that the skin cracks
// at one of them, or that a mouth shuts before the curve is reached.
//
// # The model
//
// Known for all scores alike, each normal: thickness t, setting (depth from the top, or
// the skin where the tool is set from the table), width w of the mouth, and the mean
// rupture strain of a strip. Different at each score: its skin h, normal about what the
// setting leaves, and the rupture strain of its skin, weakest link (Weibull) with the
// coefficient of variation of strips cut from one sheet:
//
//	share of scores of length b that hold eps = exp(-(b/strip) (Gamma(1+1/m) eps/mean)^m)
//
// A score yields c = (l/t)(eta^-3 - 1) of plain panel, the lands beside it lambda (see
// hinge.Law.Parts). A panel passes through two states, and may fail in either:
//
//	in the hand: one moment along a bend   theta_i = W_i c_i f_i turn / sum W_j (c_j f_j + lambda_j)
//	on the rib:  each fold as laid         theta_i = turn_i c_i/(c_i + lambda_i)
//
// so that a score which came out deeper takes more than its share in the hand, and with f_i,
// hinge.Takes to neighbours of the planned skin, land of theirs where scores lie close;
// its strain goes with the moment alone, without f_i. W_i tells
// how the moment runs along the bend: as the laid folds ask for where all scores come out
// alike, so 1 where spacing and radius are even. With theta_i follow strain and what is
// left of the mouth as in hinge.Law.Fold.
//
// # Without sampling
//
// Given what all scores share, they are independent but for two things: the sum in the
// hand, and the width of the mouth. What the sum scatters by, v = sd(sum)/sum, is taken
// as one more scatter of the mean rupture strain and of the width; the width is summed
// over exactly, as each score shuts below a width of its own. So the chance is a sum over
// the setting, what it leaves of the thickness, and the mean rupture strain, of a product
// over scores. Against brute-force simulation (testdata/reference/chance.csv, 30 designs
// of 8 to 51 scores with chances from 1e-4 to a half) it stays within a factor of 1.35. That
// simulation has no f; where scores lie closer than p = 1.6 h Lam N pinching is judged by one
// that has, with every neighbour's skin as drawn, and is within 1.3. There f makes pinching in
// the hand up to five times as likely.
//
// Not in the model: land shared on the rib, where no solver has been asked, scatter along one
// score, and a mouth that shuts and still bends.
//
// W. Weibull, A statistical theory of the strength of materials, 1939, from memory.
package chance
