package match

import (
	"math"

	"lowsone/acoustics"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/match/curve"
)

// Draw is one set of values that the uncertain inputs of a device may have,
// common to all fans that are asked under it.
type Draw struct {
	Way      float64 // error of what the way to the resistance measured, in half widths of its 10–90 % span
	Bend     float64 // share of the device's loss at the present flow that is laminar, 0 to 1; only where one number was measured
	SpeedNow float64 // speed of the fitted fan while measured over what is known of it
	Exponent float64 // k of the speed law of noise, dB per tenfold speed
	Meter    float64 // dB, error of the level measured at the fitted fan
	Fitted   FanDraw
	Spots    []SpotDraw // of each watched spot; those missing are drawn in the middle
}

// SpotDraw is one set of values for a watched spot. Air, Solid and Film go from
// 0 to 1 through what is not known of the split of its rise.
type SpotDraw struct {
	Found            float64 // K, error of the temperature found
	Air, Solid, Film float64
}

// FanDraw is one set of values that a fan may have against what its row says.
type FanDraw struct {
	Shape    float64 // share of fans of its kind with less flow between the same two ends, 0 to 1; of no use to a curve of points
	Flow     float64 // flow over what is rated, at one pressure
	Pressure float64 // pressure over what is rated, at one flow
	Speed    float64 // full speed over that of the label, on nominal supply
	Slowed   float64 // speed over what the share it is slowed to makes of full speed
	Level    float64 // dB, level less what is rated
	OffBest  float64 // of the off-best allowance, in half widths of its band: −1 the low end, 1 the high one
}

// Nominal is the draw that leaves everything as it was given. What is spanned
// is taken in the middle.
func Nominal(spots int) Draw {
	d := Draw{SpeedNow: 1, Exponent: acoustics.SpeedExponent, Fitted: NominalFan(), Spots: make([]SpotDraw, spots)}
	for i := range d.Spots {
		d.Spots[i] = SpotDraw{Air: 0.5, Solid: 0.5, Film: 0.5}
	}
	return d
}

// NominalFan is the draw that leaves a fan as it is rated.
func NominalFan() FanDraw { return FanDraw{Shape: 0.5, Flow: 1, Pressure: 1, Speed: 1, Slowed: 1} }

// spot gives the draw of spot i; nil where nothing is drawn.
func (x *Draw) spot(i int) *SpotDraw {
	switch {
	case x == nil:
		return nil
	case i < len(x.Spots):
		return &x.Spots[i]
	}
	return &SpotDraw{Air: 0.5, Solid: 0.5, Film: 0.5}
}

// variation is how a drawn fan differs from the rated one in what is looked up
// only at a working point. The zero value is no difference.
type variation struct {
	drawn    bool
	exponent float64 // k less the law's
	offBest  float64 // as FanDraw
	faster   float64 // as Speed of FanDraw
	slowed   float64 // as FanDraw
}

// setTo gives the speed over that of the label where a fan is set to a share of
// its nominal speed.
func (v *variation) setTo(share float64) float64 {
	switch {
	case !v.drawn:
		return share
	case share == 1:
		return v.faster
	}
	return share * v.slow()
}

// slow gives the speed of a slowed fan over what it is set to.
func (v *variation) slow() float64 {
	if !v.drawn {
		return 1
	}
	return v.faster * v.slowed
}

// alarmMargin gives what of the lowest speed before an alarm a fan must reach at
// full speed: all of it, since labels are off, but where its speed is drawn.
func (v *variation) alarmMargin() float64 {
	if !v.drawn {
		return 1
	}
	return speedTolerance
}

// offBestBy gives what is added to the off-best allowance, whose band lies low
// and high of it.
func (v *variation) offBestBy(low, high quantity.Decibel) quantity.Decibel {
	if v.offBest < 0 {
		return quantity.Decibel(-v.offBest) * low
	}
	return quantity.Decibel(v.offBest) * high
}

// speedLaw gives what another exponent of the speed law adds at the ratio r.
// Below half speed the law goes on with an exponent of its own.
func (v *variation) speedLaw(r float64) float64 {
	if v.exponent == 0 {
		return 0
	}
	return v.exponent * math.Log10(math.Max(r, acoustics.SlowRatio))
}

// drawn gives the fan as one of the fans that its row may stand for.
func (r rated) drawn(x *FanDraw, exponent float64) rated {
	if r.twoEnded {
		p0, _ := r.curve.ShutOff()
		shapes := shapesOf(r.kind)
		if r.estimated.has(catalog.FieldKind) {
			shapes = curve.Mixed() // it may be of either kind
		}
		r.curve = curve.TwoEnded(shapes.At(x.Shape), r.free, p0)
	}
	r.curve = r.curve.Scaled(x.Flow, x.Pressure)
	r.free *= x.Flow
	r.level += x.Level
	r.by = variation{drawn: true, exponent: exponent - acoustics.SpeedExponent, offBest: x.OffBest, faster: x.Speed, slowed: x.Slowed}
	return r
}

// shapesOf gives the shapes of a kind's curve. Mixed-flow fans lie between the
// two.
func shapesOf(kind catalog.Kind) curve.Shapes {
	switch kind {
	case catalog.Centrifugal:
		return curve.Centrifugal()
	case catalog.Mixed:
		return curve.Mixed()
	default:
		return curve.Axial()
	}
}
