// Package demo holds an invented device and an invented parts list on which
// the whole job can be tried, the command lines that do it, and the sentences
// that say what was found.
//
// The device is a rack amplifier in a small recording room. The fan of its left
// heat-sink tunnel is too loud: 60×60×25 mm, 12 V, three leads, its tach
// watched. 90 W of heat go into that tunnel; the air enters at 24 °C, up to
// 30 °C on the worst day, and leaves at 33 °C. The engineer sits 1.5 m away.
// Every maker, part and price is invented; package gen makes the list, and
// leaves it as untidy as a small distributor might.
package demo

import (
	_ "embed"
	"path/filepath"
)

//go:embed catalogue.csv
var parts string

// Parts gives the parts list as a CSV file.
func Parts() []byte { return []byte(parts) }

// Files are where the demo keeps what it makes.
type Files struct{ Dir string }

// Parts is the parts list.
func (f Files) Parts() string { return filepath.Join(f.Dir, "parts.csv") }

// Catalogue is the folder of the catalogue.
func (f Files) Catalogue() string { return filepath.Join(f.Dir, "catalogue") }

// Order is the order list.
func (f Files) Order() string { return filepath.Join(f.Dir, "order.csv") }

// Step is one command of the job.
type Step struct {
	Title string
	Args  []string
}

// Command is the command that a step runs.
func (s Step) Command() string { return s.Args[0] }

// Steps are the commands of the whole job, in order.
func (f Files) Steps() []Step {
	device := []string{"--replace", "OMB-625B56B3", "--heat", "90W", "--air-rise", "9K", "--inlet", "24C"}
	seat := append(device[:len(device):len(device)], "--watches", "tach", "--air-temp", "30C", "--listener", "1.5m")
	with := func(command string, flags []string, more ...string) []string {
		return append(append([]string{command}, flags...), more...)
	}
	return []Step{
		{"Read a distributor's untidy list into a catalogue.", []string{"import", f.Parts()}},
		{"What fits by its size, quietest label first?", []string{"search", "--frame", "60", "--depth-max", "25", "--voltage", "12", "--sort", "noise_dba", "--limit", "5"}},
		{"How much air does the amplifier let through?", with("system", device)},
		{"Which fan is the quietest at that flow?", with("rank", seat, "--top", "5")},
		{"Make an order list of the first three.", with("shortlist", seat, "--top", "3", "--output", f.Order())},
	}
}
