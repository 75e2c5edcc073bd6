package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"lowsone/acoustics"
	"lowsone/acoustics/loudness"
	"lowsone/acoustics/recording"
	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
	"lowsone/cmd/internal/view"
)

const loudnessLong = `Say how loud a steady sound is, in sone by ISO 532-1, from its levels by band:
its A-, C- and unweighted level, where in pitch its loudness lies, its ratings
NC and NR, how many dB less make it half as loud, and what it adds to a room.

FILE is a table of third octaves or octaves as an app or an analyser exports it:
a column of frequencies and one of levels, or frequencies as headers. --level
sets the spectrum to the level a meter showed; then bands of any scale will do.

--background is the same place with the device off, by the same app: its energy
is taken off each band. --level shifts it as much as the sound. --room-level is
the noise of a room that FILE does not hold.`

const loudnessExample = `  lowsone loudness bands.csv
  lowsone loudness bands.csv --background off.csv
  lowsone loudness bands.csv --level 35dBA --field diffuse --room-level 25dBA
  lowsone loudness --bands "125:38;250:35;500:33;1000:30;2000:26;4000:20"`

// loudnessOptions are what loudness is asked for.
type loudnessOptions struct {
	session    *session
	shift      quantity.Decibel // that --level set the scale by
	file       string
	bands      []quantity.BandLevel
	background string
	room       quantity.Known[quantity.SoundPressureLevel]
	level      quantity.Known[quantity.SoundPressureLevel]
	field      loudness.Field
	read       recording.TableOptions
}

