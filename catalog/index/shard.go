package index

import (
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"
	"syscall"

	"github.com/blevesearch/bleve/v2/index/scorch"
)

// shardBuilder writes one shard in its own goroutine.
type shardBuilder struct {
	dir     string
	batches chan []entry
	abort   atomic.Bool
	done    chan error // gets one value: how it went
	engine  *scorch.Builder
}

func startShard(dir string) *shardBuilder {
	s := &shardBuilder{dir: dir, batches: make(chan []entry, 2), done: make(chan error, 1)}
	go s.run()
	return s
}

func (s *shardBuilder) run() {
	var err error
	for batch := range s.batches {
		if err == nil && !s.abort.Load() {
			err = s.index(batch)
		}
	}
	if err == nil && !s.abort.Load() {
		err = s.close()
	}
	s.done <- plain(err)
}

// plain says what was being done, and no more where the disk is full: the
// engine hides that behind the names of its temporary files.
func plain(err error) error {
	if err == nil {
		return nil
	}
	if strings.HasSuffix(err.Error(), syscall.ENOSPC.Error()) {
		err = syscall.ENOSPC
	}
	return fmt.Errorf("write word index: %w", err)
}

func (s *shardBuilder) index(batch []entry) error {
	if s.engine == nil {
		if err := s.open(); err != nil {
			return err
		}
	}
	for i := range batch {
		if err := s.engine.Index(newDocument(batch[i].number, batch[i].text)); err != nil {
			return err
		}
	}
	return nil
}

// open makes the engine's builder only when there is a text: closing one
// without texts panics (bleve v2.6).
func (s *shardBuilder) open() (err error) {
	s.engine, err = scorch.NewBuilder(map[string]any{
		"path":            s.dir,
		"buildPathPrefix": filepath.Dir(s.dir),
		"batchSize":       flushTexts,
		"mergeMax":        mergeAtOnce,
	})
	return err
}

func (s *shardBuilder) close() error {
	if s.engine == nil {
		return nil
	}
	return s.engine.Close()
}
