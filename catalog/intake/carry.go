package intake

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// carry takes every row to where it belongs, and closes the account.
func (r *run) carry(ctx context.Context) error {
	usable, err := r.rows(ctx)
	if err != nil {
		return err
	}
	r.settle(r.counts())
	if usable == 0 {
		return errors.Join(r.nothingUsable(), r.rejectsAsked())
	}
	if r.o.DryRun {
		return nil
	}
	return r.commit(ctx)
}

// rows reads all rows and gives how many can be used.
func (r *run) rows(ctx context.Context) (usable int, err error) {
	reader := r.plan.Reader()
	for row, err := range r.file.Rows(ctx) {
		if err != nil {
			return usable, err
		}
		r.account.Rows++
		used, err := r.row(ctx, reader, row)
		if err != nil {
			return usable, err
		}
		if used {
			usable++
		}
		r.parseProgress()
	}
	return usable, ctx.Err()
}

// row takes one row to the sink or to the rejects.
func (r *run) row(ctx context.Context, reader *partscsv.Reader, row *tabular.Row) (used bool, err error) {
	if row.Ragged {
		return false, r.reject(row, raggedError(row))
	}
	if slices.Equal(row.Fields, r.header) {
		return false, r.reject(row, &partscsv.RowError{Column: -1, Reason: "the header again, no row of data"})
	}
	fan, remarks, err := reader.Read(row.Fields)
	if err != nil {
		return false, r.rejectError(row, err)
	}
	fan.Source = catalog.Source{Name: r.account.Source, Line: row.Line}
	before := r.counts().Overtaken
	if err := r.add(ctx, fan); err != nil {
		return false, r.rejectError(row, err)
	}
	r.tally.remarks(remarks, row.Line)
	r.tally.fan(fan, r.counts().Overtaken > before)
	return true, nil
}

func raggedError(row *tabular.Row) *partscsv.RowError {
	e := &partscsv.RowError{Column: -1, Reason: fmt.Sprintf("the row has %d cells, the header %d", row.Cells, row.Want)}
	e.Hint = "the row may be cut off, or a line end inside a cell is not quoted"
	if row.Cells > row.Want {
		e.Hint = "a delimiter inside a cell may not be quoted"
	}
	return e
}

// rejectError rejects a row for what is wrong with the row; other errors end
// the import.
func (r *run) rejectError(row *tabular.Row, err error) error {
	var cell *partscsv.RowError
	var held *store.RowError
	switch {
	case errors.As(err, &cell):
		return r.reject(row, cell)
	case errors.As(err, &held):
		return r.reject(row, &partscsv.RowError{Column: -1, Reason: held.Error()})
	}
	return err
}

// reject keeps account of a rejected row, and keeps the row.
func (r *run) reject(row *tabular.Row, e *partscsv.RowError) error {
	r.account.Rejected++
	out := Reject{At: row.At(e.Column), Header: e.Header, Cell: e.Cell, Reason: e.Reason, Hint: e.Hint}
	if len(r.account.Rejects) < MaxRejects {
		r.account.Rejects = append(r.account.Rejects, out)
	}
	if r.o.DryRun {
		return nil
	}
	return r.rejects.add(&out, row)
}

// settle closes the account of the rows.
func (r *run) settle(c store.Counts) {
	a := &r.account
	a.Imported = c.New + c.Changed
	a.Repeated = c.Unchanged + c.Overtaken
	a.Gone = c.Removed
	a.Fans = c.New + c.Changed + c.Unchanged
	a.Lacks, a.Unrankable = r.tally.lacking()
	a.Warnings = r.tally.sorted()
}

func (r *run) nothingUsable() error {
	e := &NothingUsableError{File: r.in.name, Rows: r.account.Rows}
	if len(r.account.Rejects) > 0 {
		e.First = r.account.Rejects[0]
	}
	return e
}

// rejectsAsked writes the rejected rows of an import that brings nothing only
// where the person named a file for them.
func (r *run) rejectsAsked() error {
	if r.o.DryRun || !r.rejects.given {
		return nil
	}
	if err := r.rejects.prepare(); err != nil {
		return err
	}
	path, err := r.rejects.finish()
	r.account.RejectsFile = path
	return err
}

// commit makes the new generation the live one, unless the file brings nothing
// new, and puts the rejected rows under their name.
func (r *run) commit(ctx context.Context) error {
	if err := r.rejects.prepare(); err != nil {
		return err
	}
	c := r.builder.Counts()
	if c.New+c.Changed+c.Removed > 0 {
		result, err := r.builder.Commit(ctx)
		if err != nil {
			return err
		}
		r.account.Changed = true
		r.account.Warnings = append(r.account.Warnings, lossWarnings(result)...)
	}
	path, err := r.rejects.finish()
	r.account.RejectsFile = path
	return err
}

// lossWarnings tells what damage to the old catalogue cost.
func lossWarnings(result store.Result) []partscsv.Warning {
	var list []partscsv.Warning
	if result.Damage != nil {
		list = append(list, partscsv.Warning{Reason: "the old " + result.Damage.Error(), Count: 1})
	}
	for _, l := range result.Lost {
		list = append(list, partscsv.Warning{
			Reason: fmt.Sprintf("rows of source %q could no longer be read and are gone: import it again", l.Source), Count: l.Rows,
		})
	}
	return list
}

// progressEvery is how many rows pass between two reports.
const progressEvery = 2000

// parseProgress reports reading as the first half of the steps, and
// commitProgress writing as the second.
func (r *run) parseProgress() {
	if r.o.Progress == nil || r.account.Rows%progressEvery != 0 {
		return
	}
	all, _ := r.file.RowCount()
	r.o.Progress(r.account.Rows, 2*all)
}

func (r *run) commitProgress(p store.Progress) {
	if r.o.Progress == nil || p.Total == 0 {
		return
	}
	all, _ := r.file.RowCount()
	r.o.Progress(all+int(float64(all)*float64(p.Done)/float64(p.Total)), 2*all)
}
