package bench

import (
	"fmt"
	"slices"
	"testing"
)

// A contest is a job and its rival, run in turn.
type contest struct {
	job       string
	must, aim float64 // of lowsone's time as a multiple of the rival's; 0 where nothing is asked
	own       func() outcome
	rival     func() outcome // nil where it is not installed
	lacks     string         // what is not installed then
	runs      int
}

// times are the runs of one side.
type times struct {
	seconds []float64
	peak    int64
}

func (t *times) add(o outcome) {
	t.seconds = append(t.seconds, o.seconds)
	t.peak = max(t.peak, o.peak)
}

// median gives the middle run.
func (t *times) median() float64 {
	s := slices.Sorted(slices.Values(t.seconds))
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

// spread gives how far the runs lie from the median at the most, as a share of
// it.
func (t *times) spread() float64 {
	m := t.median()
	return max(slices.Max(t.seconds)-m, m-slices.Min(t.seconds)) / m
}

// run runs both sides in turn.
func (c *contest) run() (own, rival times) {
	for range c.runs {
		own.add(c.own())
		if c.rival != nil {
			rival.add(c.rival())
		}
	}
	return own, rival
}

// A table collects the lines of the contests and prints them together.
type table struct {
	b     *testing.B
	lines []string
}

func (t *table) add(format string, args ...any) {
	t.lines = append(t.lines, fmt.Sprintf(format, args...))
}

// contest runs a contest and writes its line.
func (t *table) contest(c contest) (own times) {
	own, rival := c.run()
	mine := fmt.Sprintf("%-40s %9s ±%2.0f %%", c.job, duration(own.median()), 100*own.spread())
	if c.rival == nil {
		t.add("%s   SKIPPED the rival: %s", mine, c.lacks)
		return own
	}
	ratio := own.median() / rival.median()
	t.add("%s %9s ±%2.0f %% %7.3f×  %s", mine, duration(rival.median()), 100*rival.spread(), ratio, c.verdict(ratio))
	return own
}

// verdict holds a ratio against what was asked.
func (c *contest) verdict(ratio float64) string { return verdict(ratio, c.must, c.aim) }

func verdict(value, must, aim float64) string {
	word := "missed"
	switch {
	case must == 0:
		return ""
	case value <= aim:
		word = "as aimed"
	case value <= must:
		word = "as it must"
	}
	return fmt.Sprintf("%-10s (must ≤ %g, aim ≤ %g)", word, must, aim)
}

func duration(seconds float64) string {
	if seconds < 1 {
		return fmt.Sprintf("%.1f ms", 1000*seconds)
	}
	return fmt.Sprintf("%.2f s", seconds)
}

const mebibyte = 1 << 20
