package acoustics

import (
	"math"

	"lowsone/catalog/quantity"
)

// Shape is a typical spectrum of a kind of fan. It is typical, not measured:
// whatever is worked out from it is an estimate.
type Shape struct {
	Name   string
	Source string
	Thirds Thirds // at 0 dB(A)
}

// AppendTypical appends the typical spectra of fans with that wheel to list, at
// 0 dB(A) each. The first of them is the middle, to take for the figure; all
// of them together span the band. Speed n is that of the level they are scaled
// to; where it is not known, shapes that depend on it come at 1500 and at 3000
// rpm, which small fans run at (common practice).
//
// Axial: three published octave shapes and that of [VDI2081]. Centrifugal: a
// published octave shape of forward-curved wheels and those of [VDI2081] for
// backward-curved wheels and drums. Mixed: all of both. No other wheel has any.
// By ISO 532-1 the middle's loudness lies inside that of the others at 30 to 40
// dB(A), for speeds from 800 to 12,000 rpm; at 20 dB(A) it lies at an end.
// The others lie up to 15 % away from it.
//
// They are shapes of ventilation fans; small fans may differ by more than these
// do from each other: a hair dryer that was measured is a quarter quieter in
// sone than all of them at 30 and 40 dB(A). None carries tones.
func AppendTypical(list []Shape, wheel Wheel, n quantity.Known[quantity.Speed]) []Shape {
	switch wheel {
	case Axial:
		list = appendStrouhal(list, n, &vdiAxial)
		return append(list, axialShapes[:]...)
	case Centrifugal:
		list = appendStrouhal(list, n, &vdiDrum, &vdiBackward)
		return append(list, forwardCurved)
	case Mixed:
		list = appendStrouhal(list, n, &vdiAxial, &vdiDrum, &vdiBackward)
		list = append(list, axialShapes[:]...)
		return append(list, forwardCurved)
	}
	return list
}

// Published octave shapes from 63 Hz to 8 kHz, in dB with an arbitrary zero. The
// sources of the propeller and of axial b end at 4 kHz; 8 kHz goes on as they
// fall there.
var (
	axialShapes = [...]Shape{
		octaveShape("propeller fan", [...]float64{0, -1, 2, -5, -9, -10, -17, -24}),
		octaveShape("axial fan, shape a", [...]float64{-7, -9, -7, -7, -8, -11, -16, -18}),
		octaveShape("axial fan, shape b", [...]float64{-5, -5, -6, -7, -8, -10, -13, -17}),
	}
	forwardCurved = octaveShape("forward-curved wheel", [...]float64{-2, -6, -13, -18, -19, -22, -25, -30})
)

// octaveShape makes a shape of octaves from 63 Hz up. The octave at 31.5 Hz goes
// on with the slope of the two above it.
func octaveShape(name string, from63 [NumOctaves - 1]float64) Shape {
	var o Octaves
	copy(o[1:], from63[:])
	o[0] = 2*o[1] - o[2]
	s := o.Thirds()
	return Shape{Name: name, Source: "published typical octave shape", Thirds: s.ScaledTo(quantity.PressureLevel(0))}
}

// A strouhal is a wheel's shape by [VDI2081], which depends on the speed.
type strouhal struct {
	offset         float64 // c₃
	name           string
	at1500, at3000 Shape // where the speed is not known
}

// The wheels of [VDI2081]: c₃ of fans as they come.
var (
	vdiAxial    = newStrouhal(-0.6, "VDI 2081 axial fan", "VDI 2081 axial fan at 1500 rpm", "VDI 2081 axial fan at 3000 rpm")
	vdiBackward = newStrouhal(0.4, "VDI 2081 backward-curved wheel", "VDI 2081 backward-curved wheel at 1500 rpm", "VDI 2081 backward-curved wheel at 3000 rpm")
	vdiDrum     = newStrouhal(0.15, "VDI 2081 drum", "VDI 2081 drum at 1500 rpm", "VDI 2081 drum at 3000 rpm")
)

func newStrouhal(offset float64, name, at1500, at3000 string) strouhal {
	w := strouhal{offset: offset, name: name}
	w.at1500, w.at3000 = w.shape(1500*quantity.RevolutionPerMinute), w.shape(3000*quantity.RevolutionPerMinute)
	w.at1500.Name, w.at3000.Name = at1500, at3000
	return w
}

// appendStrouhal appends the shapes of wheels at speed n, or where it is not
// known those of the first at 3000 rpm and then of all at both speeds.
func appendStrouhal(list []Shape, n quantity.Known[quantity.Speed], wheels ...*strouhal) []Shape {
	speed, known := n.Get()
	if known && speed > 0 && isFinite(float64(speed)) {
		for _, w := range wheels {
			list = append(list, w.shape(speed))
		}
		return list
	}
	for _, w := range wheels {
		list = append(list, w.at3000)
	}
	for _, w := range wheels {
		list = append(list, w.at1500)
	}
	return list
}

// shape gives the wheel's shape at speed n.
func (w *strouhal) shape(n quantity.Speed) Shape {
	var s Thirds
	for i := range s {
		s[i] = w.octave(ThirdHz(i), n)
	}
	return Shape{Name: w.name, Source: "VDI 2081 part 1", Thirds: s.ScaledTo(quantity.PressureLevel(0))}
}

// octave gives how far an octave's level at f lies below the overall level:
//
//	ΔL = −5 − 5·(lg St + c₃)²
//
// with c₃ of the wheel. Thirds have the same shape. [VDI2081]
func (w *strouhal) octave(f quantity.Frequency, n quantity.Speed) float64 {
	x := math.Log10(strouhalNumber(f, n)) + w.offset
	return -5 - 5*x*x
}

// strouhalNumber gives St = f·D/u = f/(π·n), with u the tip speed and n in
// revolutions per second. [VDI2081]
func strouhalNumber(f quantity.Frequency, n quantity.Speed) float64 {
	return float64(f) / (math.Pi * float64(n))
}
