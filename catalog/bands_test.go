package catalog

import (
	"errors"
	"strings"
	"testing"
)

func TestParseBands(t *testing.T) {
	for _, r := range []struct{ name, text, want string }{
		{"rising", "63:41;125:38", "63:41;125:38"},
		{"any order", "125:38; 63:41 ;", "63:41;125:38"},
		{"decimals", "31.5:40.25;63:-2", "31.5:40.25;63:-2"},
	} {
		got, err := ParseBands(r.text)
		if text := FormatBands(got); err != nil || text != r.want {
			t.Errorf("%s: ParseBands(%q) = %q, %v, want %q", r.name, r.text, text, err, r.want)
		}
	}
	for _, r := range []struct{ name, text, reason string }{
		{"no pair", "63:41;125", "no pair"},
		{"word", "63:loud", "no pair"},
		{"nothing", " ; ;", "no band"},
		{"twice", "63:41;125:38;63:40", "63 Hz stands there twice"},
		{"frequency 0", "0:41;63:40", "not a frequency"},
		{"negative frequency", "-63:41", "not a frequency"},
		{"NaN", "63:NaN", "not a frequency"},
		{"infinite", "Inf:30", "not a frequency"},
	} {
		_, err := ParseBands(r.text)
		var ve *ValueError
		if !errors.As(err, &ve) || !strings.Contains(ve.Reason, r.reason) || ve.Hint == "" {
			t.Errorf("%s: ParseBands(%q) = %v, want %q and a hint", r.name, r.text, err, r.reason)
		}
	}
}
