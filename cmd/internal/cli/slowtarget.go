package cli

import (
	"math"

	"github.com/spf13/pflag"

	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/drive"
)

// target is what a fan is to be slowed to: one of the three, or none.
type target struct {
	volts quantity.Known[quantity.Voltage]
	share quantity.Known[float64]
	turns quantity.Known[quantity.Speed]
	flow  quantity.Known[quantity.Flow]
}

func (t *target) register(flags *pflag.FlagSet) {
	flags.Var(newMeasure(&t.volts, voltageBounds()), "to", "voltage the fan is to get, in V")
	flags.Var(newParsed("SPEED", t.readSpeed), "speed", "speed it is to have: 70% of that at its nominal voltage, or 4000rpm")
	flags.Var(newMeasure(&t.flow, flowBounds()), "to-flow", "flow it is to move in the device, in m³/h")
}

func (t *target) readSpeed(text string) (err error) {
	t.share, t.turns, err = shareOr[quantity.Speed](text, speedBounds())
	return err
}

func (t *target) check(inDevice bool) error {
	var given []string
	for _, g := range []struct {
		flag  string
		given bool
	}{
		{"--to", t.volts.Known()},
		{"--speed", t.share.Known() || t.turns.Known()},
		{"--to-flow", t.flow.Known()},
	} {
		if g.given {
			given = append(given, g.flag)
		}
	}
	switch {
	case len(given) > 1:
		return usagef("give one of them", "%s contradict each other", joinAnd(given))
	case len(given) == 0 && !inDevice:
		return usagef("give a voltage, --to 9V, or a speed, --speed 70%", "slowed to what?")
	case t.flow.Known() && !inDevice:
		return usagef("name a device file, or the fitted fan with a way such as --heat 90W --air-rise 9K", "--to-flow needs a device")
	}
	return nil
}

// settle gives voltage and share of speed. A share that nothing was measured at
// leaves the voltage unknown.
func (t *target) settle(l drive.Load, seated *match.Seated) (view.SlowTarget, error) {
	nan := math.NaN()
	out := view.SlowTarget{Volts: nan, Share: nan, Flow: nan}
	switch {
	case t.volts.Known():
		out.Ask, out.Volts = view.AskVoltage, float64(t.volts.Or(0))
		if share, err := drive.SpeedAtVoltage(out.Volts / l.NominalVoltage); err == nil && l.Supply != drive.AC {
			out.Share = share
		}
		return out, nil
	case t.turns.Known():
		if !(l.RatedSpeed > 0) {
			return out, failf("give a share, such as 70%, or --with speed_rpm=…", "--speed: the rated speed of the fan is not known")
		}
		out.Ask, out.Share = view.AskSpeed, float64(t.turns.Or(0))/l.RatedSpeed
	case t.share.Known():
		out.Ask, out.Share = view.AskSpeed, t.share.Or(0)
	default:
		var err error
		if out, err = t.byFlow(out, seated); err != nil {
			return out, err
		}
	}
	if volts, err := l.VoltageFor(out.Share); err == nil && l.Supply != drive.AC {
		out.Volts = volts
	}
	return out, nil
}

// byFlow gives the share of speed at which the fan moves the flow asked for, or
// what the device needs.
func (t *target) byFlow(out view.SlowTarget, seated *match.Seated) (view.SlowTarget, error) {
	out.Ask, out.Flow = view.AskFlow, float64(t.flow.Or(0))
	if !t.flow.Known() {
		if seated.NoFlow != nil {
			return out, seated.NoFlow
		}
		out.Ask = view.AskNeed
		out.Flow, _ = seated.Need()
	}
	share, err := seated.SpeedFor(out.Flow)
	if err != nil {
		return out, err
	}
	out.Share = share
	full, err := seated.At(seated.Top)
	if err == nil && full.Q < out.Flow*(1-1e-9) {
		return out, nothingf("choose a stronger fan: lowsone rank", "at full speed it moves %s m³/h here, not %s: there is nothing to slow down",
			view.Digits(full.Q*3600, 3), view.Digits(out.Flow*3600, 3))
	}
	return out, nil
}
