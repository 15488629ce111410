package figures

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// curve is the four-parameter logistic by which gravity falls, in points and
// hours: lower + (upper − lower) ÷ (1 + e^(rate (t − middle))). It is the form of
// ASBC Yeast-14 (Speers, Rogers and Smith, J. Inst. Brew. 109(3) 229-235, 2003).
// The rate is held as its logarithm, so that it cannot turn negative.
type curve [curveSize]float64

const (
	lower = iota
	upper
	logRate
	middle
	curveSize
)

// at is the gravity in points at an hour.
func (c curve) at(hour float64) float64 {
	return c[lower] + (c[upper]-c[lower])/(1+math.Exp(math.Exp(c[logRate])*(hour-c[middle])))
}

// slopes are the derivatives of at by each parameter.
func (c curve) slopes(hour float64) curve {
	rate := math.Exp(c[logRate])
	x := clampExponent(rate * (hour - c[middle]))
	share := 1 / (1 + math.Exp(x)) // 1 at the start, 0 in the end
	fall := (c[upper] - c[lower]) * share * (1 - share)
	return curve{1 - share, share, -fall * x, fall * rate}
}

func clampExponent(x float64) float64 { return math.Max(-500, math.Min(500, x)) }

// hoursTo is when the gravity has come within so many points of its lower end.
func (c curve) hoursTo(within float64) float64 {
	span := c[upper] - c[lower]
	if span <= within {
		return c[middle]
	}
	return c[middle] + math.Log(span/within-1)/math.Exp(c[logRate])
}

// sighting is one gravity to fit: hours since pitching, points, and its standard
// uncertainty.
type sighting struct{ hour, points, u float64 }

// belief is what is known of the curve before any reading: a mean and a standard
// uncertainty for each parameter.
type belief struct{ mean, u curve }

// fitted is a curve with the covariance of its parameters.
type fitted struct {
	curve
	covariance *mat.SymDense
	// outliers are the sightings that the fit gave less weight.
	outliers int
}

// hubers is how many standard uncertainties a sighting may lie off before it
// counts for less: foam and hops throw a float much farther than that.
const hubers = 2.0

var errNoFit = errors.New("no curve goes through these readings")

// fit is the least-squares curve through the sightings, each weighted by its
// uncertainty and outliers by Huber's rule, and the belief counting as one
// sighting of each parameter. The search is Levenberg's and Marquardt's.
func fit(sightings []sighting, prior belief) (fitted, error) {
	c, damping := prior.mean, 1e-3
	best := cost(c, sightings, prior)
	search := newSearch()
	for range 200 {
		pull := normalEquations(search.normal, c, sightings, prior)
		next, ok := search.step(c, pull, damping)
		if !ok {
			return fitted{}, errNoFit
		}
		there := cost(next, sightings, prior)
		if there > best || math.IsNaN(there) {
			damping *= 8
			if damping > 1e12 {
				break
			}
			continue
		}
		settled := best-there < 1e-9*(1+best)
		c, best, damping = next, there, math.Max(damping/8, 1e-9)
		if settled {
			break
		}
	}
	return withCovariance(c, sightings, prior)
}

// cost is half the sum of squares, Huber's beyond hubers.
func cost(c curve, sightings []sighting, prior belief) float64 {
	sum := 0.0
	for _, s := range sightings {
		off := math.Abs(c.at(s.hour)-s.points) / s.u
		if off > hubers {
			sum += hubers * (off - hubers/2)
		} else {
			sum += off * off / 2
		}
	}
	for i := range c {
		off := (c[i] - prior.mean[i]) / prior.u[i]
		sum += off * off / 2
	}
	return sum
}

// normalEquations are JᵀWJ, which it puts into normal, and JᵀW(observed − curve),
// the belief included.
func normalEquations(normal *mat.SymDense, c curve, sightings []sighting, prior belief) (pull curve) {
	normal.Zero()
	for _, s := range sightings {
		residual, slopes := s.points-c.at(s.hour), c.slopes(s.hour)
		weight := 1 / (s.u * s.u)
		if off := math.Abs(residual) / s.u; off > hubers {
			weight *= hubers / off
		}
		for i := range curveSize {
			pull[i] += weight * slopes[i] * residual
			for j := i; j < curveSize; j++ {
				normal.SetSym(i, j, normal.At(i, j)+weight*slopes[i]*slopes[j])
			}
		}
	}
	for i := range curveSize {
		weight := 1 / (prior.u[i] * prior.u[i])
		normal.SetSym(i, i, normal.At(i, i)+weight)
		pull[i] += weight * (prior.mean[i] - c[i])
	}
	return pull
}

// search is the room that the steps of one search share. It factors by LAPACK's
// own routine: the matrix is damped until it can be, so that the estimate of its
// condition, which mat.Cholesky adds at four times the cost, would tell nothing.
type search struct {
	normal *mat.SymDense
	damped [curveSize * curveSize]float64
	move   [curveSize]float64
}

func newSearch() *search { return &search{normal: mat.NewSymDense(curveSize, nil)} }

// step is where the damped normal equations lead.
func (s *search) step(c, pull curve, damping float64) (curve, bool) {
	copy(s.damped[:], s.normal.RawSymmetric().Data)
	for i := range curveSize {
		s.damped[i*curveSize+i] *= 1 + damping
	}
	s.move = pull
	triangle, ok := lapack64.Potrf(blas64.Symmetric{Uplo: blas.Upper, N: curveSize, Stride: curveSize, Data: s.damped[:]})
	if !ok {
		return c, false
	}
	lapack64.Potrs(triangle, blas64.General{Rows: curveSize, Cols: 1, Stride: 1, Data: s.move[:]})
	for i := range c {
		c[i] += s.move[i]
	}
	return c, true
}

// withCovariance gives a curve the inverse of its normal matrix.
func withCovariance(c curve, sightings []sighting, prior belief) (fitted, error) {
	normal := mat.NewSymDense(curveSize, nil)
	normalEquations(normal, c, sightings, prior)
	var factors mat.Cholesky
	if !factors.Factorize(normal) {
		return fitted{}, errNoFit
	}
	f := fitted{curve: c, covariance: mat.NewSymDense(curveSize, nil)}
	if err := factors.InverseTo(f.covariance); err != nil {
		return fitted{}, errNoFit
	}
	for _, s := range sightings {
		if math.Abs(c.at(s.hour)-s.points) > hubers*s.u {
			f.outliers++
		}
	}
	return f, nil
}

// u is the standard uncertainty of whatever has these slopes by the parameters.
func (f fitted) u(slopes curve) float64 {
	sum := 0.0
	for i := range curveSize {
		for j := range curveSize {
			sum += slopes[i] * slopes[j] * f.covariance.At(i, j)
		}
	}
	return math.Sqrt(math.Max(sum, 0))
}

// uOf is the same for a function of the parameters, its slopes taken numerically.
func (f fitted) uOf(function func(curve) float64) float64 {
	var slopes curve
	for i := range curveSize {
		h := math.Sqrt(f.covariance.At(i, i)) / 10
		if h == 0 {
			continue
		}
		up, down := f.curve, f.curve
		up[i] += h
		down[i] -= h
		slopes[i] = (function(up) - function(down)) / (2 * h)
	}
	return f.u(slopes)
}
