package recording

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"lowsone/acoustics"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
)

// TableOptions force what would otherwise be found in a table of band levels.
type TableOptions struct {
	Tabular   tabular.Options
	Weighting quantity.Known[acoustics.Weighting]
	Column    string // header of the levels, in a table with a column of frequencies
	AnyScale  bool   // levels may be re full scale or some other reference: their shape alone is used
}

// Table is a spectrum read from a table of band levels.
type Table struct {
	acoustics.BandReading
	Weighting acoustics.Weighting // of the levels as they stood in the table
	Stated    bool                // the table or the options say so; else it is assumed
	Rows      int                 // of levels that were averaged, as energies
	Notes     []string            // how the table was read, where a person should know
}

// ReadBands reads a table of band levels of size bytes, as apps and analysers
// export it; name stands in messages. It has either a column of frequencies and
// one of levels, or frequencies as headers and levels in one or several rows
// below, which are averaged as energies. Frequencies are written as 125, 125 Hz,
// 1k, 1.25 kHz or 12,5 kHz. Words such as LAeq or dB(A) tell the weighting;
// where nothing does, levels are taken as unweighted and a note says so. Of
// several kinds of levels the equivalent ones count, else those of no stated
// kind, else the maxima and so on.
//
// The error is an [*Error], one of tabular, or the context's. What bands must be
// there, [acoustics.ReadBands] says.
func ReadBands(ctx context.Context, name string, src io.ReaderAt, size int64, opts TableOptions) (*Table, error) {
	if opts.Tabular.HeaderScore == nil {
		opts.Tabular.HeaderScore = headerScore
	}
	file, err := tabular.Open(ctx, name, src, size, opts.Tabular)
	if err != nil {
		return nil, err
	}
	t := &tableReader{name: name, file: file, opts: opts, table: &Table{}}
	t.table.Notes = append(t.table.Notes, file.Dialect().Notes...)
	if err := t.gather(ctx); err != nil {
		return nil, err
	}
	chosen, err := t.choose()
	if err != nil {
		return nil, err
	}
	if err := t.weigh(chosen); err != nil {
		return nil, err
	}
	if err := t.spectrum(chosen); err != nil {
		return nil, err
	}
	return t.table, nil
}

// tableReader reads one table.
type tableReader struct {
	name   string
	file   *tabular.File
	opts   TableOptions
	table  *Table
	around weight // what titles and a line of units say
	power  bool   // they say that levels are of sound power
	marks  []tabular.Decision
	groups []*group
	absent int // cells without a level
}

// group is the levels of one kind.
type group struct {
	label label
	bands []*bandCell
}

// bandCell is a band with the energies of its cells.
type bandCell struct {
	hz     float64
	column int              // that its cells stand in, or own
	at     tabular.Position // of the first
	energy float64
	cells  int
}

// own is the column of a band that takes no second cell.
const own = -1

func (b *bandCell) level() float64 { return 10 * math.Log10(b.energy/float64(b.cells)) }

// slot finds the band of a column in a group, or makes one.
func (t *tableReader) slot(l label, hz float64, column int) *bandCell {
	g := t.group(l)
	for _, b := range g.bands {
		if column != own && b.column == column {
			return b
		}
	}
	b := &bandCell{hz: hz, column: column}
	g.bands = append(g.bands, b)
	return b
}

func (t *tableReader) group(l label) *group {
	for _, g := range t.groups {
		if g.label == l {
			return g
		}
	}
	t.groups = append(t.groups, &group{label: l})
	return t.groups[len(t.groups)-1]
}

