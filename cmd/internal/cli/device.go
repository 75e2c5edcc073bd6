package cli

import (
	"context"

	"github.com/spf13/pflag"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/devicefile"
	"lowsone/match/drive"
	"lowsone/match/sample"
)

// deviceFlags describe the device: a device file, or its fan, its seat, and how
// its resistance is known. Flags overrule the file.
type deviceFlags struct {
	file   string           // device file
	read   *devicefile.File // what it says, once loaded
	path   string           // of the file, by name
	fitted fittedFlags
	way    wayFlags
	seat   seatFlags
}

func (d *deviceFlags) register(flags *pflag.FlagSet) {
	d.registerPath(flags)
	d.fitted.register(flags)
	d.way.register(flags)
	d.seat.register(flags)
}

func (d *deviceFlags) registerPath(flags *pflag.FlagSet) {
	flags.StringVar(&d.path, "path", "", "`NAME` of the air path of the device file (else the loudest)")
}

// name takes the device file that a command has as its argument.
func (d *deviceFlags) name(args []string) {
	if len(args) > 0 {
		d.file = args[0]
	}
}

// given says whether anything about a device was said.
func (d *deviceFlags) given() bool {
	return d.file != "" || d.fitted.replace != "" || len(d.fitted.values) > 0
}

// check refuses flags that say nothing of a fan, contradict each other, or
// lack their fellow.
func (d *deviceFlags) check() error {
	switch {
	case !d.given():
		return usagef("name it with --replace PART, name a device file, or describe it with --fitted airflow_m3h=40 --fitted static_pressure_pa=60 and so on",
			"which fan is fitted now?")
	case d.path != "" && d.file == "":
		return usagef("lowsone device new FILE makes one", "--path needs a device file")
	}
	if err := d.way.check(); err != nil {
		return err
	}
	return d.seat.check()
}

// described is a device made ready: the path that is asked about, and all that
// its file says, where there is one.
type described struct {
	path match.Path

	file    *match.Device // nil: described by flags
	name    string        // of the file
	at      int           // of path in file
	loudest bool          // path was taken because it is the loudest
	heard   []match.Heard // at the listener, now
	missing []string      // what is not known of that
	turning []match.Turning
}

// device gives the device by its flags. What has to be said about its fan is
// said.
func (d *deviceFlags) device(ctx context.Context, s *session, cat *store.Catalogue) (described, error) {
	fan, row, remarks, err := d.fitted.fan(ctx, cat)
	if err != nil {
		return described{}, err
	}
	for _, remark := range remarks {
		s.say("%s", remark)
	}
	return described{path: match.Path{Fitted: fan, Row: row, Seat: d.seat.seat(fan), SpeedNow: d.fitted.speed, Way: d.way.way()}}, nil
}

// problem is an open catalogue with what is asked of it.
type problem struct {
	cat    *store.Catalogue
	fans   catalog.Fans
	device described
	req    match.Request
	sure   *sample.Options // how a ranking is drawn; nil: nominal
	twins  *store.Twins
}

// pose opens the catalogue and puts device and choice into a request. The
// caller closes the catalogue.
func pose(ctx context.Context, s *session, d *deviceFlags, c *choiceFlags) (*problem, error) {
	if err := d.load(ctx); err != nil { // before anything else: it is what the person has in hand
		return nil, err
	}
	cat, err := s.openCatalog(ctx)
	if err != nil {
		return nil, err
	}
	p, err := poseOn(ctx, s, cat, d, c)
	if err != nil {
		cat.Close()
		return nil, err
	}
	return p, nil
}

// poseOn is pose with a catalogue that is open, and stays the caller's.
func poseOn(ctx context.Context, s *session, cat *store.Catalogue, d *deviceFlags, c *choiceFlags) (*problem, error) {
	p := &problem{cat: cat}
	var err error
	if c.from, c.to, err = c.source.apply(cat); err == nil {
		p.twins, err = cat.Twins(ctx)
	}
	if err != nil {
		return nil, err
	}
	p.fans = cat.View(p.twins)
	if d.file != "" {
		p.device, err = d.fromFile(ctx, cat, p.fans, c.listener)
	} else {
		p.device, err = d.device(ctx, s, cat)
	}
	if err != nil {
		return nil, err
	}
	p.req, p.sure = p.device.request(p.device.path, p.device.at, c), c.sure()
	return p, nil
}

// request asks about one path of the device, number at of its file.
func (dev *described) request(path match.Path, at int, c *choiceFlags) match.Request {
	req := match.Request{Path: path}
	c.apply(&req)
	if dev.file != nil {
		req.Around = dev.file.Surroundings()
		req.Listener = dev.file.ListenerOf(&path)
		req.Room, req.RoomBands = or(c.room, dev.file.Room), dev.file.RoomBands
		for _, t := range dev.turning {
			if t.Path != at {
				req.Others = append(req.Others, t)
			}
		}
	}
	return req
}

// or gives the first that is known.
func or[T any](first, second quantity.Known[T]) quantity.Known[T] {
	if first.Known() {
		return first
	}
	return second
}

// regulates says whether the fitted fan sets its own speed.
func (p *problem) regulates() bool { return p.req.Path.RegulatedBy == match.RegulatedByFan }

// rail gives the supply at the plug: as given, else as recorded.
func (p *problem) rail(given quantity.Known[drive.Rail], pulsed bool) (rail drive.Rail, recorded bool) {
	seat := &p.req.Path.Seat
	rail, ok := given.Get()
	if !ok {
		high := float64(seat.Voltage.Or(0))
		rail, recorded = drive.Rail{Low: float64(seat.VoltageLow.Or(quantity.Voltage(high))), High: high}, p.device.file != nil
	}
	rail.Pulsed = pulsed || seat.Pulsed.Or(false)
	return rail, recorded || ok
}

// around gives what the device file says beside the path asked about; nil
// without one.
func (p *problem) around() *view.Around {
	dev := &p.device
	if dev.file == nil {
		return nil
	}
	return &view.Around{Device: dev.file, Shown: dev.at, Loudest: dev.loudest, Heard: dev.heard, Missing: dev.missing}
}
