package trial

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
	"lowsone/match/thermal"
)

// Options force what would otherwise be found in a log.
type Options struct {
	Tabular tabular.Options
	Time    string   // header of the column of times
	Unit    TimeForm // of times; 0: found
	Probes  []string // headers of the probes; empty: every column of temperatures
}

// Log is a temperature log.
type Log struct {
	Time    string // header of the column of times
	Rows    int
	Probes  []Probe
	Skipped []Skipped // columns that are no probes
	Notes   []string  // how the log was read, where a person should know
}

// Probe is the log of one probe, in the order of its times.
type Probe struct {
	Name     string // the header without its unit
	Header   string
	Readings []thermal.Reading
	Missing  int // rows without a reading
}

// Skipped is a column that was not read, and why.
type Skipped struct{ Header, Why string }

// Error says why a log cannot be read. Hint names the mend.
type Error struct {
	File   string
	At     tabular.Position
	Reason string
	Hint   string
}

// Error prints where and why.
func (e *Error) Error() string {
	if e.At.Line == 0 {
		return fmt.Sprintf("%s: %s", e.File, e.Reason)
	}
	return fmt.Sprintf("%s:%d: %s", e.File, e.At.Line, e.Reason)
}

// ReadLog reads a log of size bytes; name stands in messages. The error is an
// *Error, one of tabular, or the context's.
func ReadLog(ctx context.Context, name string, src io.ReaderAt, size int64, opts Options) (*Log, error) {
	if opts.Tabular.HeaderScore == nil {
		opts.Tabular.HeaderScore = headerScore
	}
	file, err := tabular.Open(ctx, name, src, size, opts.Tabular)
	if err != nil {
		return nil, err
	}
	l := &logReader{name: name, file: file, opts: opts, log: &Log{}}
	l.log.Notes = append(l.log.Notes, file.Dialect().Notes...)
	if err := l.gather(ctx); err != nil {
		return nil, err
	}
	if err := l.times(); err != nil {
		return nil, err
	}
	if err := l.probes(); err != nil {
		return nil, err
	}
	return l.log, nil
}

// logReader reads one log.
type logReader struct {
	name  string
	file  *tabular.File
	opts  Options
	log   *Log
	cells [][]string // by column
	lines []int      // of the rows
	marks []tabular.Decision
	clock []float64 // s, by row
	order []int     // rows by time
}

// gather keeps the cells by column. A ragged row is an error: a shifted cell
// would be another probe's reading.
func (l *logReader) gather(ctx context.Context) error {
	_, l.marks = l.file.Decide(nil)
	l.cells = make([][]string, len(l.file.Header()))
	for row, err := range l.file.Rows(ctx) {
		if err != nil {
			return err
		}
		if row.Ragged {
			return l.errorf(row.Line, "mend the row, or leave it out", "%d cells where the header has %d", row.Cells, row.Want)
		}
		for i := range l.cells {
			l.cells[i] = append(l.cells[i], strings.Clone(strings.TrimSpace(row.Fields[i])))
		}
		l.lines = append(l.lines, row.Line)
	}
	l.log.Rows = len(l.lines) // at least one: tabular refuses a header alone
	return nil
}

func (l *logReader) errorf(line int, hint, format string, args ...any) error {
	return &Error{File: l.name, At: tabular.Position{Line: line}, Reason: fmt.Sprintf(format, args...), Hint: hint}
}

func (l *logReader) note(format string, args ...any) {
	l.log.Notes = append(l.log.Notes, fmt.Sprintf(format, args...))
}

// column finds a column by its header, with its unit or without.
func (l *logReader) column(header string) (int, error) {
	at := slices.IndexFunc(l.file.Header(), func(h string) bool {
		name, _, _ := meaning(h)
		return strings.EqualFold(h, strings.TrimSpace(header)) || strings.EqualFold(name, strings.TrimSpace(header))
	})
	if at < 0 {
		return 0, l.errorf(0, "the columns are "+strings.Join(l.file.Header(), ", "), "no column %q", header)
	}
	return at, nil
}

// times reads the column of times, and puts the rows in their order.
func (l *logReader) times() error {
	at, err := l.timeColumn()
	if err != nil {
		return err
	}
	l.log.Time = l.file.Header()[at]
	r := timeReader{l: l, at: at, mark: l.marks[at].Mark}
	if l.clock, err = r.read(); err != nil {
		return err
	}
	return l.sort(at)
}

// sort turns a log that runs backwards, and refuses one in no order.
func (l *logReader) sort(at int) error {
	l.order = make([]int, len(l.clock))
	for i := range l.order {
		l.order[i] = i
	}
	if falls(l.clock) {
		slices.Reverse(l.order)
		l.note("the newest row stands first: read from below")
		return nil
	}
	for i := 1; i < len(l.clock); i++ {
		if l.clock[i] < l.clock[i-1] {
			return l.errorf(l.lines[i], "sort the log by time", "%q is earlier than %q in the row before", l.cells[at][i], l.cells[at][i-1])
		}
	}
	return nil
}

