package cli

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/acoustics/recording"
	"lowsone/catalog/quantity"
	"lowsone/cmd/internal/view"
	"lowsone/match"
)

const listenLong = `Say what is in a recording of a device: its A-weighted level over time, its
spectrum in third octaves, its tones, and with a device file which fan makes
each. With two recordings, say what changed from the first to the second.

A recording has no scale of its own: levels are told re full scale, good only
for differences between recordings of one gain. Note what a meter or a phone
shows while you record and give it with --level: then levels are in dB(A),
loudness in sone (ISO 532-1), and the rooms' ratings NC and NR are told too.

Record 20 s or more as WAV (PCM of 16, 24 or 32 bits, or float), mono or stereo,
with automatic gain and noise suppression off. Before and after are compared
honestly by the same phone in the same place.`

const listenExample = `  lowsone listen fan.wav
  lowsone listen fan.wav amplifier.yaml --level 52dBA
  lowsone listen before.wav after.wav --level 52dBA --same-gain --meter phone`

// listenOptions are what listen is asked for.
type listenOptions struct {
	session  *session
	files    []string
	device   string
	level    quantity.Known[view.Shown]
	after    quantity.Known[view.Shown]
	sameGain bool
	field    loudness.Field
	meter    acoustics.Meter
	part     recording.Options
}

