package cli

import (
	"bytes"
	"context"
	"errors"
	"io"
	"runtime/debug"
	"strings"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// refusing is a stream that takes nothing.
type refusing struct{ err error }

func (r refusing) Write([]byte) (int, error) { return 0, r.err }

func TestStreamsThatRefuse(t *testing.T) {
	rows := []struct {
		name string
		err  error
		code int
		want string
	}{
		{"whoever reads has seen enough", syscall.EPIPE, exitDone, ""},
		{"disk full", syscall.ENOSPC, exitFailed, "lowsone: no space left on device\n"},
	}
	for _, r := range rows {
		var errs bytes.Buffer
		env := Env{Stdin: strings.NewReader(""), Stdout: refusing{r.err}, Stderr: &errs,
			Getenv: func(string) string { return "" }, Now: time.Now}
		if code := Main(context.Background(), []string{"--help"}, env); code != r.code || errs.String() != r.want {
			t.Errorf("%s: exit %d, stderr %q, want %d, %q", r.name, code, errs.String(), r.code, r.want)
		}
	}
}

func TestInterrupted(t *testing.T) {
	var errs bytes.Buffer
	s := newSession(Env{Stdout: io.Discard, Stderr: &errs, Getenv: func(string) string { return "" }})
	s.printError(errors.Join(errors.New("reading"), context.Canceled))
	if got, want := errs.String(), "lowsone: interrupted\n"; got != want {
		t.Errorf("printError(cancelled) = %q, want %q", got, want)
	}
}

// TestMessagesAreClean lets control characters of a file's name into an error
// and its hint.
func TestMessagesAreClean(t *testing.T) {
	_, stderr, code := run(t, strings.NewReader(""), nil, "\x1b[31mserch\u009b")
	if code != exitUsage || strings.ContainsFunc(stderr, func(r rune) bool { return r == 0x1b || r == 0x9b }) {
		t.Errorf("exit %d, stderr %q", code, stderr)
	}
	if got, want := cleanLines("one\x1b\n  two\r"), "one␛\n  two"; got != want {
		t.Errorf("cleanLines = %q, want %q", got, want)
	}
}

func TestVersion(t *testing.T) {
	setting := func(key, value string) debug.BuildSetting { return debug.BuildSetting{Key: key, Value: value} }
	rows := []struct {
		name string
		info debug.BuildInfo
		want string
	}{
		{"released", debug.BuildInfo{Main: debug.Module{Version: "v1.2.3"}}, "1.2.3"},
		{"nothing known", debug.BuildInfo{}, "devel"},
		{"from a work tree", debug.BuildInfo{Main: debug.Module{Version: "(devel)"}, Settings: []debug.BuildSetting{
			setting("vcs.revision", "0123456789abcdef"), setting("vcs.modified", "true")}}, "devel 0123456789ab with changes"},
		{"from a clean work tree", debug.BuildInfo{Settings: []debug.BuildSetting{
			setting("vcs.revision", "0123456789abcdef"), setting("vcs.modified", "false")}}, "devel 0123456789ab"},
	}
	for _, r := range rows {
		if got := versionOf(&r.info); got != r.want {
			t.Errorf("%s: version %q, want %q", r.name, got, r.want)
		}
	}
}

// Property: what a hint quotes is one argument again where it is pasted.
func TestQuotedIsOneArgument(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		arg := rapid.StringMatching(`[ -&(-~]{0,12}`).Draw(t, "argument") // no single quote: split knows no backslash
		words, err := split("show " + quoted(arg))
		if err != nil || len(words) != 2 || words[1] != arg {
			t.Fatalf("quoted(%q) = %s, read back as %q, %v", arg, quoted(arg), words, err)
		}
	})
}
