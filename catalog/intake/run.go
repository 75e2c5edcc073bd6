package intake

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// NothingUsableError says that a file holds rows but no fan. The catalogue is
// as it was.
type NothingUsableError struct {
	File  string
	Sheet string // of a workbook
	Rows  int
	First Reject
}

// Error names the file and why its first row was rejected.
func (e *NothingUsableError) Error() string {
	where := fmt.Sprintf("line %d", e.First.At.Line)
	if e.Sheet != "" {
		where = (&tabular.Dialect{Sheet: e.Sheet}).Place(e.First.At)
	}
	if e.First.Header != "" {
		where += fmt.Sprintf(", %q", e.First.Header)
	}
	return fmt.Sprintf("%s: none of %d rows can be used; %s: %s", e.File, e.Rows, where, e.First.Reason)
}

// Hint names the way on.
func (e *NothingUsableError) Hint() string {
	return "see what the columns were taken for with --dry-run, and overrule it with --column FIELD=HEADER"
}

// Run imports the file the options name and accounts for every row of it. It
// is an error if no row is usable; the catalogue is then as it was. The account
// is filled in as far as the import came, also where it fails.
func Run(ctx context.Context, o Options) (Account, error) {
	r := &run{o: &o}
	r.account.File, r.account.Source, r.account.DryRun = o.File, o.sourceName(), o.DryRun
	in, err := openInput(ctx, &o)
	if err != nil {
		return r.account, err
	}
	err = r.importFrom(ctx, in)
	return r.account, errors.Join(err, in.close())
}

// run is one import while it goes on.
type run struct {
	o       *Options
	account Account
	in      *input
	file    *tabular.File
	header  []string // as it stands in the file
	second  []string // a second line of headers, of units
	decimal tabular.Trait[tabular.Mark]
	plan    *partscsv.Plan
	sink    sink           // opened for the first usable row
	builder *store.Builder // the sink, unless this is a dry run
	rejects *rejectsFile
	tally   tally
	said    sayings
}

// sampleRows is how many rows are looked at to find out what columns are, and
// sampleCells how many cells at the most, of a table of very many columns, and
// sampleBytes how much text, of one of very long cells.
const (
	sampleRows  = 400
	sampleCells = 1 << 20
	sampleBytes = 4 << 20
)

func (r *run) importFrom(ctx context.Context, in *input) error {
	r.in, r.account.Path = in, in.path
	if err := r.open(ctx); err != nil {
		return err
	}
	if err := r.makePlan(ctx); err != nil {
		return err
	}
	rejects, err := newRejectsFile(r.o, r.account.Source, in)
	if err != nil {
		return err
	}
	r.rejects = rejects
	err = r.carry(ctx)
	err = errors.Join(err, r.rejects.drop(), r.end())
	if r.builder != nil || errors.Is(err, fs.ErrNotExist) {
		return orGone(r.o.Catalog, err)
	}
	return err
}

// open finds out how the file is written.
func (r *run) open(ctx context.Context) error {
	headers := partscsv.NewHeaders()
	format := r.o.Format
	format.HeaderScore = headers.Score
	export := r.isExport()
	if export {
		format = exportFormat(format)
	}
	file, err := tabular.Open(ctx, r.in.name, r.in, r.in.size, format)
	if err != nil {
		return err
	}
	if rows, _ := file.RowCount(); !export && rows > 1 && headers.AreUnits(file.Below().Fields) {
		file.SkipBelow()
		r.second = file.Below().Fields
	}
	r.file, r.header = file, file.HeaderRow().Fields
	r.nameSheet(file.Dialect())
	if n := len(r.account.Source); n > longestName {
		return &LongNameError{n}
	}
	return nil
}

// nameSheet makes the sheets of a workbook sources of their own. The one that is
// read where none is named goes by the name of the file alone.
func (r *run) nameSheet(d tabular.Dialect) {
	r.account.Sheet = d.Sheet
	if d.Named && plainName(r.o.Source) == "" {
		r.account.Source = plainName(r.account.Source + "#" + d.Sheet)
	}
}

// makePlan finds out what the columns are.
func (r *run) makePlan(ctx context.Context) error {
	in := partscsv.Input{File: r.file.Name(), Header: r.file.Header(), Second: r.second, Assign: r.o.Columns, Given: r.o.Values, Marks: r.marks}
	bytes := 0
	for row, err := range r.file.Rows(ctx) {
		if err != nil {
			return err
		}
		if !row.Ragged && !slices.Equal(row.Fields, r.header) {
			in.Sample = append(in.Sample, append([]string(nil), row.Fields...))
			bytes += len(row.Raw())
		}
		if n := len(in.Sample); n == sampleRows || n*len(r.header) > sampleCells || bytes > sampleBytes {
			break
		}
	}
	plan, err := partscsv.NewPlan(in)
	if err != nil {
		return r.otherSheets(err)
	}
	r.plan = plan
	r.account.Format = r.file.Dialect()
	r.account.Format.Decimal = r.decimal
	asGiven(&r.account.Format, &r.o.Format)
	r.account.Columns = plan.Columns()
	r.tally = newTally(r.account.Columns)
	return nil
}

// marks settles the decimal marks with the votes of the plan.
func (r *run) marks(votes func(column int) bool) []tabular.Mark {
	file, columns := r.file.Decide(votes)
	r.decimal = file
	marks := make([]tabular.Mark, len(columns))
	for i, d := range columns {
		marks[i] = d.Mark
	}
	return marks
}
