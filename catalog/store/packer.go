package store

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"lowsone/catalog"
)

// packer makes chunks of the rows added, on all processors, and brings them in
// their order to the ledger and the spool. How many are under way at once is
// bounded, and so is their memory.
type packer struct {
	ledger  *Ledger
	spool   *spool
	bundle  *bundle
	jobs    chan *bundle // to whoever makes chunks
	order   chan *bundle // to the one who takes them in, in their order
	workers sync.WaitGroup
	taken   chan struct{} // closed when all are in
	stop    atomic.Bool   // nothing counts any more
	failed  atomic.Bool   // err is set
	err     error         // of taking in; to be read once taken is closed, or failed is set
}

// bundle is the rows of a chunk on their way.
type bundle struct {
	fans  []*catalog.Fan
	rows  []ledgerRow
	bytes int
	chunk *chunk
	made  chan struct{} // closed when the chunk is there
}

func startPacker(l *Ledger, s *spool) *packer {
	n := runtime.GOMAXPROCS(0)
	p := &packer{
		ledger: l, spool: s, bundle: newBundle(),
		jobs: make(chan *bundle), order: make(chan *bundle, n), taken: make(chan struct{}),
	}
	for range n {
		p.workers.Go(p.make)
	}
	go p.take()
	return p
}

func newBundle() *bundle { return &bundle{made: make(chan struct{})} }

// add takes a row. An error is of rows before.
func (p *packer) add(r Row) error {
	if p.failed.Load() {
		return p.err
	}
	b := p.bundle
	b.fans = append(b.fans, r.fan)
	b.rows = append(b.rows, ledgerRow{key: r.key, note: r.note})
	if b.bytes += r.bytes; len(b.fans) == chunkRows || b.bytes >= chunkBytes {
		p.send()
	}
	return nil
}

func (p *packer) send() {
	p.order <- p.bundle
	p.jobs <- p.bundle
	p.bundle = newBundle()
}

// make makes chunks until there are no more.
func (p *packer) make() {
	e := newEncoder(p.ledger.schema)
	for b := range p.jobs {
		if !p.stop.Load() {
			p.ledger.prepare(b.fans, b.rows)
			b.chunk = e.encode(b.fans)
		}
		b.fans = nil
		close(b.made)
	}
}

// take takes the chunks in.
func (p *packer) take() {
	defer close(p.taken)
	for b := range p.order {
		<-b.made
		if b.chunk == nil || p.failed.Load() {
			continue
		}
		if err := p.spool.add(b.chunk, len(p.ledger.schema)); err != nil {
			p.err = fmt.Errorf("write import: %w", err)
			p.failed.Store(true)
			continue
		}
		for i := range b.rows {
			if row, ok := p.ledger.enter(&b.rows[i]); ok {
				p.spool.drop(row)
			}
		}
	}
}

// close waits until all rows are in.
func (p *packer) close() {
	if len(p.bundle.fans) > 0 {
		p.send()
	}
	close(p.jobs)
	close(p.order)
	p.workers.Wait()
	<-p.taken
}

// abort ends without the rows that are not in yet.
func (p *packer) abort() {
	p.stop.Store(true)
	p.bundle = newBundle()
	p.close()
}