func newLoudnessCmd(s *session, run func(context.Context, *loudnessOptions) error) *cobra.Command {
	o := &loudnessOptions{session: s}
	cmd := &cobra.Command{
		Use:     "loudness [FILE.csv] [flags]",
		Short:   "say how loud a spectrum is, in sone",
		Long:    loudnessLong,
		Example: loudnessExample,
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
	flags, format := cmd.Flags(), &o.read.Tabular
	flags.SortFlags = false
	flags.Var(readInto(&o.bands, catalog.ParseBands), "bands", "levels by band in dB, as pairs with the frequency in Hz: 63:41;125:38;…")
	flags.Var(readInto(&o.read.Weighting, readWeighting), "weighting", "how the levels are weighted: none or A (else as the table says, else none)")
	flags.Var(readInto(&o.level, readLevel), "level", "A-weighted level of the whole, as a meter showed it, in dB(A)")
	registerField(flags, &o.field)
	flags.StringVar(&o.background, "background", "", "`FILE` of the same place with the device off, taken off each band")
	flags.Var(readInto(&o.room, readLevel), "room-level", "level of the room's noise, in dB(A), of a typical spectrum")
	flags.StringVar(&o.read.Column, "column", "", "`HEADER` of the column of levels (else found)")
	flags.Var(readInto(&format.Delimiter, tabular.ParseDelimiter), "delimiter", "`name` of the delimiter: comma, semicolon, tab, bar, or the character")
	flags.Var(readInto(&format.Decimal, tabular.ParseMark), "decimal", "decimal `mark`: . or ,")
	return cmd
}

// readLevel reads an A-weighted level.
func readLevel(text string) (quantity.Known[quantity.SoundPressureLevel], error) {
	db, err := roomBounds().parse(text)
	if err != nil && hintOf(err) != "" {
		return quantity.Known[quantity.SoundPressureLevel]{}, usagef("it takes a level in dB(A): 40, 40dBA or 4B; a C-weighted or unweighted one is not taken", "%w", err)
	}
	return quantity.Stated(quantity.PressureLevel(db)), err
}

func (o *loudnessOptions) name(args []string) error {
	for _, arg := range args {
		switch {
		case hasEnding(arg, ".wav"):
			return usagef("a recording: lowsone listen "+quoted(arg), "%q is no table of levels by band", arg)
		case o.file != "":
			return usagef("name one table", "loudness does not know what to do with %q", arg)
		}
		o.file = arg
	}
	return nil
}

func (o *loudnessOptions) check() error {
	switch {
	case o.file == "" && o.bands == nil:
		return usagef(`name a table of levels by band, or give them: --bands "125:38;250:35;500:33;1000:30;2000:26;4000:20"`, "loudness of which levels?")
	case o.file != "" && o.bands != nil:
		return usagef("leave one of them out", "%q and --bands contradict each other", o.file)
	case o.background != "" && o.room.Known():
		return usagef("leave one of them out", "--background and --room-level contradict each other")
	case o.background == "-" && o.file == "-":
		return usagef("name one of them by its file", "both tables cannot come from standard input")
	case o.file == "" && (o.read.Column != "" || o.read.Tabular.Delimiter != 0 || o.read.Tabular.Decimal != 0):
		return usagef("name a table, or leave it out", "--column, --delimiter and --decimal are for tables")
	}
	return nil
}

func runLoudness(ctx context.Context, o *loudnessOptions) error {
	doc := &view.BandLoudness{File: fileName(o.file), Field: o.field, Level: o.level}
	read := o.read
	read.AnyScale = o.level.Known()
	if err := o.spectrum(ctx, doc, read); err != nil {
		return err
	}
	if level, ok := o.level.Get(); ok {
		o.shift = level.Above(doc.Thirds.A())
		doc.Thirds = doc.Thirds.ScaledTo(level)
	}
	if err := loudness.Check(&doc.Thirds); err != nil {
		return failf("levels must be sound pressure levels in dB re 20 µPa", "no loudness can be told: %w", err)
	}
	doc.Pattern, doc.Ratings = loudness.Analyse(&doc.Thirds, o.field), ratings(&doc.Thirds)
	doc.Halving = halving(&doc.Thirds, o.field)
	if err := o.inRoom(ctx, doc); err != nil {
		return err
	}
	return o.session.print(doc)
}

// spectrum reads the levels of the file or of --bands.
func (o *loudnessOptions) spectrum(ctx context.Context, doc *view.BandLoudness, read recording.TableOptions) error {
	if o.file != "" {
		table, err := o.session.readBands(ctx, o.file, read)
		if err != nil {
			return o.withoutScale(ctx, read, err)
		}
		doc.BandReading, doc.Weighting, doc.Notes = table.BandReading, table.Weighting, table.Notes
		return nil
	}
	if !read.AnyScale && !slices.ContainsFunc(o.bands, func(b quantity.BandLevel) bool { return b.Level >= 0 }) {
		return usagef("give the level that a meter showed, --level 45dBA: then only their shape counts",
			"--bands: all levels are below 0 dB: they are levels re full scale, which say nothing of loudness")
	}
	doc.Weighting = read.Weighting.Or(acoustics.Unweighted)
	reading, err := acoustics.ReadBands(o.bands, doc.Weighting)
	doc.BandReading = reading
	if err != nil {
		return usagef(bandsHint(err), "--bands: %w", err)
	}
	doc.Notes = endNotes(&reading)
	return nil
}

// withoutScale names --level as the mend of a table that can be read but for its
// scale.
func (o *loudnessOptions) withoutScale(ctx context.Context, read recording.TableOptions, err error) error {
	if read.AnyScale || o.file == "-" || !errors.Is(err, recording.ErrBands) {
		return err
	}
	read.AnyScale = true
	if _, unread := o.session.readBands(ctx, o.file, read); unread != nil {
		return err
	}
	return failf("give the level that a meter showed, --level 45dBA: then only their shape counts", "%w", err)
}

// endNotes says which bands were not given, as tables are told.
func endNotes(r *acoustics.BandReading) []string {
	var notes []string
	if missing := append(r.Low, r.High...); len(missing) > 0 {
		notes = append(notes, "bands that were not given count as without sound: "+view.Hertzes(missing))
	}
	if len(r.Outside) > 0 {
		notes = append(notes, fmt.Sprintf("%d bands below 25 Hz or above 12.5 kHz were left out", len(r.Outside)))
	}
	return notes
}

// bandsHint names the mend of levels by band that are no spectrum.
func bandsHint(err error) string {
	var band *acoustics.BandError
	if !errors.As(err, &band) {
		return ""
	}
	switch band.Fault {
	case acoustics.NoBand:
		return fmt.Sprintf("the nearest band lies at %g Hz", float64(band.Nearest()))
	case acoustics.TooLoud, acoustics.NoNumber:
		return "levels are sound pressure levels in dB re 20 µPa"
	case acoustics.Repeated:
		return "leave one of the two out"
	case acoustics.MixedWidths:
		return "give octaves or third octaves, not both"
	}
	return "give third octaves from 100 Hz to 8 kHz, or octaves from 125 Hz to 4 kHz, without a gap"
}

// mostTable is the most bytes of a table of levels by band: some thousand rows of
// an analyser's log.
const mostTable = 64 << 20

// readBands reads a table of levels by band; - is standard input.
func (s *session) readBands(ctx context.Context, name string, opts recording.TableOptions) (*recording.Table, error) {
	if name == "-" {
		return streamedTable(ctx, stdinName, s.env.Stdin, opts)
	}
	file, info, err := openFile("table", name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if !info.Mode().IsRegular() {
		return streamedTable(ctx, name, file, opts)
	}
	if isSound(file) {
		return nil, failf("a recording: lowsone listen "+quoted(name), "%q is no table of levels by band", name)
	}
	return tableIn(ctx, name, file, info.Size(), opts)
}

// streamedTable reads a table that comes through a pipe.
func streamedTable(ctx context.Context, name string, src io.Reader, opts recording.TableOptions) (*recording.Table, error) {
	data, err := io.ReadAll(io.LimitReader(src, mostTable+1))
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if len(data) > mostTable {
		return nil, failf("give the rows that count", "%s holds more than %d MiB: no table of levels by band", name, mostTable>>20)
	}
	return tableIn(ctx, name, bytes.NewReader(data), int64(len(data)), opts)
}

// tableIn makes a wrong column a wrong command line.
func tableIn(ctx context.Context, name string, src io.ReaderAt, size int64, opts recording.TableOptions) (*recording.Table, error) {
	table, err := recording.ReadBands(ctx, name, src, size, opts)
	if opts.Column != "" && errors.Is(err, recording.ErrLayout) {
		return nil, asUsage(err, "--column %q", opts.Column)
	}
	return table, err
}
