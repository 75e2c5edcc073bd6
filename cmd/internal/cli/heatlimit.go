package cli

import (
	"context"
	"fmt"
	"slices"

	"lowsone/catalog"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/thermal"
	"lowsone/match/trial"
)

// spot is what a device file says of a spot, with the worst case of its path.
type spot struct {
	name  string
	may   trial.Limit
	worst trial.Worst
}

// is says whether a probe sits there, by its name.
func (s spot) is(p *trial.Probe) bool { return catalog.FoldKey(s.name) == catalog.FoldKey(p.Name) }

// unchecked lists the spots that a log has no probe of.
func unchecked(spots []spot, log *trial.Log) []view.HeatSpot {
	var out []view.HeatSpot
	for _, s := range spots {
		if !slices.ContainsFunc(log.Probes, func(p trial.Probe) bool { return s.is(&p) }) {
			out = append(out, view.HeatSpot{Name: s.name, Limit: s.may})
		}
	}
	return out
}

// spots reads the spots of the device file, and the worst case of any other place
// in it: that of its path, where there is one alone. Its fans are not needed.
func (o *heatOptions) spots(ctx context.Context) (all []spot, other trial.Worst, err error) {
	if o.file == "" {
		return nil, o.worstOf(&match.Device{}, &match.Path{}), nil
	}
	file, err := readDeviceFile(ctx, o.file)
	if err != nil {
		return nil, other, err
	}
	for i := range file.Device.Paths {
		path := &file.Device.Paths[i]
		for _, s := range path.Spots {
			all = append(all, spot{
				name: s.Name, worst: o.worstOf(&file.Device, path),
				may: trial.Limit{Known: true, Limit: s.Limit.Celsius(), Margin: float64(or(o.margin, s.Margin).Or(thermal.DefaultMargin))},
			})
		}
	}
	if len(file.Device.Paths) == 1 {
		return all, o.worstOf(&file.Device, &file.Device.Paths[0]), nil
	}
	return all, o.worstOf(&match.Device{}, &match.Path{}), nil
}

// worstOf gives the worst case of a path; flags overrule the rooms of the file.
func (o *heatOptions) worstOf(device *match.Device, path *match.Path) trial.Worst {
	room, known := or(o.ambient, device.Ambient).Get()
	hottest, limited := or(o.worst, device.AmbientWorst).Get()
	w := trial.Worst{Known: known && limited, Room: room.Celsius(), WorstRoom: hottest.Celsius(), HeatRatio: 1}
	if now, ok := path.Heat.Get(); ok {
		w.HeatRatio = float64(path.HeatWorst.Or(now) / now)
	}
	return w
}

// judge holds the log of one probe against its limit; other is the worst case
// where it is of none of the spots.
func (o *heatOptions) judge(p *trial.Probe, spots []spot, other trial.Worst) (view.HeatProbe, error) {
	out := view.HeatProbe{Probe: p, Worst: other}
	if at := slices.IndexFunc(spots, func(s spot) bool { return s.is(p) }); at >= 0 {
		out.Worst, out.Limit = spots[at].worst, spots[at].may
	}
	for _, l := range o.limits {
		if l.probe == "" || catalog.FoldKey(l.probe) == catalog.FoldKey(p.Name) {
			margin := float64(o.margin.Or(thermal.DefaultMargin))
			out.Limit = trial.Limit{Known: true, Limit: l.limit.Celsius(), Margin: margin}
		}
	}
	var err error
	if out.Prediction, err = thermal.Predict(p.Readings); err != nil {
		return out, fmt.Errorf("probe %q: %w", p.Name, err)
	}
	out.Judgement = trial.Judge(out.Prediction, out.Worst, out.Limit)
	for _, rule := range thermal.Rules() {
		settled, detail, err := rule.Settled(p.Readings)
		if err != nil {
			return out, fmt.Errorf("probe %q: %w", p.Name, err)
		}
		out.Rules = append(out.Rules, view.HeatRule{Rule: rule, Settled: settled, Detail: detail})
	}
	return out, nil
}

// strangers refuses a limit of a probe that the log does not have.
func (o *heatOptions) strangers(log *trial.Log) error {
	var names []string
	for _, p := range log.Probes {
		names = append(names, p.Name)
	}
	for _, l := range o.limits {
		if l.probe != "" && !slices.ContainsFunc(names, func(n string) bool { return catalog.FoldKey(n) == catalog.FoldKey(l.probe) }) {
			return usagef(suggest(l.probe, names), "--limit: the log has no probe %q", l.probe)
		}
	}
	return nil
}
