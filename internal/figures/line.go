package figures

import "math"

// pair is a difference to fit a line through: when it was seen, in days, how much
// it was, in points, and its standard uncertainty.
type pair struct{ day, points, u float64 }

// straight is the weighted least-squares line through some pairs. Its level, at
// the pairs' weighted mean day, and its slope are weighted sums of the pairs: the
// weights are kept, so that the doubt of what stands behind each pair can be
// carried into them. Taken at that day, level and slope do not depend on each
// other (JCGM 100:2008, H.3).
type straight struct {
	middle       float64   // the weighted mean day
	level, slope []float64 // of each pair; slope is nil where none was asked for
	strain       float64   // χ² by degree of freedom, at least 1
}

// Pairs farther off the line than so many u count for less, by Huber's rule: foam
// at the hour of a reading is no property of the logger.
const hubersPair = 1.5

// straightThrough is the line through the pairs, or with no slope their weighted
// mean. There must be a pair, and for a slope pairs of two days.
func straightThrough(pairs []pair, sloping bool) straight {
	trust := make([]float64, len(pairs))
	for i := range trust {
		trust[i] = 1
	}
	var line straight
	for range 20 {
		line = weighed(pairs, trust, sloping)
		for i, p := range pairs {
			trust[i] = min(1, hubersPair/max(math.Abs(p.points-line.at(pairs, p.day))/p.u, hubersPair))
		}
	}
	free := float64(len(pairs) - 1)
	if sloping {
		free--
	}
	line.strain = 1
	if free > 0 {
		chi := 0.0
		for i, p := range pairs {
			off := (p.points - line.at(pairs, p.day)) / p.u
			chi += trust[i] * off * off
		}
		line.strain = max(1, chi/free)
	}
	return line
}

// weighed is the line with each pair weighed by its trust ÷ u².
func weighed(pairs []pair, trust []float64, sloping bool) straight {
	line := straight{level: make([]float64, len(pairs))}
	sum := 0.0
	for i, p := range pairs {
		line.level[i] = trust[i] / (p.u * p.u)
		sum += line.level[i]
	}
	for i, p := range pairs {
		line.level[i] /= sum
		line.middle += line.level[i] * p.day
	}
	if !sloping {
		return line
	}
	spread := 0.0
	for i, p := range pairs {
		spread += line.level[i] * (p.day - line.middle) * (p.day - line.middle)
	}
	line.slope = make([]float64, len(pairs))
	for i, p := range pairs {
		line.slope[i] = line.level[i] * (p.day - line.middle) / spread
	}
	return line
}

// at is the line's value on a day.
func (l straight) at(pairs []pair, day float64) float64 {
	value := total(l.level, pairs)
	if l.slope != nil {
		value += total(l.slope, pairs) * (day - l.middle)
	}
	return value
}

// total is the pairs' weighted sum.
func total(weights []float64, pairs []pair) float64 {
	sum := 0.0
	for i, p := range pairs {
		sum += weights[i] * p.points
	}
	return sum
}

// scatter is the standard uncertainty that some doubt of each pair, independent of
// the others', brings to a weighted sum of them.
func scatter(weights []float64, of func(i int) float64) float64 {
	sum := 0.0
	for i, w := range weights {
		sum += w * w * of(i) * of(i)
	}
	return math.Sqrt(sum)
}
