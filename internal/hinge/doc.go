// Package hinge is the mechanics of a panel scored part-way through along parallel
// lines: how far it softens, where its neutral fibre lies, when the mouths of the
// scores pinch shut, and the strain of the skin that is left.
//
// # The law
//
// Lengths over the panel thickness t: depth x = d/t, web eta = h/t = 1-x, mouth width
// w, root width wr, spacing (centre to centre) p. The panel is linear elastic and even
// through its thickness (layers: see below); E' = E/(1-nu^2) for a wide panel.
//
//	   |<-------- p -------->|          scored face
//	___     _________________     _________________     ___
//	   |   |                 |   |<- w
//	   |   |  land           |   |                     d, t
//	   |___|                 |___|
//	_____________________________________________________
//	     h = t - d, the web               uncut face, y = 0
//
//	root     a = 0.865 w (flat)   or   0.447 wr/(1 + 0.09 wr/eta)/sqrt(Lam) (round, V)
//	isolated b = 1.317 eta (1 - eta^2 + (1-eta) eta^6) G
//	array    n = min(20, 1 + 0.584 exp(1.384 p/(Lam N))),  L = p - a
//	hinge    l = a + L (1 + (L/b)^n)^(-1/n);               l = p where L <= 0
//	C        = EI plain / EI scored = 1 + (l/p)(eta^-3 - 1)
//	neutral  y_n = (1/2 + y_e (C-1))/C                        from the uncut face
//	lever    = l_x (1 - 1/C)            mouth closing per rotation of one spacing
//	closing  = w/lever                  rotation of one spacing that shuts the mouth
//	strain   = k_t kappa t/(2 C eta^2)                        on the uncut face
//
// Three quantities go from those of one score alone (0) to those of scores that touch (1)
// as the spacing falls, each by a blend of its own, x = x_0 + o (x_1 - x_0):
//
//	y_e   eta (0.700 - 0.602 eta + 0.254 eta^2)               o = exp(-(p/(0.494 Lam))^1.5)
//	      to eta (1 - eta^2)/(2 (1 - eta^3))
//	l_x   1 - eta (0.724 - 1.10 eta + 0.517 eta^2 - 1.66 eta^4)
//	      to (1 - eta/2)/(1 - eta^3)                          o = exp(-(p/(0.5415 Lam))^2.28)
//	k_t   k_0, below, to 1                                    o = exp(-(p/(0.559 eta Lam))^1.822)
//
// Those of touching scores are theory: the panel is then one thin panel of thickness h,
// whose middle keeps its length. In a narrow strip the lands bend with E and the webs with
// E/(1-nu^2), so C-1 is 1-nu^2 times as large. Of uneven scores each has half the hinge of
// either side (Fold), and the lands take a part of the turning as Parts says.
//
// G, Lam and N = sqrt((1+rho)/2) are 1 for an isotropic sheet and larger for one that is
// soft through its thickness, such as MDF or plywood: with the b_ij of Anisotropy
//
//	Lam = (b22/b11)^(1/4),   rho = (b12 + 1/(2 G_xz))/sqrt(b11 b22)
//	G   = Lam (1 + 0.1 r - 0.016 r^2 + 0.002 r^3)^2,   r = rho - 1
//
// # Layers
//
// Pressed board is stiffer at its faces, by r over E, than inside; E(y) is a parabola
// (layers.go has it, and what is published). Beams' theory of such a skin gives
//
//	s   its EI over E h^3/12          m   its fibre without stress over h/2, from the uncut face
//
// and in the law, all 1 where r is 1:
//
//	C = 1 + (l/p)(eta^-3/s - 1),   b times 1 + 0.21 (r-1),   k_0 times 1 + 0.05 (r-1)
//	y_e, 1 - l_x of one score alone times m;   strain times m/s
//
// and those of touching scores are again theory. Plain stretches keep E. Against
// testdata/reference/layered-fe.csv, r 1 to 1.3: what layers change within 1.3 % (C), 1.8 %
// (strain), 0.5 % (lever), 0.0025 t (fibre); C itself within 2 %.
//
// Plies are no such layers: their modulus jumps, and which way they lie decides.
//
// # Sources and error
//
// The deep and shallow limits of b are theory (Tada, Paris & Irwin, The Stress Analysis
// of Cracks Handbook, 3rd ed. 2000, sections 2.13-2.14). G, Lam and N follow Suo's
// rescaling of orthotropic crack problems (Anisotropy has the papers). All other constants
// were fitted for this project to the isotropic rows of the finite-element table
// testdata/reference/scored-cell-fe.csv; "go run ./build law" fits them again and prints,
// sheet by sheet, what they miss it by. One exponent was fitted to its orthotropic
// rows: a as Lam^(-1/2), which each of the three orthotropic sheets asks for on its own.
// The strain factor was fitted to all rows together, k_t of a score alone being
//
//	k_0 = 1.019 - 0.200 N^-1.72 eta^0.0852 exp(-blunt a'/(eta Lam^1.072))
//
// with a' the root length of an isotropic sheet and blunt 2.783 for a flat bottom, 1.487
// for the others.
//
// Against that table, inside the checked domain d/t 0.3-0.9, w/t 0.03-0.3, p/t 0.25-8:
//
//	                        C rms   C worst   k_t rms   k_t worst   lever worst   y_n worst
//	isotropic               1.1 %    6 %      1.1 %      2.9 %        4.5 %       0.010 t
//	E_z/E_x 0.1 or 0.05     1.2 %    4 %      1.6 %      4.3 %        5.4 %       0.007 t
//
// Eight orthotropic sheets, E_z/E_x 0.02-0.3 and G_xz/E_x 0.025-0.3, that nothing was
// fitted to (testdata/reference/sharp-flat-fe.csv): C 1.1-1.5 % rms at w/t 0.05. Flat
// bottoms whose corners are quite sharp are softer than the law says, C by 2 % at w/t
// 0.15 and by 7 % at w/t 0.3, d/t 0.9.
//
// The worst C is of full-round bottoms that nearly touch and of sharp roots at d/t 0.9,
// p/t 0.25; the worst lever is at d/t = 0.3, and 1 % for d/t >= 0.6, w/t <= 0.15. The table
// does not have the worst corner of its own domain: shallow, wide, flat and close. There,
// at d/t 0.3, w/t 0.3 of an isotropic sheet, the lever is 8 % too long at p/t 0.5 and 0.6,
// 5 % at 0.4 and 4 % at 1 (CalculiX 2.20, sharp corners; TestLeverInTheWorstCorner), so that
// the mouth shuts later than the law says. Not in the law: plies, creep, char, crushing of
// mouths that have shut, and fracture at the bottom of a score. C grows as (t/h)^3, so what is not known of the
// depth outweighs the error of the law.
//
// Lengths are mm, moduli MPa, angles rad, moments N mm per mm of width.
package hinge
