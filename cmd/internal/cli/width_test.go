package cli

import (
	"strings"
	"testing"
)

// TestTerminalOf80 runs the commands whose tables are wide on the demo's data in
// a terminal of 80 columns: no line is wider, and no name of a part or of a spot
// is broken.
func TestTerminalOf80(t *testing.T) {
	vars := atDemo(t)
	vars["TERMINAL"] = "80"
	const (
		heat      = " --replace OMB-625B56B3 --heat 90W --air-rise 9K --inlet 24C --watches tach --listener 1.5m"
		amplifier = "testdata/devices/amplifier.yaml"
		cabinet   = "testdata/devices/cabinet.yaml"
	)
	const early = "time_min,case of the heater relay,regulator\n0,21,21\n1,30,24\n2,36,26\n3,41,27.5\n4,45,28.8\n5,48,30\n"
	write(t, "early.csv", early)
	log := "time_min,heat sink,driver board\n"
	for _, row := range []string{"0,24,24", "10,40,35", "20,49,41", "30,53.5,44.6", "40,56,46.8", "50,57.3,47.9", "60,58,48.5", "80,58.5,48.9", "100,58.6,49"} {
		log += row + "\n"
	}
	write(t, "log.csv", log)
	for _, c := range []struct {
		line  string
		whole []string // what must stand in it unbroken
	}{
		{"import --dry-run parts.csv", nil},
		{"search --frame 60 --depth-max 25 --voltage 12 --limit 3", []string{"HX236-098-32/12T"}},
		{"show W60A25-12.63-3", nil},
		{"system --replace OMB-625B56B3 --heat 90W --air-rise 9K --inlet 24C --watches tach", nil},
		{"rank --top 5" + heat, []string{"NW60-25/12-60T", "W60A25-12.63-3"}},
		{"rank --explain W60A25-12.63-3" + heat, nil},
		{"rank --top 3 " + amplifier, []string{"W60A25-12.63-3", "hottest"}},
		{"rank --explain W60A25-12.63-3 " + amplifier, []string{"heat sink", "driver board"}},
		{"rank --both " + amplifier, nil},
		{"rank " + cabinet, nil},
		{"slow W60A25-12.63-3 --supply 12V --to 9V", nil},
		{"slow W60A25-12.63-3 " + amplifier, []string{"tach", "set to 9.15 V"}},
		{"shortlist --top 2" + heat, nil},
		{"device check " + amplifier, nil},
		{"heat log.csv", []string{"driver board"}},
		{"heat log.csv " + amplifier, []string{"driver board"}},
		{"heat log.csv --rule all", nil},
		{"heat early.csv " + cabinet, []string{"case of the heater relay"}},
	} {
		out, errs, code := run(t, strings.NewReader(""), vars, strings.Fields(c.line)...)
		if code != exitDone && code != exitNothing {
			t.Errorf("lowsone %s: exit %d: %s", c.line, code, errs)
		}
		for line := range strings.Lines(visible(out)) {
			line = strings.NewReplacer(`\e[0m`, "", `\e[1m`, "", `\e[2m`, "").Replace(strings.TrimSuffix(line, "\n"))
			if n := len([]rune(line)); n > 80 {
				t.Errorf("lowsone %s: %d wide: %s", c.line, n, line)
			}
		}
		for _, word := range c.whole {
			if !strings.Contains(out, word) {
				t.Errorf("lowsone %s: no %q in\n%s", c.line, word, out)
			}
		}
	}
}
