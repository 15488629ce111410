package brewing

import (
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// anyHeld draws a container as it may be some time after it was filled, in the air of
// some height.
func anyHeld(t *rapid.T) Held {
	h := Held{
		Beer: between[q.Volume](t, "beer", 0.3, 100), Room: between[q.Volume](t, "room", 0, 30),
		Outside: between[q.AirPressure](t, "air outside", 60, 108),
	}
	gas, at := between[q.Carbonation](t, "gas", 0, 6), between[q.Temperature](t, "filled at", 0, 40)
	return must[Held](t)(Filled(h, gas, at, rapid.Bool().Draw(t, "purged")))
}

// anyBag draws a soft bag, sometimes with a little air in it.
func anyBag(t *rapid.T) Held {
	beer, room := between[q.Volume](t, "beer", 1, 50), between[q.Volume](t, "room", 0, 40)
	h := Held{Beer: beer, Room: room, Soft: true, Outside: StandardAir}
	h = must[Held](t)(Filled(h, between[q.Carbonation](t, "gas", 0, 6), 18, false))
	h.Inert = between[Moles](t, "air", 0, 0.1)
	return h
}

func anyHeat(t *rapid.T) q.Temperature { return between[q.Temperature](t, "heat", -2, 50) }

// at is how it stands, which the property's own ranges promise.
func at(t *rapid.T, h Held, heat q.Temperature) Standing { return must[Standing](t)(h.At(heat)) }

// TestPressureRoundTrip: beer under a pressure takes up what makes that pressure.
func TestPressureRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heat, p := anyHeat(t), between[q.Pressure](t, "pressure", -0.8, 3)
		held := must[q.Carbonation](t)(UnderGauge(p, heat, StandardAir))
		full := Held{Beer: 20, CO2: MolesOf(held, 20), Outside: StandardAir}
		same(t, "pressure", at(t, full, heat).Gauge, p, roundTrip)
		same(t, "volumes", MolesOf(held, 20).Volumes(20), held, roundTrip)
	})
}

// TestWarmerNeverLessPressure, nor more gas held in the open.
func TestWarmerNeverLessPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, bag, cool := anyHeld(t), anyBag(t), between[q.Temperature](t, "heat", -2, 45)
		warm := cool + between[q.Temperature](t, "warmer by", 0, 5)
		if at(t, h, warm).Gauge < at(t, h, cool).Gauge-noise {
			t.Fatal("warmer, less pressure")
		}
		if at(t, bag, warm).Gauge < at(t, bag, cool).Gauge-noise {
			t.Fatal("a warmer bag, less pressure")
		}
		if at(t, bag, warm).Free < at(t, bag, cool).Free-noise {
			t.Fatal("a warmer bag, less swollen")
		}
		open := must[q.Carbonation](t)
		if open(UnderGauge(0, warm, h.Outside)) > open(UnderGauge(0, cool, h.Outside))+noise {
			t.Fatal("warmer, more gas held")
		}
	})
}

// TestMoreGasNeverLessPressure holds for both kinds of container.
func TestMoreGasNeverLessPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, bag, heat := anyHeld(t), anyBag(t), anyHeat(t)
		more, swollen := h, bag
		more.CO2 += MolesOf(between[q.Carbonation](t, "more gas", 0, 3), h.Beer)
		swollen.CO2 += MolesOf(between[q.Carbonation](t, "more gas", 0, 3), bag.Beer)
		if at(t, more, heat).Gauge < at(t, h, heat).Gauge-noise {
			t.Fatal("more gas, less pressure")
		}
		if at(t, swollen, heat).Gauge < at(t, bag, heat).Gauge-noise {
			t.Fatal("more gas in a bag, less pressure")
		}
		if at(t, swollen, heat).Free < at(t, bag, heat).Free-noise {
			t.Fatal("more gas, less swelling")
		}
	})
}

