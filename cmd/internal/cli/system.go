package cli

import (
	"context"

	"github.com/spf13/cobra"

	"lowsone/cmd/internal/view"
	"lowsone/match"
)

const systemLong = `Estimate how much air the device lets through: its resistance
Δp = a·Q + b·Q², and the flow and pressure at which its fan works now.

Name the fitted fan with --replace, or describe it with --fitted. Then give one
way, the best you have: several measured --point; --heat with --air-rise; the
--pressure across the device with its fan running; a measured --flow; or the
share of its free delivery the fan --delivers. Without any, 55 % is assumed.

The flags of the seat are taken so that one set of flags serves system, rank
and shortlist; here only --voltage, --supply and --mains count.`

const systemExample = `  lowsone system --replace OMB-625B56B3 --heat 90W --air-rise 9K --inlet 24C
  lowsone system --replace OMB-625B56B3 --replace-speed 4800rpm --flow 12CFM
  lowsone system --fitted airflow_m3h=48 --fitted static_pressure_pa=120 --delivers 60%`

// systemOptions are what system is asked for.
type systemOptions struct {
	session *session
	device  deviceFlags

	noEstimates bool
}

func newSystemCmd(s *session, run func(context.Context, *systemOptions) error) *cobra.Command {
	o := &systemOptions{session: s}
	cmd := &cobra.Command{
		Use:         "system [flags]",
		Short:       "estimate the device's resistance to air from its fitted fan",
		Long:        systemLong,
		Example:     systemExample,
		Args:        exactly(0, "system takes flags only; the fitted fan: --replace PART"),
		Annotations: noListForm(),
		RunE: func(cmd *cobra.Command, _ []string) error {
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
	system, baseline, err := match.EstimateSystem(ctx, p.cols, p.req.Path, o.noEstimates)
	if err != nil {
		return err
	}
	return o.session.print(&view.System{System: system, Baseline: baseline, Assumed: p.req.Path.Way.Assumed, Distance: 1})
}
