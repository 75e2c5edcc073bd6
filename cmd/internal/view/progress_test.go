package view

import (
	"strings"
	"testing"
	"time"

	"github.com/vbauerster/mpb/v8"
)

// told tells of what is written to it.
type told chan string

func (w told) Write(b []byte) (int, error) {
	select {
	case w <- string(b):
	default:
	}
	return len(b), nil
}

// A job shows nothing until it has taken a while, and then how far it is. Here the
// output is written as to a terminal.
func TestProgressBeginsLate(t *testing.T) {
	early, late := make(told, 1), make(told, 1)
	report, stop := progressAfter(time.Hour, early, "importing", mpb.WithAutoRefresh())
	reportLate, stopLate := progressAfter(0, late, "importing", mpb.WithAutoRefresh())
	report(500, 1000)
	reportLate(500, 1000)
	select {
	case said := <-late:
		if !strings.Contains(said, "importing") {
			t.Errorf("a long job shows %q", said)
		}
	case <-time.After(20 * time.Second):
		t.Error("a long job shows nothing")
	}
	stopLate()
	stop()
	if len(early) > 0 {
		t.Errorf("a short job shows %q, want nothing", <-early)
	}
}

func TestPace(t *testing.T) {
	for _, row := range []struct {
		done, all int64
		took      time.Duration
		want      string
	}{
		{0, 0, time.Second, ""},
		{0, 1000, time.Second, ""},
		{148_000, 1_000_000, 2 * time.Second, "  74000 rows/s  12s left"},
		{999_000, 1_000_000, 13 * time.Second, "  77000 rows/s  0s left"},
		{30, 1000, 10 * time.Second, "  3 rows/s  5m23s left"},
		{1, 5_000_000, 20 * time.Second, "  0.05 rows/s  27777h46m20s left"},
	} {
		if got := paceText(row.done, row.all, row.took); got != row.want {
			t.Errorf("paceText(%d, %d, %v) = %q, want %q", row.done, row.all, row.took, got, row.want)
		}
	}
}
