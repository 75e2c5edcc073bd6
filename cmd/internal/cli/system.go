package cli

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/sample"
)

const systemLong = `Estimate how much air the device lets through: its resistance
Δp = a·Q + b·Q², and the flow and pressure at which its fan works now.

A device file says it all, of every air path; flags overrule it. Without one
name the fitted fan with --replace, or describe it with --fitted. Then give one
way, the best you have: several measured --point; --heat with --air-rise; the
--pressure across the device with its fan running; a measured --flow; or the
share of its free delivery the fan --delivers. Without any, 55 % is assumed.

The flags of the seat are taken so that one set of flags serves system, rank
and shortlist; here only --voltage, --supply and --mains count.`

const systemExample = `  lowsone system --replace OMB-625B56B3 --heat 90W --air-rise 9K --inlet 24C
  lowsone system --replace OMB-625B56B3 --replace-speed 4800rpm --flow 12CFM
  lowsone system --fitted "curve=0:120;20:80;48:0" --delivers 60%`

// systemOptions are what system is asked for.
type systemOptions struct {
	session *session
	device  deviceFlags

	noEstimates bool
}

func newSystemCmd(s *session, run func(context.Context, *systemOptions) error) *cobra.Command {
	o := &systemOptions{session: s}
	cmd := &cobra.Command{
		Use:         "system [DEVICE.yaml] [flags]",
		Short:       "estimate the device's resistance to air from its fitted fan",
		Long:        systemLong,
		Example:     systemExample,
		Args:        atMostOne("system takes one device file; the fitted fan: --replace PART"),
		Annotations: noListForm(),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.device.name(args)
			if err := o.device.check(); err != nil {
				return err
			}
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().SortFlags = false
	o.device.register(cmd.Flags())
	cmd.Flags().BoolVar(&o.noEstimates, "no-estimates", false, "fail where a value of the fitted fan would have to be estimated")
	return cmd
}

func runSystem(ctx context.Context, o *systemOptions) error {
	p, err := pose(ctx, o.session, &o.device, &choiceFlags{})
	if err != nil {
		return err
	}
	defer p.cat.Close()
	shown, err := p.system(ctx, &p.req, o.noEstimates)
	if err != nil {
		return err
	}
	if shown.Around = p.around(); shown.Around != nil && o.device.path == "" {
		shown.Around.All = true
		if shown.Others, err = p.otherSystems(ctx, o.noEstimates); err != nil {
			return err
		}
	}
	return o.session.print(shown)
}

// system estimates one path. Where a device file says more, the fitted fan is
// told where people sit, with what its seat adds.
func (p *problem) system(ctx context.Context, req *match.Request, noEstimates bool) (*view.System, error) {
	doc := &view.System{Assumed: req.Path.Way.Assumed, Distance: 1}
	var err error
	if doc.System, doc.Baseline, err = match.EstimateSystem(ctx, p.fans, req.Path, noEstimates); err != nil {
		return doc, err
	}
	if err = p.sureOf(ctx, doc, req); err != nil || p.device.file == nil {
		return doc, err
	}
	seated, err := match.Sit(ctx, p.fans, *req, req.Path.Row)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil { // the device is known, what it needs is not
		doc.NeedUnknown = err.Error()
		return doc, nil
	}
	doc.Baseline, doc.Distance, doc.Seat, doc.Heat = seated.Now(), float64(req.Listener), seated.Seat, seated.Heat()
	doc.Need, doc.NeedFrom = seated.Need()
	return doc, nil
}

// sureOf says how sure the device is, where what it needs is known.
func (p *problem) sureOf(ctx context.Context, doc *view.System, req *match.Request) (err error) {
	var contradiction *sample.ContradictionError
	switch doc.Sure, err = sample.Device(ctx, p.fans, *req, sample.Options{}); {
	case ctx.Err() != nil:
		return ctx.Err()
	case errors.As(err, &contradiction):
		doc.Unsure = err.Error()
	}
	return nil
}

// otherSystems estimates the paths that were not asked about. What cannot be
// estimated is said there.
func (p *problem) otherSystems(ctx context.Context, noEstimates bool) ([]view.OtherSystem, error) {
	var others []view.OtherSystem
	for i := range p.device.file.Paths {
		if i == p.device.at {
			continue
		}
		req := p.device.request(p.device.file.Paths[i], i, &choiceFlags{})
		one, err := p.system(ctx, &req, noEstimates)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		other := view.OtherSystem{Path: p.device.file.PathName(i), System: one}
		if err != nil {
			other.System, other.Unknown = nil, err.Error()
		}
		others = append(others, other)
	}
	return others, nil
}
