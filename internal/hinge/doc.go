// Package hinge is the mechanics of a panel scored part-way through along parallel
// lines: how far it softens, where its neutral fibre lies, when the mouths of the
// scores pinch shut, and the strain of the skin that is left.
//
// # The law
//
// Lengths over the panel thickness t: depth x = d/t, web eta = h/t = 1-x, mouth width
// w, root width wr, spacing (centre to centre) p. The panel is linear elastic and
// homogeneous; E' = E/(1-nu^2) for a wide panel.
//
//	root     a = 0.865 w (flat)   or   0.447 wr/(1 + 0.09 wr/eta)/sqrt(Lam) (round, V)
//	isolated b = 1.317 eta (1 - eta^2 + (1-eta) eta^6) G
//	array    n = min(20, 1 + 0.584 exp(1.384 p/(Lam N))),  L = p - a
//	hinge    l = a + L (1 + (L/b)^n)^(-1/n)
//	C        = EI plain / EI scored = 1 + (l/p)(eta^-3 - 1)
//	neutral  y_n = (1/2 + y_e (C-1))/C                        from the uncut face
//	lever    = l_x (1 - 1/C)            mouth closing per rotation of one spacing
//	strain   = k_t kappa t/(2 C eta^2)                        on the uncut face
//
// with y_e, l_x and k_t blended from one score alone to scores that nearly touch (see
// New and Cell). G, Lam and N = sqrt((1+rho)/2) are 1 for an isotropic sheet and larger
// for one that is soft through its thickness, such as MDF or plywood (Anisotropy).
//
// # Sources and error
//
// The deep and shallow limits of b are theory (Tada, Paris & Irwin, The Stress Analysis
// of Cracks Handbook, 3rd ed. 2000, sections 2.13-2.14). G, Lam and N follow Suo's
// rescaling of orthotropic crack problems. All other constants were fitted for this
// project to the isotropic rows of the finite-element table
// testdata/reference/scored-cell-fe.csv. One exponent was fitted to its orthotropic
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
// p/t 0.25; the worst lever is at d/t = 0.3, and 1 % for d/t >= 0.6, w/t <= 0.15. Not in
// the law: density layers, plies, creep, char, crushing of mouths that have shut, and
// fracture at the bottom of a score. C grows as (t/h)^3, so what is not known of the
// depth outweighs the error of the law.
//
// Lengths are mm, moduli MPa, angles rad, moments N mm per mm of width.
package hinge