// falls says whether times only fall.
func falls(times []float64) bool {
	for i := 1; i < len(times); i++ {
		if times[i] > times[i-1] {
			return false
		}
	}
	return times[len(times)-1] < times[0]
}

// timeColumn finds the column of times: the one named, else the one whose header
// says so.
func (l *logReader) timeColumn() (int, error) {
	if l.opts.Time != "" {
		return l.column(l.opts.Time)
	}
	best, found := 0, -1
	for i, header := range l.file.Header() {
		if score := timeScore(header, l.cells[i]); score > best {
			best, found = score, i
		}
	}
	if found < 0 {
		return 0, l.errorf(0, "say which column the times stand in: "+flagsOf("--time", l.file.Header()), "no column is called time")
	}
	return found, nil
}

// mostFlags is how many columns are offered.
const mostFlags = 4

// flagsOf writes a flag with each of the values, ready to be typed.
func flagsOf(flag string, values []string) string {
	var all []string
	for _, v := range values[:min(len(values), mostFlags)] {
		if strings.ContainsFunc(v, func(r rune) bool { return !(r == '_' || r == '-' || unicode.IsLetter(r) || unicode.IsDigit(r)) }) {
			v = strconv.Quote(v)
		}
		all = append(all, flag+"="+v)
	}
	if len(values) > mostFlags {
		all = append(all, "another of its columns")
	}
	return strings.Join(all, " or ")
}

// probes reads the columns of temperatures.
func (l *logReader) probes() error {
	columns, named := []int{}, len(l.opts.Probes) > 0
	for _, header := range l.opts.Probes {
		at, err := l.column(header)
		if err != nil {
			return err
		}
		columns = append(columns, at)
	}
	for i, header := range l.file.Header() {
		if !named && header != l.log.Time {
			columns = append(columns, i)
		}
	}
	for _, i := range columns {
		if err := l.probe(i, named); err != nil {
			return err
		}
	}
	if len(l.log.Probes) == 0 {
		return l.errorf(0, "name the columns of the probes", "no column of temperatures: %s", l.skippedWords())
	}
	return nil
}

func (l *logReader) skippedWords() string {
	var said []string
	for _, s := range l.log.Skipped {
		said = append(said, fmt.Sprintf("%q %s", s.Header, s.Why))
	}
	return strings.Join(said, ", ")
}

// probe reads one column, unless it is none of temperatures.
func (l *logReader) probe(column int, named bool) error {
	header := l.file.Header()[column]
	name, unit, why := meaning(header)
	p := Probe{Name: name, Header: header}
	for _, row := range l.order {
		celsius, ok := l.reading(column, row, unit)
		if !ok {
			p.Missing++
			continue
		}
		p.Readings = append(p.Readings, thermal.Reading{Time: l.clock[row], Celsius: celsius})
	}
	if why == "" && 2*len(p.Readings) < l.log.Rows && !named {
		why = "mostly holds no numbers"
	}
	switch {
	case why != "" && named:
		return l.errorf(0, "", "column %q %s", header, why)
	case why != "":
		l.log.Skipped = append(l.log.Skipped, Skipped{header, why})
		return nil
	case len(p.Readings) == 0:
		return l.errorf(0, "", "column %q holds no numbers", header)
	case unit.Symbol == "" && !l.unitsInCells(column):
		l.note("%q states no unit: taken as °C", header)
	}
	l.log.Probes = append(l.log.Probes, p)
	return nil
}

// reading reads one cell in °C. A unit in the cell goes before that of the
// header.
func (l *logReader) reading(column, row int, unit quantity.Unit) (float64, bool) {
	number, symbol := cutUnit(l.cells[column][row])
	v, err := tabular.ParseNumber(number, l.marks[column].Mark)
	if err != nil {
		return 0, false
	}
	if symbol != "" {
		own, ok := temperatureUnit(symbol)
		if !ok {
			return 0, false
		}
		return own.ToSI(v), true
	}
	if unit.Symbol == "" {
		return v, true
	}
	return unit.ToSI(v), true
}

func (l *logReader) unitsInCells(column int) bool {
	return slices.ContainsFunc(l.cells[column], func(cell string) bool {
		_, symbol := cutUnit(cell)
		_, ok := temperatureUnit(symbol)
		return ok
	})
}

// cutUnit parts a number from the unit behind it.
func cutUnit(cell string) (number, unit string) {
	i := strings.LastIndexAny(cell, "0123456789")
	return strings.TrimSpace(cell[:i+1]), strings.TrimSpace(cell[i+1:])
}
