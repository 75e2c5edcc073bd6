package view

import (
	"bytes"
	"testing"
	"time"
)

// TestProgressIsSilent checks that a short job shows nothing, and that stop
// waits for nothing.
func TestProgressIsSilent(t *testing.T) {
	var b bytes.Buffer
	report, stop := Progress(&b, "importing")
	report(1, 10)
	report(10, 10)
	stop()
	if b.Len() > 0 {
		t.Errorf("progress of a short job wrote %q, want nothing", b.String())
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
