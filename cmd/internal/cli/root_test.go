package cli

import (
	"testing"

	"github.com/spf13/pflag"
)

// A level in dB is taken for dB(A), and that is said of flags of levels alone.
func TestBareDecibels(t *testing.T) {
	for _, r := range []struct{ flag, text, want string }{
		{"level", "45dB", "--level 45dB"}, {"level", " 45.5 db", "--level  45.5 db"}, {"level", "45dBA", ""}, {"level", "45 dB(A)", ""}, {"level", "45", ""},
		{"other", "45dB", ""},
	} {
		flags := pflag.NewFlagSet("x", pflag.ContinueOnError)
		flags.String("level", "", "level of the fan, in dB(A)")
		flags.String("other", "", "something else")
		if err := flags.Set(r.flag, r.text); err != nil {
			t.Fatal(err)
		}
		if got := bareDecibels(flags); got != r.want {
			t.Errorf("--%s %q: %q, want %q", r.flag, r.text, got, r.want)
		}
	}
}
