package cli

import "testing"

func TestReadConfidence(t *testing.T) {
	for _, r := range []struct {
		text string
		want float64 // 0: refused
	}{
		{"80%", 0.8}, {"80", 0.8}, {"0.8", 0.8}, {" 0.95 ", 0.95}, {"99 %", 0.99}, {"50", 0.5},
		{"0.8%", 0}, {"49%", 0}, {"0.4", 0}, {"1", 0}, {"100%", 0}, {"0", 0}, {"-80", 0}, {"sure", 0}, {"", 0}, {"nan", 0},
	} {
		var c choiceFlags
		err := c.readConfidence(r.text)
		if (err == nil) != (r.want > 0) || err == nil && c.confidence != r.want {
			t.Errorf("readConfidence(%q) = %v, %v, want %v", r.text, c.confidence, err, r.want)
		}
	}
}
