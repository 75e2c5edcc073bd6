package acoustics

import (
	"fmt"

	"lowsone/catalog/quantity"
)

// Background says what was done about the background when a source was
// measured.
type Background uint8

// The cases of a background correction.
const (
	None       Background = iota // more than 10 dB below: no correction
	Corrected                    // 3 to 10 dB below: subtracted
	UpperBound                   // less than 3 dB below: the source is at most this loud
)

// String gives the case in words.
func (b Background) String() string {
	switch b {
	case None:
		return "no correction"
	case Corrected:
		return "corrected"
	case UpperBound:
		return "upper bound"
	}
	return fmt.Sprintf("Background(%d)", uint8(b))
}

// Limits of the survey method in dB between total and background. [ISO3746]
const (
	backgroundFar  = 10.0
	backgroundNear = 3.0
	// backgroundSlack keeps 3 dB what it is after levels were shifted or summed.
	backgroundSlack = 1e-9
)

// Subtract takes the background from a level measured with the source and the
// background together:
//
//	L = total − K1,  K1 = −10·lg(1 − 10^(−ΔL/10)),  ΔL = total − background
//
// By the survey limits of [ISO3746] K1 is 0 for ΔL above 10 dB, and for ΔL
// under 3 dB it stays at its value for 3 dB (3.02 dB), so that the result is an
// upper bound. A background that is not below the total is an error: the source
// cannot be told from it.
func Subtract(total, background quantity.SoundPressureLevel) (quantity.SoundPressureLevel, Background, error) {
	delta := float64(total.Above(background))
	switch {
	case delta > backgroundFar:
		return total, None, nil
	case delta >= backgroundNear-backgroundSlack:
		return total.Plus(-correction(delta)), Corrected, nil
	case delta > 0:
		return total.Plus(-correction(backgroundNear)), UpperBound, nil
	}
	return quantity.SoundPressureLevel{}, None, fmt.Errorf(
		"subtract background: the background of %q dB(A) is not below the %q dB(A) measured with the source on",
		fmt.Sprintf("%.4g", background.DB()), fmt.Sprintf("%.4g", total.DB()))
}

// correction gives K1 for a difference of delta dB between total and
// background.
func correction(delta float64) quantity.Decibel {
	return quantity.Decibel(-decibel(1 - fromDecibel(-delta)))
}
