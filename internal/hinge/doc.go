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
//	root     a = 0.865 w (flat)   or   0.447 wr/(1 + 0.09 wr/eta) (round, V)
//	isolated b = 1.317 eta (1 - eta^2 + (1-eta) eta^6) G
//	array    n = min(20, 1 + 0.584 exp(1.384 p/Lam)),  L = p - a
//	hinge    l = a + L (1 + (L/b)^n)^(-1/n)
//	C        = EI plain / EI scored = 1 + (l/p)(eta^-3 - 1)
//	neutral  y_n = (1/2 + y_e (C-1))/C                        from the uncut face
//	lever    = l_x (1 - 1/C)            mouth closing per rotation of one spacing
//	strain   = k_t kappa t/(2 C eta^2)                        on the uncut face
//
// with y_e, l_x and k_t blended from one score alone to scores that nearly touch (see
// law.go and cell.go). G and Lam are 1 for an isotropic sheet and larger for one that
// is soft through its thickness, such as MDF or plywood (see material.go).
//
// # Sources and error
//
// The deep and shallow limits of b are theory (Tada, Paris & Irwin, The Stress Analysis
// of Cracks Handbook, 3rd ed. 2000, sections 2.13-2.14); G and Lam follow Suo's
// rescaling of orthotropic crack problems. All other constants were fitted for this
// project to the isotropic rows of the finite-element table
// testdata/reference/scored-cell-fe.csv; none was refitted to the orthotropic rows.
//
// Against that table, inside the checked domain d/t 0.3-0.9, w/t 0.03-0.3, p/t 0.25-8:
//
//	                        C rms   C worst   k_t worst   lever worst   y_n worst
//	isotropic               1.0 %    6 %       4.2 %        8 %         0.010 t
//	E_z/E_x 0.1 or 0.05     2.6 %   10 %      11 %          7 %         0.008 t
//
// The worst lever is at d/t = 0.3; for d/t >= 0.6 and w/t <= 0.15 it is 1.3 %. Not in
// the law: density layers, plies, creep, char, crushing of mouths that have shut, and
// fracture at the bottom of a score. C grows as (t/h)^3, so what is not known of the
// depth outweighs the error of the law.
//
// Lengths are mm, moduli MPa, angles rad, moments N mm per mm of width.
package hinge
