package cli

import (
	"context"
	"errors"
	"slices"

	"lowsone/acoustics/recording"
	"lowsone/catalog"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/devicefile"
)

// fansTurning gives the fans of a device file as they turn now; nil for no file.
// The catalogue is opened only where the file names one of its fans; without a
// catalogue those fans are what the file itself says of them.
func (s *session) fansTurning(ctx context.Context, name string) (*view.FansTurning, error) {
	if name == "" {
		return nil, nil
	}
	file, err := readDeviceFile(ctx, name)
	if err != nil {
		return nil, err
	}
	fans := &view.FansTurning{File: name, Device: &file.Device}
	var catalogue catalog.Fans = catalog.ColumnsOf()
	if namesParts(file) {
		cat, err := s.openCatalog(ctx)
		switch {
		case errors.Is(err, store.ErrNone):
			fans.NotLooked = store.ErrNone.Error() + "; " + hintOf(err)
		case err != nil:
			return nil, err
		default:
			defer cat.Close()
			if err := file.Resolve(lookIn(ctx, cat)); err != nil {
				return nil, err
			}
			twins, err := cat.Twins(ctx)
			if err != nil {
				return nil, err
			}
			catalogue = cat.View(twins)
		}
	}
	fans.Fans, err = file.Device.Turning(ctx, catalogue)
	return fans, err
}

// namesParts says whether a fan of a device file is to be looked up.
func namesParts(file *devicefile.File) bool {
	return slices.ContainsFunc(file.Fans, func(f devicefile.Fan) bool { return f.Part != "" })
}

// seriesOf sorts tones into series, with the other fans that may make each as
// well.
func seriesOf(tones []recording.Tone, fans []match.Turning) []view.Series {
	hz := make([]float64, len(tones))
	for i, t := range tones {
		hz[i] = float64(t.Frequency)
	}
	var all []view.Series
	found := match.Whose(hz, fans)
	for _, s := range found {
		out := view.Series{Series: s}
		for i := range fans {
			if s.Maker == match.MadeByFan && !claims(found, i) && claims(match.Whose([]float64{s.Hz}, fans[i:i+1]), 0) {
				out.Or = append(out.Or, i)
			}
		}
		all = append(all, out)
	}
	return all
}

// claims says whether a fan makes one of the series.
func claims(series []match.Series, fan int) bool {
	return slices.ContainsFunc(series, func(s match.Series) bool { return s.Maker == match.MadeByFan && s.Fan == fan })
}

// heardAs gives fans with the speeds that their tones in a recording tell; a
// guessed number of blades stays unknown.
func heardAs(fans []match.Turning, series []view.Series) []match.Turning {
	heard := slices.Clone(fans)
	for _, s := range series {
		if s.Maker == match.MadeByFan && !s.Guessed && len(s.Or) == 0 {
			heard[s.Fan].Turns, heard[s.Fan].Measured = s.Turns, true
		}
	}
	return heard
}
