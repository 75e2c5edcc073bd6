package cli

import (
	"context"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/match"
)

// deviceFlags describe the device: its fan, its seat, and how its resistance
// is known.
type deviceFlags struct {
	fitted fittedFlags
	way    wayFlags
	seat   seatFlags
}

func (d *deviceFlags) register(flags *pflag.FlagSet) {
	d.fitted.register(flags)
	d.way.register(flags)
	d.seat.register(flags)
}

// given says whether anything about a fitted fan was said.
func (d *deviceFlags) given() bool { return d.fitted.replace != "" || len(d.fitted.values) > 0 }

// check refuses flags that say nothing of a fan, contradict each other, or
// lack their fellow.
func (d *deviceFlags) check() error {
	if !d.given() {
		return usagef("name it with --replace PART, or describe it with --fitted airflow_m3h=40 --fitted static_pressure_pa=60 and so on",
			"which fan is fitted now?")
	}
	if err := d.way.check(); err != nil {
		return err
	}
	return d.seat.check()
}

// device gives the device. What has to be said about its fan is said.
func (d *deviceFlags) device(ctx context.Context, s *session, cat *store.Catalogue) (match.Path, error) {
	fan, row, remarks, err := d.fitted.fan(ctx, cat)
	if err != nil {
		return match.Path{}, err
	}
	for _, remark := range remarks {
		s.say("%s", remark)
	}
	return match.Path{Fitted: fan, Row: row, Seat: d.seat.seat(fan), SpeedNow: d.fitted.speed, Way: d.way.way()}, nil
}

// problem is an open catalogue with what is asked of it.
type problem struct {
	cat  *store.Catalogue
	cols *catalog.Columns
	req  match.Request
}

// pose opens the catalogue and puts device and choice into a request. The
// caller closes the catalogue.
func pose(ctx context.Context, s *session, d *deviceFlags, c *choiceFlags) (*problem, error) {
	cat, err := s.openCatalog(ctx)
	if err != nil {
		return nil, err
	}
	p := &problem{cat: cat}
	if p.req.Path, err = d.device(ctx, s, cat); err == nil {
		c.apply(&p.req)
		p.cols, err = cat.Columns(ctx, match.Fields()...)
	}
	if err != nil {
		cat.Close()
		return nil, err
	}
	return p, nil
}
