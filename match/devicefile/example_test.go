package devicefile_test

import (
	"fmt"

	"lowsone/match/devicefile"
)

func ExampleParse() {
	_, err := devicefile.Parse("rack.yaml", []byte(`device: rack amplifier
room:
  now: 24
paths:
  - fan: {airflow_m3h: 40, static_pressure_pa: 60}
    air: {inlet: 33 °C, outlet: 24 °C}
    spotz: []
`), nil)
	fmt.Println(err)
	// Output:
	// rack.yaml:3:8: now "24" has no unit
	//   3 |   now: 24
	//     |        ^
	//   write the unit: 24 °C
	// rack.yaml:6:33: the air leaves at 24 °C, not warmer than the inlet, 33 °C
	//   6 |     air: {inlet: 33 °C, outlet: 24 °C}
	//     |                                 ^
	//   exchange the two, or check which way the air goes
	// rack.yaml:7:5: path has no key "spotz"
	//   7 |     spotz: []
	//     |     ^
	//   did you mean spots?
}

func ExampleReportOf() {
	f, err := devicefile.Parse("rack.yaml", []byte(`device: rack amplifier
paths:
  - fan: {airflow_m3h: 40, static_pressure_pa: 60, noise_dba: 33}
    near: {grille: 4 mm}
`), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, i := range devicefile.ReportOf(&f.Device).Items {
		switch i.Key {
		case "fan: curve", "near: grille", "speed", "leads: watches":
			fmt.Printf("%s: %s: %q\n", i.Key, i.State, i.Value)
		}
	}
	// Output:
	// fan: curve: known: "its two ends: the band of the flow is ±10 to 20 %"
	// speed: assumed: "that of the label"
	// leads: watches: missing: ""
	// near: grille: doubtful: "4 mm"
}
