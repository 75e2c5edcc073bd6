package curve_test

import (
	"fmt"

	"lowsone/match/curve"
)

const cubicMetrePerHour = 1.0 / 3600 // m³/s

// A fan of 50 m³/h and 60 Pa in a device that takes 20 Pa at 30 m³/h, and the
// speed at which it would move 20 m³/h there.
func ExampleSpeedFor() {
	q := []float64{0, 20 * cubicMetrePerHour, 40 * cubicMetrePerHour, 50 * cubicMetrePerHour}
	fan, err := curve.New(q, []float64{60, 40, 25, 0})
	if err != nil {
		fmt.Println(err)
		return
	}
	flow := 30 * cubicMetrePerHour
	device := curve.System{B: 20 / (flow * flow)}

	now, _, err := curve.Operate(fan, device)
	if err != nil {
		fmt.Println(err)
		return
	}
	match, _, err := curve.SpeedFor(fan, device, 20*cubicMetrePerHour)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("now %.1f m³/h at %.1f Pa; 20 m³/h at %.0f %% of the speed\n",
		now.Q/cubicMetrePerHour, now.P, 100*match.Ratio)
	// Output: now 35.7 m³/h at 28.3 Pa; 20 m³/h at 56 % of the speed
}

// Two unlike fans side by side in a tight device: the weaker one would be blown
// through backwards, and the answer is a refusal with both numbers.
func ExampleParallel() {
	first := curve.TwoEnded(curve.Axial().Mean, 50*cubicMetrePerHour, 60)
	second := curve.TwoEnded(curve.Axial().Mean, 30*cubicMetrePerHour, 25)
	pair, err := curve.Parallel(first, second)
	if err != nil {
		fmt.Println(err)
		return
	}
	flow := 20 * cubicMetrePerHour
	_, _, err = curve.Operate(pair, curve.System{B: 40 / (flow * flow)})
	fmt.Println(err)
	// Output: the working point lies beyond the low-flow end of the fan curve: at 33.81 m³/h the fan gives 25 Pa, the device takes 114.3 Pa
}