func newListenCmd(s *session, run func(context.Context, *listenOptions) error) *cobra.Command {
	o := &listenOptions{session: s}
	cmd := &cobra.Command{
		Use:     "listen FILE.wav [AFTER.wav] [DEVICE.yaml] [flags]",
		Short:   "say what is in a recording, and which fan makes its tones",
		Long:    listenLong,
		Example: listenExample,
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
	flags.Var(readInto(&o.level, readShown), "level", "what a meter showed on average while FILE was recorded: 52dBA, or 60dBC, 61dBZ")
	flags.Var(readInto(&o.after, readShown), "level-after", "what it showed while AFTER was recorded")
	flags.BoolVar(&o.sameGain, "same-gain", false, "both were recorded with one gain, so that the scale of one is that of the other")
	flags.Var(readInto(&o.meter, readMeter), "meter", "what showed the level: class_1, class_2 or phone, to be told how far it may be off")
	registerField(flags, &o.field)
	flags.StringVar(&o.device, "device", "", "device `FILE` whose fans may make the tones, as DEVICE.yaml")
	flags.Var(readInto(&o.part.From, readSeconds), "from", "begin here, in s")
	flags.Var(readInto(&o.part.To, readEnd), "to", "end here, in s (else at the end)")
	return cmd
}

// name tells recordings from a device file.
func (o *listenOptions) name(args []string) error {
	for _, arg := range args {
		switch {
		case isDeviceFile(arg) && o.device != "":
			return usagef("name it once", "two device files: %q and %q", o.device, arg)
		case isDeviceFile(arg):
			o.device = arg
		case len(o.files) == 2:
			return usagef("name one recording, or one before and one after", "listen does not know what to do with %q", arg)
		default:
			o.files = append(o.files, arg)
		}
	}
	if len(o.files) == 0 {
		return usagef("name a WAV file, such as fan.wav", "listen needs a recording")
	}
	return nil
}

func (o *listenOptions) check() error {
	two, one := len(o.files) == 2, o.level.Known() != o.after.Known()
	switch {
	case !two && o.after.Known():
		return usagef("give what the meter showed with --level", "--level-after needs a second recording")
	case !two && o.sameGain:
		return usagef("name a recording before and one after", "--same-gain needs a second recording")
	case two && o.files[0] == "-" && o.files[1] == "-":
		return usagef("name one of them by its file", "both recordings cannot come from standard input")
	case two && one && !o.sameGain:
		return usagef("add --same-gain if the recorder's gain was not touched, else give --level and --level-after", "one level for two recordings: how loud is the other?")
	case o.part != (recording.Options{}) && slices.Contains(o.files, "-") && (o.level.Known() || o.after.Known()):
		return usagef("name the recording by its file", "a level is the mean over the whole recording, and standard input cannot be gone through once for it and once for a part")
	case o.meter != 0 && !two && !o.level.Known():
		return usagef("give what it showed: --level 52dBA", "--meter needs a level")
	}
	return nil
}

func runListen(ctx context.Context, o *listenOptions) error {
	doc := &view.Listen{Field: o.field, Meter: o.meter}
	fans, err := o.session.fansTurning(ctx, o.device)
	if err != nil {
		return err
	}
	for _, name := range o.files {
		a, err := o.session.analyse(ctx, name, o.part)
		if err != nil {
			return err
		}
		doc.Recordings = append(doc.Recordings, view.Recorded{Analysis: a})
	}
	if err := o.scale(ctx, doc); err != nil {
		return err
	}
	for i := range doc.Recordings {
		o.rate(&doc.Recordings[i])
	}
	doc.Device = fans
	o.attribute(doc)
	o.compare(doc)
	return o.session.print(doc)
}

// scale calibrates the recordings by what a meter showed.
func (o *listenOptions) scale(ctx context.Context, doc *view.Listen) error {
	levels := []quantity.Known[view.Shown]{o.level, o.after}
	for i := range doc.Recordings {
		r := &doc.Recordings[i]
		shown, ok := levels[i].Get()
		if !ok {
			continue
		}
		var err error
		if r.Scaled, err = o.calibrate(ctx, o.files[i], r.Analysis, shown); err != nil {
			return err
		}
		r.Shown = levels[i]
	}
	if len(doc.Recordings) == 2 {
		first, second := &doc.Recordings[0], &doc.Recordings[1]
		switch {
		case first.Scaled != nil && second.Scaled == nil:
			second.Scaled = second.Analysis.With(first.Scaled.Calibration())
		case first.Scaled == nil && second.Scaled != nil:
			first.Scaled = first.Analysis.With(second.Scaled.Calibration())
		}
	}
	for i := range doc.Recordings {
		if r := &doc.Recordings[i]; r.Scaled != nil {
			r.Analysis = r.Scaled.Analysis() // without the tones that nobody hears
		}
	}
	return nil
}

// calibrate sets the scale by the mean over the whole recording, which a meter
// showed, also where only a part of it is analysed.
func (o *listenOptions) calibrate(ctx context.Context, name string, a *recording.Analysis, shown view.Shown) (*recording.Calibrated, error) {
	if o.part == (recording.Options{}) {
		return calibrated(a, shown)
	}
	whole, err := o.session.analyse(ctx, name, recording.Options{})
	if err != nil {
		return nil, err
	}
	scaled, err := calibrated(whole, shown)
	if err != nil {
		return nil, err
	}
	return a.With(scaled.Calibration()), nil
}

func calibrated(a *recording.Analysis, shown view.Shown) (*recording.Calibrated, error) {
	switch shown.Weight {
	case view.WeightC:
		return a.CalibrateC(quantity.Decibel(shown.DB))
	case view.WeightZ:
		return a.CalibrateOverall(quantity.Decibel(shown.DB))
	}
	return a.Calibrate(quantity.PressureLevel(shown.DB))
}

// rate adds what a scale allows: loudness, ratings, how far the meter may be off.
func (o *listenOptions) rate(r *view.Recorded) {
	if r.Scaled == nil {
		return
	}
	pattern, err := r.Scaled.Loudness(o.field)
	if err == nil {
		r.Loudness = &pattern
	} else {
		r.NoLoudness = reasonOf(err)
	}
	thirds := r.Scaled.Thirds()
	r.Ratings = ratings(&thirds)
	r.MeterOff = float64(o.meter.HalfWidth(&thirds))
}

// reasonOf gives the reason why a recording has no loudness, with its mend.
func reasonOf(err error) string {
	var e *recording.Error
	if !errors.As(err, &e) || e.Cause == nil {
		return err.Error()
	}
	return e.Cause.Error() + "; " + e.Hint
}

// ratings rates a spectrum by NC and NR.
func ratings(thirds *acoustics.Thirds) []view.Rating {
	octaves := thirds.Octaves()
	nc, errNC := acoustics.NC(&octaves)
	nr, errNR := acoustics.NR(&octaves)
	return []view.Rating{{Name: "NC", Rating: nc, Err: errNC}, {Name: "NR", Rating: nr, Err: errNR}}
}

// attribute sorts the tones into series. A device file tells how the fans were
// found, so that of two recordings it is held against the first.
func (o *listenOptions) attribute(doc *view.Listen) {
	for i := range doc.Recordings {
		r := &doc.Recordings[i]
		var fans []match.Turning
		if doc.Device != nil && i == 0 {
			fans = doc.Device.Fans
		}
		r.Series = seriesOf(r.Analysis.Tones, fans)
	}
	if doc.Device != nil {
		heard := heardAs(doc.Device.Fans, doc.Recordings[0].Series)
		doc.Beats = beatsOf(heard)
	}
}

func (o *listenOptions) compare(doc *view.Listen) {
	if len(doc.Recordings) != 2 {
		return
	}
	before, after := &doc.Recordings[0], &doc.Recordings[1]
	if before.Scaled == nil {
		doc.Change = recording.Compare(before.Analysis, after.Analysis)
		return
	}
	doc.Change = recording.CompareCalibrated(before.Scaled, after.Scaled, o.field)
	if doubt := o.gainsApart(doc); doubt != "" {
		doc.Change.Doubts = append(doc.Change.Doubts, doubt)
	}
}

// gainsApart says that two levels do not fit the one gain that both recordings
// are said to have. The change by one phone may be off by some dB.
func (o *listenOptions) gainsApart(doc *view.Listen) string {
	before, after := doc.Recordings[0].Scaled.Calibration(), doc.Recordings[1].Scaled.Calibration()
	apart := after.FullScale() - before.FullScale()
	if !o.sameGain || quantity.Decibel(math.Abs(float64(apart))) <= acoustics.Phone.ChangeHalfWidth() {
		return ""
	}
	by := doc.Change.Level.By
	return fmt.Sprintf("the two levels do not fit one gain: by the recordings the change is %.1f dB, by the meter %.1f dB. Was a level misread, or the gain changed?", by-apart, by)
}
