package store

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// inParallel does n jobs on all processors, begun in their order. After an error
// none is begun any more; the error of the first job that failed is given.
func inParallel(n int, job func(i int) error) error {
	var next atomic.Int64
	var failed atomic.Bool
	errs := make([]error, n)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for !failed.Load() {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if errs[i] = job(i); errs[i] != nil {
					failed.Store(true)
				}
			}
		})
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
