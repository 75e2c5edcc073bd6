package intake

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"lowsone/catalog"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/catalog/tabular"
)

// Rows pass three stages at once: one goroutine cuts the file into rows, several
// make fans of them, and the caller takes in what came of them, in the order of
// the file. How much is under way is bounded, and so is its memory.

// parcelRows and parcelBytes bound a parcel: enough for handing it on not to
// count, few enough for a small file to keep every processor busy.
const (
	parcelRows  = 256
	parcelBytes = 1 << 20
	cellBytes   = 32 // what a cell takes beside its text
)

// parcel is some rows of the file on their way.
type parcel struct {
	rows     []*tabular.Row
	bytes    int
	made     chan struct{} // closed when what follows is there
	outcomes []outcome     // by row
	warnings tally
	said     sayings
}

// outcome is what came of a row.
type outcome struct {
	row store.Row
	err error // *partscsv.RowError or *store.RowError: the row cannot be used
}

// stages are the first two stages while they run.
type stages struct {
	r      *run
	jobs   chan *parcel // to whoever makes fans
	order  chan *parcel // the same, in the order of the file
	cancel context.CancelFunc
	all    sync.WaitGroup
	err    error // of reading; to be read once order is closed
}

// startStages begins to read the rows of the file. The caller takes the parcels
// from order, waits for each to be made, and calls stop.
func (r *run) startStages(ctx context.Context) *stages {
	ctx, cancel := context.WithCancel(ctx)
	n := runtime.GOMAXPROCS(0)
	s := &stages{r: r, jobs: make(chan *parcel), order: make(chan *parcel, 2*n), cancel: cancel}
	for range n {
		s.all.Go(s.make)
	}
	s.all.Go(func() { s.read(ctx) })
	return s
}

// stop ends the stages, wherever they are.
func (s *stages) stop() {
	s.cancel()
	for range s.order { // whoever waits to hand on a parcel goes on
	}
	s.all.Wait()
}

// read cuts the file into rows.
func (s *stages) read(ctx context.Context) {
	defer close(s.order)
	defer close(s.jobs)
	p := newParcel()
	for row, err := range s.r.file.Rows(ctx) {
		if err != nil {
			s.err = err
			return
		}
		own := row.Clone()
		p.rows = append(p.rows, own)
		p.bytes += len(own.Raw()) + cellBytes*len(own.Fields)
		if len(p.rows) == parcelRows || p.bytes >= parcelBytes {
			s.send(p)
			p = newParcel()
		}
	}
	if len(p.rows) > 0 {
		s.send(p)
	}
	s.err = ctx.Err()
}

func newParcel() *parcel {
	return &parcel{made: make(chan struct{})}
}

func (s *stages) send(p *parcel) {
	s.order <- p
	s.jobs <- p
}

// make makes fans of rows until there are no more.
func (s *stages) make() {
	reader := s.r.plan.Reader()
	for p := range s.jobs {
		p.warnings = newTally(s.r.account.Columns)
		p.outcomes = make([]outcome, len(p.rows))
		for i, row := range p.rows {
			p.outcomes[i].row, p.outcomes[i].err = s.r.fan(reader, row, p)
		}
		close(p.made)
	}
}

// fan makes a fan of a row, ready for the sink. Errors: *partscsv.RowError,
// *store.RowError.
func (r *run) fan(reader *partscsv.Reader, row *tabular.Row, p *parcel) (store.Row, error) {
	if row.Ragged {
		return store.Row{}, raggedError(row)
	}
	if slices.Equal(row.Fields, r.header) {
		return store.Row{}, &partscsv.RowError{Column: -1, Reason: "the header again, no row of data"}
	}
	fan, remarks, err := reader.Read(row.Fields)
	if err != nil {
		return store.Row{}, err
	}
	fan.Source = catalog.Source{Name: r.account.Source, Line: row.Line}
	ready, err := store.NewRow(fan, uint8(lackOf(fan)))
	if err == nil {
		p.warnings.remarks(remarks, row.Line)
		p.said.add(fan, reader.Took())
	}
	return ready, err
}
