// Package fit turns any curve into few lines, arcs and cubics.
//
// # What is followed
//
// A source is a curve as smooth stretches: a path, a function of a parameter, a parallel
// (all in plane), or dense points (Points here). Where the direction jumps by more than
// Kink is a corner. Corners stay where they are and part the curve into runs.
//
// # The method
//
// Each run becomes samples, points with tangents, so close that the cubic between two of
// them strays from the curve by less than 1/64 of the tolerance (trace.go):
//
//	source   .-'''-._                       .   sample
//	       .'        '-._    .-.-.-.-.-.    o   sample where pieces may end: a node
//	      o . . o . . o  '-o'               dev at a sample: along its normal, to the piece
//
// A piece between two nodes is judged at all samples between them. It must meet the normal
// of each, in order, running the same way:
//
//	line, arc   Seen from a sample p on an arc from a to b, the turn from a-p to p-b is half
//	            the sweep. A sample within the tolerance allows an interval of half sweeps,
//	            and what all allow is what remains (arc.go).
//	cubic       Ends and end tangents are the source's. Two handle lengths are left, found by
//	            least squares of the deviations along the normals; matching samples with the
//	            cubic and solving alternate, and at last the weights level what is left
//	            (cubic.go has the papers).
//
// The fewest pieces (layers.go): the longest piece from each place gives their number n. Let
// far[k] be the farthest node that k pieces reach from the start, near[q] the first from
// which q pieces reach the end. Joint k of n lies between near[n-k] and far[k]:
//
//	start o----------------o-------------------o--------o end      far:  longest from the start
//	      o-------o------------------o------------------o          near: longest from the end
//	              |<- joint 1 ->|    |<- joint 2 ->|
//
// A few candidates in each such window, and dynamic programming takes those whose squared
// deviations add up to least. A joint where parts of the source meet is always a candidate.
//
// Arcs alone (arcspline.go) are not tangent to the source at their joints, only to each
// other, within Kink: the directions in which one arc may arrive at a joint are an interval,
// which the next chord reflects. The search carries intervals forward and reads one chain
// off backwards. Where none is found a piece is two arcs, a biarc (pairs.go).
//
// # The guarantee
//
// No sample is farther from the path than 63/64 of the tolerance; what lies between two
// samples is bounded by the parabola through the deviations at three of them (run.bulge),
// and the last 64th is for how far the curve strays from the cubic that stands for it. So
// Fitted.Deviation bounds the distance both ways (Hausdorff distance), and no piece is
// skipped, doubled or run backwards. FuzzFit and the tests of every case hold Deviation, a
// measurement of its own, against it. That there are no fewer pieces is not proved; the
// README has counts beside two other libraries.
//
// # Thresholds
//
// Each has a name where it is used, with its reason. Those that the guarantee rests on are
// sampleSlack, samplesTurn, fewSamples, edgeStep and sameWay. The others choose: what they get wrong costs
// pieces or time. THRESHOLDS
package fit
