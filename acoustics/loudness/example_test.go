package loudness_test

import (
	"fmt"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
)

// A fan's spectrum, as measured where the listener sits.
var fan = acoustics.Thirds{
	35, 34, 33, 33, 32, 31, 31, 30, 31, 31, 32, 32, 32, 32,
	32, 31, 31, 30, 29, 28, 26, 25, 23, 22, 22, 21, 20, 20,
}

func ExampleAnalyse() {
	p := loudness.Analyse(&fan, loudness.Free)
	fmt.Printf("%.1f dB(A): %.1f sone, %.0f phon\n", fan.A().DB(), p.Sone, p.Phon)
	// Output: 40.0 dB(A): 3.3 sone, 57 phon
}

// Half as loud takes fewer decibels the quieter the fan is.
func ExampleTable_Halving() {
	t, err := loudness.NewTable(&fan, loudness.Free)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, dbA := range []float64{60, 50, 40, 30, 20} {
		fmt.Printf("%.0f dB(A): %.1f dB\n", dbA, t.Halving(dbA))
	}
	// Output:
	// 60 dB(A): 10.0 dB
	// 50 dB(A): 8.7 dB
	// 40 dB(A): 6.8 dB
	// 30 dB(A): 4.5 dB
	// 20 dB(A): 2.0 dB
}
