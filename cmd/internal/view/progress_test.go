package view

import (
	"bytes"
	"testing"
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
