package cli

import (
	"context"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

const tonesLong = `List the tones that the fans of a device make as they turn now: of each its
blade tone with the multiples and the third octaves these fall in, the hum of
fans on AC, and which fans beat: how that is heard, and to what speed to slow
one of them so that it ends.

What is missing for it, the number of blades or the speed, is named. Without a
device file, give blades and speed of each fan.`

const tonesExample = `  lowsone tones amplifier.yaml
  lowsone tones --blades 7 --speed 2100rpm --blades 7 --speed 2060rpm`

// tonesOptions are what tones is asked for.
type tonesOptions struct {
	session *session
	file    string
	path    string
	blades  []float64
	speeds  []float64 // 1/s, of the same fans
}

func newTonesCmd(s *session, run func(context.Context, *tonesOptions) error) *cobra.Command {
	o := &tonesOptions{session: s}
	cmd := &cobra.Command{
		Use:     "tones [DEVICE.yaml] [flags]",
		Short:   "list the tones of a device's fans, and which of them beat",
		Long:    tonesLong,
		Example: tonesExample,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.name(args); err != nil {
				return err
			}
			if err := o.check(); err != nil {
				return err
			}
			return run(cmd.Context(), o)
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	flags.StringVar(&o.path, "path", "", "`NAME` of one air path of the device file (else all)")
	flags.Var(newParsed("number", o.readBlades), "blades", "number of blades of a fan, without a device file; repeat it for more fans")
	flags.Var(newParsed("rpm", o.readSpeed), "speed", "its speed, in rpm; repeat it in the same order")
	return cmd
}

func (o *tonesOptions) readBlades(text string) error {
	v, err := parseField(&catalog.Fields[catalog.FieldBlades], text)
	o.blades = append(o.blades, v.Number)
	return err
}

func (o *tonesOptions) readSpeed(text string) error {
	v, err := speedBounds().parse(text)
	o.speeds = append(o.speeds, v)
	return err
}

func (o *tonesOptions) name(args []string) error {
	for _, arg := range args {
		switch {
		case hasEnding(arg, ".wav"):
			return usagef("the tones in a recording: lowsone listen "+quoted(arg), "%q is no device file", arg)
		case o.file != "":
			return usagef("name one device file", "tones does not know what to do with %q", arg)
		}
		o.file = arg
	}
	return nil
}

func (o *tonesOptions) check() error {
	described := len(o.blades) > 0 || len(o.speeds) > 0
	switch {
	case o.file == "" && !described:
		return usagef("name a device file (lowsone device new makes one), or give --blades 7 --speed 2100rpm", "tones of which fans?")
	case o.file != "" && described:
		return usagef("write blades and speed into the file, or leave it out", "a device file and --blades or --speed contradict each other")
	case len(o.blades) != len(o.speeds):
		return usagef("each fan has both: --blades 7 --speed 2100rpm", "--blades is given %d times, --speed %d times", len(o.blades), len(o.speeds))
	case o.path != "" && o.file == "":
		return usagef("lowsone device new FILE makes one", "--path needs a device file")
	}
	return nil
}

func runTones(ctx context.Context, o *tonesOptions) error {
	doc, err := o.work(ctx)
	if err != nil {
		return err
	}
	if err := o.session.print(doc); err != nil {
		return err
	}
	if !doc.Any() {
		return o.nothing(doc)
	}
	return nil
}

// nothing says why no tone was told.
func (o *tonesOptions) nothing(doc *view.Tones) error {
	for _, i := range doc.Shown {
		if hz := doc.Turning.Fans[i].Hz(); hz > 0 {
			return nothingf("check its blades and speed", "the blade tone of %s, at %.0f Hz, lies beyond hearing", doc.Turning.Fans[i].Name, hz)
		}
	}
	if o.file == "" {
		return nothingf("give blades and speed as they are: --blades 7 --speed 2100rpm", "no tone of these fans is known")
	}
	return nothingf("count the blades, measure the speed, and write both into the file: lowsone device check "+quoted(o.file), "no tone of these fans is known")
}

func (o *tonesOptions) work(ctx context.Context) (*view.Tones, error) {
	doc := &view.Tones{}
	var err error
	if o.file == "" {
		doc.Turning = o.described()
	} else if doc.Turning, err = o.session.fansTurning(ctx, o.file); err != nil {
		return nil, err
	}
	if doc.Shown, err = o.shown(doc.Turning); err != nil {
		return nil, err
	}
	for _, beat := range beatsOf(doc.Turning.Fans) {
		if slices.Contains(doc.Shown, beat.Low.Fan) || slices.Contains(doc.Shown, beat.High.Fan) {
			doc.Beats = append(doc.Beats, beat)
		}
	}
	if doc.Turning.Device != nil {
		doc.Hums = humsOf(doc.Turning.Device, doc.Shown)
	}
	return doc, nil
}

// described gives the fans of the flags.
func (o *tonesOptions) described() *view.FansTurning {
	fans := &view.FansTurning{}
	for i := range o.blades {
		name := "the fan"
		if len(o.blades) > 1 {
			name = fmt.Sprintf("fan %d", i+1)
		}
		fans.Fans = append(fans.Fans, match.Turning{Path: i, Name: name, Blades: o.blades[i], Turns: o.speeds[i], Measured: true})
	}
	return fans
}

// shown lists the fans to show.
func (o *tonesOptions) shown(fans *view.FansTurning) ([]int, error) {
	var shown []int
	for i, fan := range fans.Fans {
		if o.path == "" || catalog.FoldKey(fan.Name) == catalog.FoldKey(o.path) {
			shown = append(shown, i)
		}
	}
	if o.path != "" && len(shown) == 0 {
		return nil, usagef(suggest(o.path, pathNames(fans.Device)), "%s has no path %q", o.file, o.path)
	}
	return shown, nil
}

// humsOf lists the fans on AC, whose motors hum at twice the frequency of the
// mains.
func humsOf(device *match.Device, shown []int) []view.Hum {
	var hums []view.Hum
	for _, i := range shown {
		path := &device.Paths[i]
		if or(path.Seat.Supply, path.Fitted.Supply).Or(catalog.DC) != catalog.AC {
			continue
		}
		hum := view.Hum{Fan: i, Mains: math.NaN()}
		if mains, ok := or(path.Seat.Mains, path.Fitted.Frequency).Get(); ok {
			hum.Mains = float64(mains / quantity.Hertz)
		}
		hums = append(hums, hum)
	}
	return hums
}
