package thermal_test

import (
	"fmt"
	"math"

	"lowsone/match/thermal"
)

// An amplifier's heat sink stood at 58 °C with 90 W, its air warmed from 24 to
// 33 °C. Its cut-out trips at 75 °C, and the room may reach 30 °C.
func ExampleModel_Need() {
	air, err := thermal.AirShare(33-24, 58-24, thermal.OutletAir)
	if err != nil {
		fmt.Println(err)
		return
	}
	sink, err := thermal.New(thermal.Spot{
		Name: "heat sink", Found: 58, Then: thermal.Conditions{Ambient: 24, Heat: 90},
		Limit: 75, Shares: thermal.Shares{Air: air},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	worst := thermal.Conditions{Ambient: 30, Heat: 90}
	need, err := sink.Need(worst)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(need.Why())
	at, err := sink.Temperature(worst, 0.8)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("at 80 %% of the flow: %.1f to %.1f °C\n", at.Low, at.High)
	// Output:
	// "heat sink" may rise by 35 K over air of 30 °C; at the present flow it would rise by 34 K: 0.9666 of the present mass flow (air 0.265, film 0.735, solid 0, exponent 0.8)
	// at 80 % of the flow: 68.0 to 71.1 °C
}

// A device with parts of 4 and 35 minutes, logged for 10 minutes: the curve looks
// nearly done, and is not.
func ExamplePredict() {
	var log []thermal.Reading
	for t := 0.0; t <= 600; t += 20 {
		log = append(log, thermal.Reading{Time: t, Celsius: 54 - 20*math.Exp(-t/240) - 12*math.Exp(-t/2100)})
	}
	p, err := thermal.Predict(log)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("fitted end %.1f °C\n", p.Whole.End)
	least, _ := p.AtLeast()
	fmt.Printf("%v, at least %.1f °C: %s\n", p.Verdict, least, p.Why())
	// Output:
	// fitted end 46.0 °C
	// not settled, at least 43.3 °C: a slower part, of up to 60 min, may hide 9.3 K beyond 46.49 °C: log longer
}
