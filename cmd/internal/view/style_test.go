package view

import (
	"bytes"
	"testing"
)

func TestColourRules(t *testing.T) {
	rows := []struct {
		name     string
		terminal bool
		vars     map[string]string
		want     bool
	}{
		{"terminal", true, nil, true},
		{"pipe", false, nil, false},
		{"NO_COLOR", true, map[string]string{"NO_COLOR": "1"}, false},
		{"dumb terminal", true, map[string]string{"TERM": "dumb"}, false},
	}
	for _, r := range rows {
		s := StyleOf(80, r.terminal, func(name string) string { return r.vars[name] })
		if s.Colour != r.want || (s.Bold("x") != "x") != r.want {
			t.Errorf("%s: colour %v, bold %q, want colour %v", r.name, s.Colour, s.Bold("x"), r.want)
		}
	}
}

func TestNoFileIsATerminal(t *testing.T) {
	if width, ok := Terminal(&bytes.Buffer{}); ok || width != 0 {
		t.Errorf("Terminal(buffer) = %d, %v, want none", width, ok)
	}
}
