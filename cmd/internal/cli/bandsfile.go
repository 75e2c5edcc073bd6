package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"lowsone/acoustics"
	"lowsone/acoustics/recording"
	"lowsone/catalog/quantity"
	"lowsone/match/devicefile"
)

// tablesBeside reads the tables of levels by band that a device file names: from
// the folder it stands in, or by a path from the root.
func tablesBeside(ctx context.Context, device string) devicefile.ReadTable {
	return func(name string, weighting quantity.Known[acoustics.Weighting]) (devicefile.Table, error) {
		path := filepath.FromSlash(name)
		if !filepath.IsAbs(path) {
			path = filepath.Join(filepath.Dir(device), path)
		}
		table, err := readBands(ctx, path, recording.TableOptions{Weighting: weighting})
		if err != nil {
			return devicefile.Table{}, &failure{exitFailed, err, hintOf(err)}
		}
		return devicefile.Table{BandReading: table.BandReading, Weighting: table.Weighting, Stated: table.Stated, Notes: table.Notes}, nil
	}
}

// readBands reads a table of levels by band. Devices and pipes are refused: they
// might never end.
func readBands(ctx context.Context, name string, opts recording.TableOptions) (*recording.Table, error) {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, failf("a relative name counts from the folder of the device file", "there is no table %q", name)
	case err != nil:
		return nil, fmt.Errorf("read table of levels: %w", err)
	case info.IsDir():
		return nil, failf("name a file in it", "%q is a folder", name)
	case !info.Mode().IsRegular():
		return nil, failf("", "%q is no file", name)
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read table of levels: %w", err)
	}
	defer file.Close()
	return recording.ReadBands(ctx, name, file, info.Size(), opts)
}
