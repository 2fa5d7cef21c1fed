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
// Each has a name where it is used, with its reason. Each was changed both ways, far, over
// 355 fits: the curves of the tests in all modes, random outlines, blobs, parallels, scattered
// points, single segments. What came of it, in pieces (1874 in all) and in fits that left the
// tolerance or their own Deviation (none):
//
//	the guarantee rests on
//	sameWay        without it an arc or line runs the other way round: 17 fits leave, by up to 100 mm
//	sampleSlack    1/1024: one fit leaves its Deviation; 1/8: 3 % more pieces
//	fewSamples     1 or 2: one fit leaves its Deviation
//	samplesTurn    0.999: one fit leaves its Deviation; wider turns showed nothing
//	flatArc        1, or 1e18 (never): the distance from a far centre is rounding, 1 to 3 leave
//	longBy         never: straights bend the directions beside them, 5 kinks over the limit
//
//	pieces depend on
//	quickTurn      Quick alone: 0.1 a quarter more of all pieces, 10 fewer, but found later
//	mostStep       0.01: 21 % more.          longest   0.4: 13 % more, and a kink
//	shortest       5: 6 % more               cornerTurn  0.03 rad: twice as many
//	arcCandidates  2: 6 % more               leastHalf   20: 4 % more
//	finest, nodesAPiece  48, 2: 3 % more     mostNodes   100: 2 % more
//	mostTurn       2: 2 % more               mostCuts    1: 2 % more
//	evenSteps      0: 6 % more; 12: 2 % more, as too even a tolerance leaves joints no room
//	rim            0.8: 4 % more; 1: 1 % more, as arcs at the rim are refused afterwards
//	fewPart        0.05: 1 % more            labelsKept, newGround  1: 0.5 % more
//	freeing, farOff  0, 3: 1 % more          joinTolerance, remainder  0: 0.4 % more
//
//	only time, or nothing that these curves show
//	nearSamples, mostHalvings, exactSteps, exactTurn, gradedFrom, coarse, fine,
//	leastSpread, roundWay, fitSamples, mostRounds, settled, lastGain, halfway, nearly,
//	leastWeight, matched, ridgeOver, edgeStep, mostArcTurn, tangentSlack, wrapsFrom, smallAngle,
//	lineWorse, lineGive, leastPart, startsTried,
//	someCandidates, cornerReach, repeat, fewPoints, jointSag, mostHalf, misfit, steady
//
// Of the last, edgeStep, atFoot and the limits of arcs were put in for curves found by fuzzing,
// which are not among these. nearly, leastWeight and halfway look as if they could go: levelling
// the deviation by weights saved no piece here.
//
// Of the tests of this package TestFitPieces fails for sampleSlack 1/8, samplesTurn 0.999,
// joinTolerance 0, finest 48, farOff 1, freeing 0, mostTurn 2 and an exactTurn of 10,
// TestFitQuick for sampleSlack 1/1024 and fewSamples 2.
package fit
