package solve

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// NIST Statistical Reference Datasets, nonlinear regression, Misra1a (D. Misra, 1978):
// y = b1 (1 - exp(-b2 x)); certified values, from memory, and checked by the fit's own
// sum of squares.
func TestLeastSquaresMisra1a(t *testing.T) {
	y := []float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78}
	x := []float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0}
	f := LeastSquares(func(b, r []float64) {
		b1, b2 := Exp(b[0]), Exp(b[1])
		for i := range r {
			r[i] = y[i] + b1*math.Expm1(-b2*x[i])
		}
	}, []float64{math.Log(500), math.Log(1e-4)}, len(x))
	require.True(t, f.Converged)
	assert.InEpsilon(t, 2.3894212918e2, Exp(f.X[0]), 1e-7)
	assert.InEpsilon(t, 5.5015643181e-4, Exp(f.X[1]), 1e-7)
	assert.InEpsilon(t, 1.2455138894e-1, f.Sum, 1e-8)
	s := math.Sqrt(f.Sum / 12)
	assert.InEpsilon(t, 2.7070075241, s*f.Sigma(0)*Exp(f.X[0]), 1e-4)
	assert.InEpsilon(t, 7.2668688436e-6, s*f.Sigma(1)*Exp(f.X[1]), 1e-4)
}

// More, Garbow & Hillstrom, Testing Unconstrained Optimization Software, ACM Trans.
// Math. Softw. 7 (1981): problems 1 (Rosenbrock) and 13 (Powell singular).
func TestLeastSquaresPublishedProblems(t *testing.T) {
	f := LeastSquares(func(x, r []float64) { r[0], r[1] = 10*(x[1]-x[0]*x[0]), 1-x[0] }, []float64{-1.2, 1}, 2)
	assert.True(t, f.Converged)
	assert.InDeltaSlice(t, []float64{1, 1}, f.X, 1e-9)
	p := LeastSquares(func(x, r []float64) {
		r[0], r[1] = x[0]+10*x[1], math.Sqrt(5)*(x[2]-x[3])
		r[2], r[3] = (x[1]-2*x[2])*(x[1]-2*x[2]), math.Sqrt(10)*(x[0]-x[3])*(x[0]-x[3])
	}, []float64{3, -1, 0, 1}, 4)
	assert.Less(t, p.Sum, 1e-15, "the Jacobian is singular at the answer")
}

// A linear problem against gonum's QR and inverse.
func TestLeastSquaresAgainstGonum(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range 50 {
		n := 1 + rnd.Intn(6)
		m := n + rnd.Intn(12)
		a := mat.NewDense(m, n, nil)
		b := mat.NewVecDense(m, nil)
		for i := range m {
			b.SetVec(i, rnd.NormFloat64())
			for j := range n {
				a.Set(i, j, rnd.NormFloat64())
			}
		}
		f := LeastSquares(func(x, r []float64) {
			for i := range r {
				r[i] = -b.AtVec(i)
				for j := range x {
					r[i] += a.At(i, j) * x[j]
				}
			}
		}, make([]float64, n), m)
		require.True(t, f.Converged)
		var want mat.VecDense
		require.NoError(t, want.SolveVec(a, b))
		var ata, inv mat.Dense
		ata.Mul(a.T(), a)
		if err := inv.Inverse(&ata); err != nil {
			continue // nearly singular: nothing to compare
		}
		scale := mat.Norm(&inv, 2)
		for j := range n {
			assert.InDelta(t, want.AtVec(j), f.X[j], 1e-8*(1+scale))
			for k := range n {
				assert.InDelta(t, inv.At(j, k), f.Covariance[j][k], 1e-7*scale)
			}
		}
	}
}

func TestLeastSquaresUnseenParameter(t *testing.T) {
	f := LeastSquares(func(x, r []float64) { r[0], r[1] = x[0]-2, x[0]-4 }, []float64{0, 7}, 2)
	assert.InDelta(t, 3, f.X[0], 1e-9)
	assert.InDelta(t, 7, f.X[1], 1e-9)
	assert.True(t, math.IsInf(f.Sigma(1), 1))
	assert.InDelta(t, math.Sqrt(.5), f.Sigma(0), 1e-9)
	assert.Panics(t, func() { LeastSquares(func(x, r []float64) {}, []float64{1, 2}, 1) })
}