// TestMassBalanceCloses: from the pressure alone, the gas in the beer and in the
// headspace add up to what was sealed in. The sum is done here in grams, apart
// from the code's own in moles and atmospheres.
func TestMassBalanceCloses(t *testing.T) {
	const gasLaw = 83.14462618e-3 // L bar/(mol K)
	rapid.Check(t, func(t *rapid.T) {
		c, heat := between[q.Carbonation](t, "gas", 0, 6), anyHeat(t)
		filledAt := between[q.Temperature](t, "filled at", 0, 40)
		beer, room := between[q.Volume](t, "beer", 0.3, 100), between[q.Volume](t, "room", 0, 30)
		h := Held{Beer: beer, Room: room, Outside: StandardAir}
		purged := rapid.Bool().Draw(t, "purged")
		h = must[Held](t)(Filled(h, c, filledAt, purged))
		carbonDioxide := float64(at(t, h, heat).Gauge) + 1.01325 - vapourPressure(heat)/100
		put := c.GramsPerLitre() * h.Beer.Litres()
		dry := 1.01325 - vapourPressure(filledAt)/100
		switch {
		case purged:
			put += 44.009 * dry * h.Room.Litres() / gasLaw / filledAt.Kelvin()
		case h.Room > 0:
			carbonDioxide -= dry * heat.Kelvin() / filledAt.Kelvin()
		}
		perLitre := must[float64](t)(SolubilityInWater(heat)) * beerToWater * carbonDioxide / 1.01325 * 44.009
		above := 44.009 * carbonDioxide * h.Room.Litres() / gasLaw / heat.Kelvin()
		const constants = 1e-6
		same(t, "grams of carbon dioxide", perLitre*h.Beer.Litres()+above, put, constants)
		same(t, "grams dissolved in a litre", at(t, h, heat).Dissolved.GramsPerLitre(), perLitre, constants)
		if h.Room > 0.01 {
			over := must[q.Number](t)(GasOverDissolved(h.Beer, h.Room, heat))
			same(t, "all over dissolved", at(t, h, heat).Dissolved*q.Carbonation(over), h.InAll(), constants)
		}
	})
}

// TestBagIsSlackUntilFull: nothing until free gas fills it, no jump there, and all of
// its gas is in the beer or beside it.
func TestBagIsSlackUntilFull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bag, heat := anyBag(t), between[q.Temperature](t, "heat", 0, 40)
		bag.Room = 1e4
		slack := at(t, bag, heat)
		same(t, "pressure with room", slack.Gauge, q.Pressure(0), 0)
		beside := slack.Free.Litres() * bag.dry(heat) / gasConstant / heat.Kelvin()
		same(t, "mol", float64(MolesOf(slack.Dissolved, bag.Beer))+beside, float64(bag.CO2+bag.Inert), roundTrip)
		if slack.Free < 1e-3 {
			return
		}
		bag.Room = slack.Free * (1 - 1e-6)
		const noJump = 1e-5 // bar
		if tight := at(t, bag, heat).Gauge; tight < 0 || tight > noJump {
			t.Fatalf("a bag short of %v L by a hair is at %v bar", slack.Free, tight)
		}
		bag.Room = slack.Free / 2
		if tighter := at(t, bag, heat).Gauge; !(tighter > 0) {
			t.Fatalf("half the room that it needs, and %v bar", tighter)
		}
	})
}

// TestVentingLetsOut: no venting raises a pressure at any heat, nor adds gas; a moment's
// leaves the gauge at nought before the beer gives anything off, one to quiet for good;
// a second one to quiet changes nothing.
func TestVentingLetsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, heat, ahead := anyHeld(t), anyHeat(t), anyHeat(t)
		moment, quiet := must[Held](t)(h.VentedForAMoment(heat)), must[Held](t)(h.VentedToQuiet(heat))
		for _, after := range []Held{moment, quiet} {
			more := after.CO2 > h.CO2+noise || after.Inert > h.Inert+noise
			if more || at(t, after, ahead).Gauge > at(t, h, ahead).Gauge+roundTrip {
				t.Fatalf("it held %+v and holds %+v", h, after)
			}
		}
		if at(t, h, heat).Gauge > 0 {
			same(t, "gauge after a vent to quiet", at(t, quiet, heat).Gauge, q.Pressure(0), roundTrip)
		}
		same(t, "vented again", must[Held](t)(quiet.VentedToQuiet(heat)).CO2, quiet.CO2, roundTrip)
		bag := anyBag(t)
		same(t, "gas in a squeezed bag", at(t, must[Held](t)(bag.VentedForAMoment(heat)), heat).Free, q.Volume(0), roundTrip)
	})
}

