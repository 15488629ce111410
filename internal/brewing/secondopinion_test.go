package brewing

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"
	"gonum.org/v1/gonum/unit/constant"

	q "gylebook/internal/quantity"
)

// A numerical library's opinion of what is worked out here by hand.

// TestAlcoholScatterAgain: mean error and standard deviation of Balling's method
// about the measured beers, by the library, together.
func TestAlcoholScatterAgain(t *testing.T) {
	var off []float64
	for _, r := range table(t, "03d_usda_bulletin493_wort_and_beer.csv") {
		got := good[q.Percent](t)(AlcoholByVolume(q.SG(r.number(t, "wort_sg_15.6_15.6")),
			q.SG(r.number(t, "beer_sg_15.6_15.6"))))
		off = append(off, float64(got)-r.number(t, "abv_measured_pct_vol_20C"))
	}
	mean, sd := stat.MeanStdDev(off, nil)
	if len(off) != 22 || math.Abs(mean) > 0.25 {
		t.Errorf("%d beers, %.3f %% vol high on average", len(off), mean)
	}
	near(t, "mean and scatter about 22 beers", math.Hypot(mean, sd), float64(AlcoholScatter), 0.02) // 0.18 is of 34 of them
}

// TestBeerToWaterAgain: the mean ratio of a brewers' chart to Weiss's water, by the
// library.
func TestBeerToWaterAgain(t *testing.T) {
	var ratios []float64
	for _, r := range table(t, "05b_co2_chart_volumes.csv") {
		heat := q.Fahrenheit(r.number(t, "temperature_F"))
		inBeer := good[q.Carbonation](t)(UnderGauge(q.Pressure(r.number(t, "gauge_pressure_psi"))*q.PSI, heat, StandardAir))
		ratios = append(ratios, r.number(t, "volumes_co2_published")/float64(inBeer)*beerToWater)
	}
	mean, sd := stat.MeanStdDev(ratios, nil)
	near(t, "beer to water, over 291 points", mean, 0.940, 0.0015) // as the constant's comment says
	if len(ratios) != 291 || sd > 0.01 {
		t.Errorf("%d points, standard deviation %.4f", len(ratios), sd)
	}
}

// TestYoungersFitAgain: the library's own least squares on the brewery's nine
// gravities finds the curve that the reference states.
func TestYoungersFitAgain(t *testing.T) {
	var at []q.Duration
	var points []float64
	for _, r := range table(t, "16a_fermentation_series.csv") {
		if r["series"] == "Younger XXX 1941" {
			at = append(at, q.Duration(r.number(t, "time"))*q.Day/2)
			points = append(points, q.SG(r.number(t, "sg")).Points())
		}
	}
	squares := func(x []float64) float64 {
		sum := 0.0
		for i := range at {
			g, err := LogisticGravity(q.SG(1+x[0]/1000), q.SG(1+x[1]/1000), q.Number(x[2]), q.Duration(x[3])*q.Day, at[i])
			if err != nil {
				return math.Inf(1)
			}
			sum += (g.Points() - points[i]) * (g.Points() - points[i])
		}
		return sum
	}
	fit, err := optimize.Minimize(optimize.Problem{Func: squares}, []float64{40, 12, 1, 1}, nil, &optimize.NelderMead{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{40.909, 14.706, 2 * 0.8560, 1.6054 / 2} { // the reference counts half-days
		near(t, []string{"start", "finish", "rate a day", "middle, days"}[i], fit.X[i], want, 0.002*want)
	}
	near(t, "sum of squares", fit.F, 4.4637, 0.005)
	// It is a least: downhill leads nowhere.
	slope := fd.Gradient(nil, squares, fit.X, nil)
	if norm := mat.Norm(mat.NewVecDense(len(slope), slope), 2); norm > 0.05 {
		t.Errorf("the sum of squares still slopes by %g", norm)
	}
}

// TestUtilisationIntegrates: Tinseth's utilisation is the sum of what each moment
// isomerises, which fades by 4 % a minute; a steep goes along the same curve as
// much slower as isomerisation does.
func TestUtilisationIntegrates(t *testing.T) {
	for _, g := range []q.Gravity{1.030, 1.050, 1.090} {
		for _, minutes := range []float64{5, 20, 60, 120} {
			moment := func(t float64) float64 { return 1.65 * math.Pow(0.000125, g.SG()-1) * 0.04 * math.Exp(-0.04*t) / 4.15 }
			sum := quad.Fixed(moment, 0, minutes, 40, nil, 0)
			near(t, "utilisation", good[float64](t)(UtilisationTinseth(q.Duration(minutes), g)), sum, 1e-9)

			speed := isomerisation(80) / isomerisation(100)
			steeped := quad.Fixed(func(t float64) float64 { return speed * moment(speed*t) }, 0, minutes, 40, nil, 0)
			got := good[q.Bitterness](t)(BitternessSteeped(1, 100.0/4, q.Duration(minutes), 80, g, 0.25))
			near(t, "bitterness of a steep", float64(got)/1000, steeped, 1e-9)
		}
	}
}

// TestDensitiesSlope: water's density and the sucrose table have no kinks: their
// slopes, by the library, go steadily.
func TestDensitiesSlope(t *testing.T) {
	slope := func(f func(float64) float64, x float64) float64 {
		return fd.Derivative(f, x, &fd.Settings{Formula: fd.Central, Step: 1e-3})
	}
	density := func(c float64) float64 { return waterDensity(q.Celsius(c)) }
	last := slope(density, 5)
	for c := 6.0; c <= 95; c++ {
		now := slope(density, c)
		if now > last+1e-6 || last-now > 0.02 {
			t.Errorf("water at %g °C: kg/m³ a degree goes from %g to %g", c, last, now)
		}
		last = now
	}
	plato := func(points float64) float64 { return q.SG(1 + points/1000).Plato() }
	last = slope(plato, 1)
	for points := 2.0; points <= 120; points++ {
		now := slope(plato, points)
		if now > last || last-now > 0.001 {
			t.Errorf("at %g points: °P a point goes from %g to %g", points, last, now)
		}
		last = now
	}
}

// TestGasConstantAgain: Boltzmann's constant times Avogadro's, by a library of
// constants with their dimensions, in L atm/(mol K).
func TestGasConstantAgain(t *testing.T) {
	product := constant.Boltzmann.Unit().Mul(constant.Avogadro)
	perMoleAndKelvin := unit.New(1, unit.Dimensions{unit.MassDim: 1, unit.LengthDim: 2, unit.TimeDim: -2,
		unit.TemperatureDim: -1, unit.MoleDim: -1})
	if !unit.DimensionsMatch(product, perMoleAndKelvin) {
		t.Fatalf("%v is no gas constant", product)
	}
	near(t, "L atm/(mol K)", product.Value()/atmosphereKPa, gasConstant, 1e-10) // ten digits are held
}