// weigh settles the weighting of the chosen levels.
func (t *tableReader) weigh(g *group) error {
	if (g.label.stat == statPower || g.label.stat == statUnsaid && t.power) && !t.opts.AnyScale {
		return t.fail(ErrBands, tabular.Position{}, "export sound pressure levels where people listen; in free air they are 11 dB less a metre away",
			"the levels are of sound power, not of the sound pressure at a place")
	}
	said := g.label.weight
	if said == weightUnsaid {
		said = t.around
	}
	if w, ok := t.opts.Weighting.Get(); ok {
		t.table.Weighting, t.table.Stated = w, true
		return nil
	}
	switch said {
	case weightC:
		return t.fail(ErrLayout, tabular.Position{}, "export the levels unweighted (Z) or A-weighted", "the levels are C-weighted, which is not read")
	case weightUnsaid:
		t.note("nothing says how the levels are weighted: taken as unweighted. If they are A-weighted, the spectrum is wrong; say so")
	case weightA:
		t.table.Weighting = acoustics.AWeighted
	}
	t.table.Stated = said != weightUnsaid
	return nil
}

// spectrum hands the levels to acoustics.
func (t *tableReader) spectrum(g *group) error {
	var levels []quantity.BandLevel
	negative := len(g.bands) > 0
	for _, b := range g.bands {
		levels = append(levels, quantity.BandLevel{Frequency: quantity.Frequency(b.hz), Level: quantity.Decibel(b.level())})
		negative = negative && b.level() < 0
	}
	if negative && !t.opts.AnyScale {
		return t.fail(ErrBands, g.bands[0].at, "export calibrated levels in dB re 20 µPa",
			"all levels are below 0 dB: they are levels re full scale, which say nothing of loudness")
	}
	reading, err := acoustics.ReadBands(levels, t.table.Weighting)
	if err != nil {
		return t.bandError(g, err)
	}
	t.table.BandReading = reading
	if missing := slices.Concat(reading.Low, reading.High); len(missing) > 0 {
		t.note("bands that are not in the table count as without sound: %s Hz", hzList(missing))
	}
	if len(reading.Outside) > 0 {
		t.note("%d bands below 25 Hz or above 12.5 kHz were left out", len(reading.Outside))
	}
	return nil
}

// bandError puts the place and the mend to an error of acoustics.ReadBands.
func (t *tableReader) bandError(g *group, err error) error {
	var e *acoustics.BandError
	if !errors.As(err, &e) {
		return t.fail(ErrBands, tabular.Position{}, "", "%v", err)
	}
	out := t.fail(ErrBands, tabular.Position{}, bandHint(e), "%s", strings.TrimPrefix(e.Error(), "read band levels: "))
	out.Cause = e
	near := math.Inf(1)
	for _, b := range g.bands {
		// The last of equals: of a band that stands there twice, the second.
		if off := math.Abs(math.Log(b.hz / float64(e.Band.Frequency))); e.Band.Frequency > 0 && off <= near {
			near, out.At = off, b.at
		}
	}
	return out
}

func bandHint(e *acoustics.BandError) string {
	switch e.Fault {
	case acoustics.NoBand:
		return fmt.Sprintf("the nearest band lies at %g Hz; a narrow-band spectrum is not read here", float64(e.Nearest()))
	case acoustics.TooLoud:
		return "levels must be sound pressure levels in dB re 20 µPa"
	case acoustics.Repeated:
		return "leave one of the two out"
	case acoustics.MixedWidths:
		return "give octaves or third octaves, not both"
	}
	return "export third octaves from 100 Hz to 8 kHz, or octaves from 125 Hz to 4 kHz, without a gap"
}

func (t *tableReader) fail(kind error, at tabular.Position, hint, format string, args ...any) *Error {
	return &Error{File: t.name, At: at, Reason: fmt.Sprintf(format, args...), Hint: hint, Err: kind}
}

func (t *tableReader) note(format string, args ...any) {
	t.table.Notes = append(t.table.Notes, fmt.Sprintf(format, args...))
}

// hzList writes frequencies.
func hzList(bands []quantity.Frequency) string {
	var texts []string
	for _, f := range bands {
		texts = append(texts, fmt.Sprintf("%g", float64(f)))
	}
	return strings.Join(texts, ", ")
}
