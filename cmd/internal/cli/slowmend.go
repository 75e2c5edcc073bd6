package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lowsone/cmd/internal/view"
	"lowsone/match/drive"
)

// mend says what can be done where no means is offered: measure the starting
// voltage where it is wanted, ask for the lowest speed that is offered, or take
// another fan.
func (w *slowing) mend(doc *view.Slow, air float64) string {
	var said []string
	if doc.StartWanted() {
		said = append(said, "measure the starting voltage and give it: --with start_voltage_v=…")
	}
	if percent, ok := w.lowestOffered(doc.Target.Share, air); ok {
		lowest := fmt.Sprintf("--speed %d%% is the lowest speed offered", percent)
		if len(said) > 0 {
			lowest = "without it " + lowest
		}
		said = append(said, lowest)
	}
	return strings.Join(append(said, "a slower fan does without: lowsone rank"), "; ")
}

// lowestOffered gives the lowest speed above the one asked for, in whole percent of
// that at nominal voltage, at which a means is offered.
func (w *slowing) lowestOffered(asked, air float64) (percent int, ok bool) {
	for _, way := range []drive.Way{drive.Any, drive.ByVoltage} {
		share, _ := drive.LowestSpeed(w.load.Fan, way, 0)
		percent := math.Ceil(100*share - 1e-9)
		if percent >= 100 || !math.IsNaN(asked) && percent <= 100*asked {
			continue
		}
		to := view.SlowTarget{Share: percent / 100, Volts: math.NaN(), Flow: math.NaN()}
		if volts, err := w.load.VoltageFor(to.Share); err == nil {
			to.Volts = volts
		}
		if slices.ContainsFunc(w.offers(to, air), func(o drive.Offer) bool { return o.Refused == nil }) {
			return int(percent), true
		}
	}
	return 0, false
}
