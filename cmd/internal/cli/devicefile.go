package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/store"
	"lowsone/match"
	"lowsone/match/devicefile"
	"lowsone/match/resistance"
)

// isDeviceFile says whether an argument names a device file, by its ending.
func isDeviceFile(arg string) bool { return hasEnding(arg, ".yaml", ".yml") }

// readDeviceFile reads a device file and the tables of levels it names; its fans
// are not looked up.
func readDeviceFile(ctx context.Context, name string) (*devicefile.File, error) {
	file, err := os.Open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, failf("lowsone device new FILE makes one; the fitted fan of a device without one: --replace PART", "there is no device file %q", name)
	case err != nil:
		return nil, fmt.Errorf("read device file: %w", err)
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.IsDir() {
		return nil, failf("name a file in it", "%q is a folder", name)
	}
	data, err := io.ReadAll(io.LimitReader(file, devicefile.MostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read device file: %w", err)
	}
	return devicefile.Parse(name, data, tablesBeside(ctx, name))
}

// load reads the device file, if one was named and is not read yet.
func (d *deviceFlags) load(ctx context.Context) (err error) {
	if d.file != "" && d.read == nil {
		d.read, err = readDeviceFile(ctx, d.file)
	}
	return err
}

// lookIn finds the fans of a device file in a catalogue.
func lookIn(ctx context.Context, cat *store.Catalogue) devicefile.Look {
	return func(part string) (int, *catalog.Fan, error) {
		rows, err := cat.Lookup(part)
		if err != nil {
			return 0, nil, err
		}
		if len(rows) == 0 {
			return 0, nil, noPartIn(ctx, cat, "or describe the fan here: lowsone device new shows how", "no fan %q in the catalogue", part)
		}
		return onePart(ctx, cat, "part", part)
	}
}

// fromFile gives the device of a file, the path that is asked about overruled by
// flags; so is the listener.
func (d *deviceFlags) fromFile(ctx context.Context, cat *store.Catalogue, fans catalog.Fans, listener quantity.Known[quantity.Length]) (described, error) {
	if err := d.load(ctx); err != nil {
		return described{}, err
	}
	if err := d.read.Resolve(lookIn(ctx, cat)); err != nil {
		return described{}, err
	}
	dev := &described{file: &d.read.Device, name: d.file}
	if err := dev.choose(ctx, fans, d.path); err != nil {
		return described{}, err
	}
	if listener.Known() {
		dev.file.Listener = listener
		dev.file.Paths[dev.at].Listener = listener
	}
	if err := d.overrule(ctx, cat, dev); err != nil {
		return described{}, err
	}
	var err error
	if dev.heard, dev.missing, err = dev.file.Heard(ctx, fans); err != nil {
		return described{}, err
	}
	dev.turning, err = dev.file.Turning(ctx, fans)
	return *dev, err
}

// choose takes the path that was named, else the only one, else the loudest at
// the listener, as the file has it.
func (dev *described) choose(ctx context.Context, fans catalog.Fans, name string) error {
	paths := dev.file.Paths
	switch {
	case name != "":
		at := slices.IndexFunc(paths, func(p match.Path) bool { return catalog.FoldKey(p.Name) == catalog.FoldKey(name) })
		if at < 0 {
			return usagef(suggest(name, pathNames(dev.file)), "%s has no path %q", dev.name, name)
		}
		dev.at = at
	case len(paths) > 1:
		heard, _, err := dev.file.Heard(ctx, fans)
		if err != nil {
			return err
		}
		dev.at, dev.loudest = loudest(heard)
	}
	return nil
}

func pathNames(device *match.Device) []string {
	var names []string
	for i := range device.Paths {
		names = append(names, device.PathName(i))
	}
	return names
}

// loudest gives the path that is heard loudest, the first of equal ones; the
// first of all, and false, where none is known.
func loudest(heard []match.Heard) (path int, ok bool) {
	most := match.Heard{}
	for _, h := range heard {
		if h.Path != match.OtherSource && (!ok || h.Level > most.Level) {
			most, ok = h, true
		}
	}
	return most.Path, ok
}

// overrule lets the flags overrule what the file says of the path asked about.
func (d *deviceFlags) overrule(ctx context.Context, cat *store.Catalogue, dev *described) error {
	path := &dev.file.Paths[dev.at]
	if d.fitted.replace != "" || len(d.fitted.values) > 0 {
		if d.fitted.replace == "" {
			path.Fitted = d.fitted.overrule(path.Fitted)
		} else {
			fan, row, _, err := d.fitted.fan(ctx, cat)
			if err != nil {
				return err
			}
			path.Fitted, path.Row = fan, row
		}
	}
	if d.fitted.speed != (match.Speed{}) {
		path.SpeedNow = d.fitted.speed
	}
	if len(d.way.given()) > 0 {
		path.Way, path.Ways = d.way.way(), nil
		if path.Way.Method == resistance.ByHeat {
			path.Heat, path.Inlet = d.way.heat, or(d.way.inlet, path.Inlet)
		}
	}
	path.Seat = d.seat.over(path.Seat, path.Fitted)
	dev.path = *path
	return nil
}
