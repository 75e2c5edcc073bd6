package parallel

import (
	"errors"
	"fmt"
	"sync/atomic"
	"testing"
)

func TestDoDoesEveryJobOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		done := make([]atomic.Int32, n)
		if err := Do(n, func(i int) error { done[i].Add(1); return nil }); err != nil {
			t.Fatal(err)
		}
		for i := range done {
			if got := done[i].Load(); got != 1 {
				t.Errorf("of %d jobs number %d was done %d times, want once", n, i, got)
			}
		}
	}
}

func TestDoGivesTheErrorOfTheFirstJob(t *testing.T) {
	for range 100 {
		var begun atomic.Int32
		err := Do(1000, func(i int) error {
			begun.Add(1)
			if i >= 3 {
				return fmt.Errorf("job %d", i)
			}
			return nil
		})
		if err == nil || err.Error() != "job 3" {
			t.Fatalf("Do gives %v, want the error of job 3", err)
		}
		if begun.Load() == 1000 {
			t.Fatal("every job was begun after an error")
		}
	}
}

func TestWorkersEndsWithoutJobs(t *testing.T) {
	failed := errors.New("failed")
	if err := Workers(0, func(func() (int, bool)) error { return failed }); err != nil {
		t.Errorf("Workers(0) = %v, want no worker", err)
	}
	if err := Workers(2, func(func() (int, bool)) error { return failed }); !errors.Is(err, failed) {
		t.Errorf("Workers(2) = %v, want %v", err, failed)
	}
}
