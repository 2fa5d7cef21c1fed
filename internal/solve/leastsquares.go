package solve

import "math"

// Fit is the answer of LeastSquares.
type Fit struct {
	X          []float64   // the parameters
	Sum        float64     // sum of squared residuals at X
	Covariance [][]float64 // (J'J)^-1; of X if the residuals are in units of their own sigma
	Steps      int
	Converged  bool
}

// Sigma returns the standard deviation of parameter i, the root of its covariance.
func (f Fit) Sigma(i int) float64 { return math.Sqrt(f.Covariance[i][i]) }

// LeastSquares minimises the sum of squares of m residuals over the parameters, from
// start on. residuals fills r from x; each should be in units of its own standard
// deviation, and each parameter of order one (a logarithm, say), since derivatives are
// central differences of step 1e-5. The parameters are found to about 1e-9.
//
// Levenberg-Marquardt with the damping rule of H. B. Nielsen, Damping Parameter in
// Marquardt's Method, IMM-REP-1999-05 (1999), on a Householder QR of the Jacobian
// (G. H. Golub, C. F. Van Loan, Matrix Computations, chapter 5). It panics if there are
// fewer residuals than parameters; parameters that no residual sees have an infinite
// variance. A library of linear algebra would do, but its sums run in another order on
// machines with vector units, and the last bits with them.
func LeastSquares(residuals func(x, r []float64), start []float64, m int) Fit {
	n := len(start)
	if m < n || n == 0 {
		panic("solve: least squares needs as many residuals as parameters")
	}
	x := append([]float64(nil), start...)
	r, trial := make([]float64, m), make([]float64, m)
	residuals(x, r)
	fit := Fit{Sum: square(r)}
	jac := jacobian(residuals, x, m)
	mu, grow := 1e-3*largestColumn(jac), 2.0
	for fit.Steps = 0; fit.Steps < 100; fit.Steps++ {
		step := damped(jac, r, mu)
		if norm := math.Sqrt(square(step)); norm < 1e-10 {
			fit.Converged = true
			break
		}
		next := make([]float64, n)
		for i := range next {
			next[i] = x[i] + step[i]
		}
		residuals(next, trial)
		sum := square(trial)
		gain := fit.Sum - sum
		foreseen := foreseenGain(jac, r, step)
		if !(gain >= 0) || foreseen <= 0 {
			if foreseen <= 1e-14*fit.Sum { // as low as rounding lets it go
				fit.Converged = true
				break
			}
			mu *= grow
			grow *= 2
			continue
		}
		x, fit.Sum = next, sum
		copy(r, trial)
		jac = jacobian(residuals, x, m)
		q := float64(2*gain/foreseen) - 1
		mu *= max(1.0/3, 1-q*q*q)
		grow = 2
	}
	fit.X = x
	fit.Covariance = covariance(jac)
	return fit
}

// jacobian returns the columns dr/dx_j by central differences.
func jacobian(residuals func(x, r []float64), x []float64, m int) [][]float64 {
	const h = 1e-5
	cols := make([][]float64, len(x))
	at := append([]float64(nil), x...)
	up, down := make([]float64, m), make([]float64, m)
	for j := range x {
		at[j] = x[j] + h
		residuals(at, up)
		at[j] = x[j] - h
		residuals(at, down)
		at[j] = x[j]
		c := make([]float64, m)
		for i := range c {
			c[i] = (up[i] - down[i]) / (2 * h)
		}
		cols[j] = c
	}
	return cols
}

// damped solves the least-squares problem |J s + r|^2 + mu |s|^2.
func damped(jac [][]float64, r []float64, mu float64) []float64 {
	n, m := len(jac), len(r)
	cols := make([][]float64, n)
	root := math.Sqrt(mu)
	for j := range cols {
		cols[j] = append(append(make([]float64, 0, m+n), jac[j]...), make([]float64, n)...)
		cols[j][m+j] = root
	}
	rhs := make([]float64, m+n)
	for i := range r {
		rhs[i] = -r[i]
	}
	diag := triangulate(cols, rhs)
	return backSubstitute(cols, diag, rhs)
}

// triangulate turns the matrix of columns into upper triangular form by Householder
// reflections, applying them to rhs as well: cols[j][i] holds R for i < j, diag its
// diagonal.
func triangulate(cols [][]float64, rhs []float64) []float64 {
	diag := make([]float64, len(cols))
	for j, c := range cols {
		v := c[j:]
		norm := math.Sqrt(square(v))
		if norm == 0 {
			continue
		}
		if v[0] > 0 {
			norm = -norm
		}
		diag[j] = norm
		v[0] -= norm
		half := -float64(v[0] * norm) // v'v/2
		for _, other := range cols[j+1:] {
			reflect(v, half, other[j:])
		}
		reflect(v, half, rhs[j:])
	}
	return diag
}

func reflect(v []float64, half float64, y []float64) {
	s := dot(v, y) / half
	for i := range v {
		y[i] -= float64(s * v[i])
	}
}

func backSubstitute(cols [][]float64, diag, rhs []float64) []float64 {
	n := len(cols)
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		s := rhs[i]
		for j := i + 1; j < n; j++ {
			s -= float64(cols[j][i] * x[j])
		}
		if diag[i] != 0 {
			x[i] = s / diag[i]
		}
	}
	return x
}

// covariance returns (J'J)^-1 = R^-1 R^-T; a parameter that no residual sees gets an
// infinite variance.
func covariance(jac [][]float64) [][]float64 {
	n := len(jac)
	cols := make([][]float64, n)
	for j := range cols {
		cols[j] = append([]float64(nil), jac[j]...)
	}
	diag := triangulate(cols, make([]float64, len(jac[0])))
	inv := make([][]float64, n) // inv[k] = column k of R^-1
	for k := range inv {
		e := make([]float64, n)
		e[k] = 1
		inv[k] = backSubstitute(cols, diag, e)
	}
	cov := make([][]float64, n)
	for i := range cov {
		cov[i] = make([]float64, n)
		for j := range cov[i] {
			for k := max(i, j); k < n; k++ {
				cov[i][j] += float64(inv[k][i] * inv[k][j])
			}
		}
		if diag[i] == 0 {
			cov[i][i] = math.Inf(1)
		}
	}
	return cov
}

// foreseenGain is how much the sum would fall if the residuals were linear.
func foreseenGain(jac [][]float64, r, step []float64) float64 {
	after := append([]float64(nil), r...)
	for j, c := range jac {
		for i := range after {
			after[i] += float64(c[i] * step[j])
		}
	}
	return square(r) - square(after)
}

func largestColumn(jac [][]float64) float64 {
	most := 0.0
	for _, c := range jac {
		most = max(most, square(c))
	}
	return most
}

func square(v []float64) float64 { return dot(v, v) }

func dot(a, b []float64) float64 {
	s := 0.0
	for i := range a {
		s += float64(a[i] * b[i])
	}
	return s
}
