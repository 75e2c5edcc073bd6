package cli

import (
	"math"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
)

// bounds are the least and the most a flag takes, in the unit of a bare number.
// No device of this trade passes them (common practice): what does is a slip of
// the pen or of the unit.
type bounds struct {
	unit      quantity.Unit
	low, high float64
}

// The bounds of flags that name no field of the record.
func flowBounds() bounds     { return boundsOf(quantity.DimFlow, 0.001, 200000) }
func pressureBounds() bounds { return boundsOf(quantity.DimPressure, 0.001, 50000) }
func heatBounds() bounds     { return boundsOf(quantity.DimPower, 0.01, 1e6) }
func riseBounds() bounds     { return boundsOf(quantity.DimTemperatureRise, 0.01, 300) }
func marginBounds() bounds   { return boundsOf(quantity.DimTemperatureRise, 0, 300) }
func warmthBounds() bounds   { return boundsOf(quantity.DimTemperature, -100, 2000) }
func speedBounds() bounds    { return boundsOf(quantity.DimSpeed, 1, 200000) }
func roomBounds() bounds     { return boundsOf(quantity.DimLevel, 0, 130) }
func voltageBounds() bounds  { return boundsOf(quantity.DimVoltage, 0.1, 1000) }

// mostShare is the greatest share a flag takes: ten times the whole.
const mostShare = 10

// listenerBounds are in metres: nearer than a hand's breadth there is no free
// field.
func listenerBounds() bounds { return bounds{metres(), 0.05, 1000} }

// fieldBounds are those of a field of the record.
func fieldBounds(id catalog.FieldID) bounds {
	f := &catalog.Fields[id]
	return bounds{f.Unit, f.Low, f.High}
}

func boundsOf(d quantity.Dimension, low, high float64) bounds {
	return bounds{quantity.PreferredUnit(d), low, high}
}

// metres is the unit of distances in a room.
func metres() quantity.Unit {
	u, _ := quantity.UnitOf(quantity.DimLength, "m")
	return u
}

// parse reads a quantity within the bounds, into SI.
func (b bounds) parse(text string) (float64, error) {
	v, err := quantity.Parse(text, b.unit)
	if err != nil {
		return 0, err
	}
	u := b.unit.FromSI(v)
	// An allowance of one part in 10⁹ keeps a bound itself valid after a unit conversion.
	if slack := 1e-9 * math.Abs(u); u >= b.low-slack && u <= b.high+slack {
		return v, nil
	}
	return 0, usagef("", "%.6g %s is outside the possible %s to %s", u, b.unit.Symbol, catalog.Number(b.low), catalog.Number(b.high))
}