// TestCylinderOnlyFeeds: turned on, it takes no gas and no pressure away, brings the
// room to its setting at least, and the longer the more is in the beer.
func TestCylinderOnlyFeeds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, heat := anyHeld(t), anyHeat(t)
		by := Regulator{Set: between[q.Pressure](t, "set", 0, 4), Share: between[float64](t, "share", 0, 1)}
		part := between[float64](t, "part", 0, 1)
		fed, longer := must[Held](t)(h.Fed(by, heat, part)), must[Held](t)(h.Fed(by, heat, 1))
		if fed.CO2 < h.CO2-noise || at(t, fed, heat).Gauge < at(t, h, heat).Gauge-roundTrip {
			t.Fatalf("it held %+v and holds %+v", h, fed)
		}
		if h.Room > 0.01 && at(t, longer, heat).Gauge < by.Set-roundTrip {
			t.Fatalf("in the end %v bar of %v", at(t, longer, heat).Gauge, by.Set)
		}
		if by.Share == 1 && longer.CO2 < fed.CO2-roundTrip {
			t.Fatal("longer on, less gas")
		}
		by.Fresh = 1
		if at(t, must[Held](t)(h.Fed(by, heat, part)), heat).Gauge < at(t, fed, heat).Gauge-roundTrip {
			t.Fatal("put on as it was filled, less pressure")
		}
	})
}

// TestDrawingBalances: what leaves is the beer and what was dissolved in it; what comes
// in is air, or carbon dioxide, and the container keeps its size.
func TestDrawingBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, heat := anyHeld(t), anyHeat(t)
		drawn := h.Beer * q.Volume(between[float64](t, "share drawn", 0, 1))
		with := MolesOf(at(t, h, heat).Dissolved, min(drawn, max(h.Beer-(h.Beer+h.Room)/100, 0)))
		for in := Nothing; in <= Cylinder; in++ {
			after := must[Held](t)(h.Drawn(drawn, heat, in))
			same(t, "size", after.Beer+after.Room, h.Beer+h.Room, roundTrip)
			cameIn := after.CO2 + with - h.CO2
			switch in {
			case Nothing, Air:
				same(t, "carbon dioxide that came in", cameIn, Moles(0), roundTrip)
			default:
				if cameIn < -noise || after.Inert != h.Inert {
					t.Fatalf("%v mol of carbon dioxide came in, %v of air", cameIn, after.Inert-h.Inert)
				}
			}
			if in == Air && after.Inert < h.Inert {
				t.Fatal("less air than before")
			}
		}
	})
}

// TestDrawingFromABag: it shrinks by what is drawn, nothing comes in whatever stands
// behind it, and what is left has lost no gas but that in the beer that left.
func TestDrawingFromABag(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bag, heat := anyBag(t), anyHeat(t)
		drawn := bag.Beer * q.Volume(between[float64](t, "share drawn", 0, 0.9))
		left := min(drawn, max(bag.Beer-(bag.Beer+bag.Room)/100, 0))
		with := MolesOf(at(t, bag, heat).Dissolved, left)
		for in := Nothing; in <= Cylinder; in++ {
			after := must[Held](t)(bag.Drawn(drawn, heat, in))
			same(t, "carbon dioxide", after.CO2, bag.CO2-with, roundTrip)
			same(t, "beer", after.Beer, bag.Beer-left, roundTrip)
			if after.Inert != bag.Inert {
				t.Fatalf("%v mol of air came in", after.Inert-bag.Inert)
			}
		}
	})
}

// TestMolesWeigh: a volume of carbon dioxide in a litre is 1.977 g of it, by handbooks
// (from memory), and a mole is 44.009 g by the atomic masses of IUPAC 2021.
func TestMolesWeigh(t *testing.T) {
	near(t, "a volume in a litre, g", MolesOf(1, 1).Mass(), q.Mass(1.977), 1e-9)
	near(t, "a mole, g", Moles(1).Mass(), q.Mass(44.009), 0.0005)
}

// TestValveHolds: under a valve the gauge stands at its setting or below, and a valve
// set higher keeps no less.
func TestValveHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, heat, set := anyHeld(t), anyHeat(t), between[q.Pressure](t, "set", 0, 3)
		held := must[Held](t)(h.HeldUnder(set, heat))
		if at(t, held, heat).Gauge > set+roundTrip {
			t.Fatalf("%v bar under a valve of %v", at(t, held, heat).Gauge, set)
		}
		if higher := must[Held](t)(h.HeldUnder(set+0.2, heat)); higher.CO2 < held.CO2-noise {
			t.Fatal("a higher setting keeps less")
		}
	})
}
