package intake

import (
	"context"
	"errors"
	"fmt"

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
	standing, err := r.settle()
	if err != nil {
		return err
	}
	r.close(standing)
	if usable == 0 {
		return errors.Join(r.nothingUsable(), r.rejectsAsked())
	}
	if r.o.DryRun {
		return nil
	}
	return r.commit(ctx, standing.Counts)
}

// rows takes in all rows and gives how many can be used.
func (r *run) rows(ctx context.Context) (usable int, err error) {
	s := r.startStages(ctx)
	defer s.stop()
	for p := range s.order {
		<-p.made
		r.tally.merge(p.warnings)
		r.said.merge(&p.said)
		for i, row := range p.rows {
			r.account.Rows++
			if err := r.take(ctx, row, &p.outcomes[i]); err != nil {
				return usable, err
			}
			if p.outcomes[i].err == nil {
				usable++
			}
		}
		r.readingProgress()
	}
	if s.err != nil {
		return usable, s.err
	}
	return usable, ctx.Err()
}

// take takes what came of a row to the sink or to the rejects.
func (r *run) take(ctx context.Context, row *tabular.Row, o *outcome) error {
	if o.err != nil {
		return r.rejectError(row, o.err)
	}
	return r.add(ctx, o.row)
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

// close closes the account of the rows.
func (r *run) close(c store.Standing) {
	a := &r.account
	a.Imported = c.New + c.Changed
	a.Unchanged, a.Overtaken = c.Unchanged, c.Overtaken
	a.Repeated = a.Unchanged + a.Overtaken
	a.Gone, a.Before = c.Removed, c.Before
	a.Fans = c.New + c.Changed + c.Unchanged
	a.Lacks, a.Unrankable = lacking(&c)
	a.Warnings = r.tally.sorted()
	a.Forgotten = r.o.forgotten(c.Before.Options)
	a.Values, a.Unstated = r.said.values(r.o.Values), r.said.unstated()
}

func (r *run) nothingUsable() error {
	e := &NothingUsableError{File: r.in.name, Sheet: r.account.Format.Sheet, Rows: r.account.Rows}
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
func (r *run) commit(ctx context.Context, c store.Counts) error {
	if err := r.rejects.prepare(); err != nil {
		return err
	}
	changed := c.New+c.Changed+c.Removed > 0 || r.builder.Damage() != nil
	if !changed {
		renewed, err := r.builder.Renews(ctx)
		if err != nil {
			return err
		}
		r.account.Renewed = renewed
	}
	if changed || r.account.Renewed {
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

// How the time of an import is spent, in tenths: looking through the file comes
// first, then reading its rows, then writing the generation. Progress is told in
// rows all the same: in as many as that time would do.
const (
	looking = 2
	reading = 7
	writing = 1
)

// readingProgress reports how far reading is.
func (r *run) readingProgress() {
	if all, _ := r.file.RowCount(); r.o.Progress != nil {
		r.o.Progress((looking*all+reading*r.account.Rows)/10, all)
	}
}

// writingProgress reports how far writing is.
func (r *run) writingProgress(p store.Progress) {
	if r.o.Progress == nil || p.Total == 0 {
		return
	}
	all, _ := r.file.RowCount()
	written := float64(writing*all) * float64(p.Done) / float64(p.Total)
	r.o.Progress(((looking+reading)*all+int(written))/10, all)
}
