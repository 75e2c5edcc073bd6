package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lowsone/cmd/internal/demo"
)

// atDemo makes a folder with the demo's parts imported and its device files the
// working one, and gives what a command there runs with.
func atDemo(t *testing.T) map[string]string {
	t.Helper()
	work := t.TempDir()
	copyDevices(t, work)
	t.Chdir(work)
	vars := map[string]string{"LOWSONE_CATALOG": filepath.Join(work, "catalogue")}
	write(t, "parts.csv", string(demo.Parts()))
	if _, errs, code := run(t, strings.NewReader(""), vars, "import", "parts.csv"); code != exitDone {
		t.Fatal(errs)
	}
	return vars
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

// TestMends looks for what can be done about it in what is said to a person whose
// command does not go on.
func TestMends(t *testing.T) {
	vars := atDemo(t)
	write(t, "bare.csv", "a,b\n0,20\n60,21\n")
	write(t, "two.csv", "time,x\n0:00,20\n0:30,21\n")
	const loud = "rank --replace OMB-625B56B3 --flow 30m3/h"
	for _, c := range []struct {
		line string
		want []string
		not  string
	}{
		{loud + " --need 0.8", []string{"80%", "0.8%", "0.8m3/h"}, ""},
		{loud + " --need 8", []string{"8%", "8m3/h"}, "800%"},
		{"rank --replace OMB-625B56B3 --delivers 1.2", []string{"60%"}, ""},
		{"rank --replace OMB-625B56B3 --delivers 1.2%", []string{"60%"}, ""},
		{"rank --replace OMB-625B56B3 --delivers 0.6", []string{"write 60%"}, "0.6%"},
		{"heat bare.csv", []string{"--time=a or --time=b"}, ""},
		{"heat two.csv", []string{"--time-form hh:mm or --time-form mm:ss"}, ""},
		{"heat bare.csv --rule IEC", []string{"\n  \"IEC 61010-1, decision 23 of test laboratories\"\n"}, ""},
		{"show zzzqqq", []string{"lowsone search"}, ""},
		{"show 6025x", []string{"lowsone search"}, ""},
		{"show NW60-25/12-28", []string{"did you mean Nordwehe/NW60-25/12-"}, ""},
		{"search zzzqqq", []string{"hint: "}, ""},
		{"search --frame 60 --voltage 230", []string{"--frame", "--voltage"}, ""},
		{"search --frame 60 --noise-max 12", []string{"--noise-max"}, ""},
	} {
		_, errs, code := run(t, strings.NewReader(""), vars, strings.Fields(c.line)...)
		if code == exitDone {
			t.Errorf("lowsone %s: exit 0", c.line)
		}
		for _, want := range c.want {
			if !strings.Contains(errs, want) {
				t.Errorf("lowsone %s: no %q in\n%s", c.line, want, errs)
			}
		}
		if c.not != "" && strings.Contains(errs, c.not) {
			t.Errorf("lowsone %s: %q in\n%s", c.line, c.not, errs)
		}
	}
}

// What an import gives up is told whether the file lost it or names it otherwise.
func TestImportTellsWhatItGivesUp(t *testing.T) {
	vars := atDemo(t)
	out, errs, code := run(t, strings.NewReader(""), vars, "import", "parts.csv", "--column", "part=Bestell-Nr.")
	if code != exitDone || !strings.Contains(strings.Join(strings.Fields(out), " "), "given up: 433 fans of the last import of \"parts.csv\", no longer in the file or under another maker or part in it") {
		t.Errorf("exit %d, %s, the account is\n%s", code, errs, out)
	}
}

// --with overrules the fan of the device that is slowed.
func TestWithOverrulesTheDevicesOwnFan(t *testing.T) {
	vars := atDemo(t)
	for _, part := range []string{"", "OMB-625B56B3 "} {
		line := "slow " + part + "testdata/devices/amplifier.yaml --with voltage_min_v=6 --with start_voltage_v=5 --with current_a=0.25 --to 9V"
		out, errs, code := run(t, strings.NewReader(""), vars, strings.Fields(line)...)
		if code != exitDone || !strings.Contains(out, "starts at 5 V") || !strings.Contains(out, "0.25 A") {
			t.Errorf("lowsone %s: exit %d, %s\n%s", line, code, errs, out)
		}
	}
}

// What is said to a person at a terminal is broken to its width; a file gets it
// as it is.
func TestErrorsAtATerminal(t *testing.T) {
	vars := atDemo(t)
	line := strings.Fields("slow W60A25-12.63-3 --to 9V")
	_, plain, _ := run(t, strings.NewReader(""), vars, line...)
	if n := strings.Count(plain, "\n"); n != 2 {
		t.Errorf("%d lines for a file, want 2:\n%s", n, plain)
	}
	vars["STDERR"] = "60"
	_, errs, _ := run(t, strings.NewReader(""), vars, line...)
	for l := range strings.Lines(errs) {
		if n := len([]rune(strings.TrimSuffix(l, "\n"))); n > 60 {
			t.Errorf("%d wide: %s", n, l)
		}
	}
	if got, want := strings.Join(strings.Fields(errs), " "), strings.Join(strings.Fields(plain), " "); got != want {
		t.Errorf("words %q, want %q", got, want)
	}
}
