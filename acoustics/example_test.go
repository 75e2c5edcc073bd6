package acoustics_test

import (
	"fmt"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
)

// A fan of 30 dB(A) beside one of 20, and two of 30.
func ExampleSum() {
	loud, quiet := quantity.PressureLevel(30), quantity.PressureLevel(20)
	fmt.Printf("%.1f dB(A)\n", acoustics.Sum(loud, quiet).DB())
	fmt.Printf("%.1f dB(A)\n", acoustics.Sum(loud, loud).DB())
	// Output:
	// 30.4 dB(A)
	// 33.0 dB(A)
}

// A fan of 38 dB(A) with a room of 32 around it.
func ExampleSubtract() {
	fan, how, err := acoustics.Subtract(quantity.PressureLevel(38), quantity.PressureLevel(32))
	fmt.Printf("%.1f dB(A), %v, %v\n", fan.DB(), how, err)
	// Output: 36.7 dB(A), corrected, <nil>
}

// Eight tenths of the speed take away about 5 dB, well below half of it the
// result is marked.
func ExampleAtSpeed() {
	for _, r := range []float64{0.8, 0.4} {
		l, extrapolated := acoustics.AtSpeed(quantity.PressureLevel(40), r)
		fmt.Printf("%.1f dB(A) %v\n", l.DB(), extrapolated)
	}
	// Output:
	// 35.2 dB(A) false
	// 21.1 dB(A) true
}
