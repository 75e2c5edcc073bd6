package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/quantity"
	"lowsone/catalog/tabular"
	"lowsone/cmd/internal/view"
	"lowsone/match/thermal"
	"lowsone/match/trial"
)

const heatLong = `Say where the temperatures in a log will end, and whether they are steady yet by
the settling rules of several standards.

The log is a CSV: a column of times and one for each probe, under load, from
cold. A probe's end is told only where the log can tell it: two fitted time
constants or more long, its error 2 K or less, its last half in accord with the
whole, and no slower part that may hide more. Else it is "not settled", the
highest reading a lower bound, or "not a step", and no limit counts as kept.

Limits come with a margin: "within" is below the limit less the margin, "in the
margin" below the limit, "too hot" above it.

With a device file, its spots give their limits to the probes of the same names,
the headers of the log's columns, and the ends are carried to the hottest room
and the most heat.`

const heatExample = `  lowsone heat log.csv
  lowsone heat log.csv --limit 75C --ambient 24C --ambient-worst 30C
  lowsone heat log.csv --rule "IEC 60034-1"`

// heatOptions are what heat is asked for.
type heatOptions struct {
	session *session
	log     string
	file    string // device file
	read    trial.Options
	limits  []probeLimit
	margin  quantity.Known[quantity.TemperatureRise]
	ambient quantity.Known[quantity.Temperature]
	worst   quantity.Known[quantity.Temperature]
	rules   []string
}

// probeLimit is a limit of the probe of a name, or of all.
type probeLimit struct {
	probe string
	limit quantity.Temperature
}

func newHeatCmd(s *session, run func(context.Context, *heatOptions) error) *cobra.Command {
	o := &heatOptions{session: s}
	cmd := &cobra.Command{
		Use:         "heat LOG.csv [DEVICE.yaml] [flags]",
		Short:       "say where the temperatures in a log will end",
		Long:        heatLong,
		Example:     heatExample,
		Annotations: noListForm(),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.name(args); err != nil {
				return err
			}
			if err := o.check(); err != nil {
				return err
			}
			return run(cmd.Context(), o)
		},
	}
	flags, format := cmd.Flags(), &o.read.Tabular
	flags.SortFlags = false
	flags.Var(newParsed("°C", o.readLimit), "limit", "limit of a probe: 75C for all, or PROBE=75C; repeat it for more")
	flags.Var(newMeasure(&o.margin, marginBounds()), "margin", "to keep below the limits, in K (else 10)")
	flags.Var(readInto(&o.ambient, knownTemperature), "ambient", "temperature of the room while it was logged, in °C")
	flags.Var(readInto(&o.worst, knownTemperature), "ambient-worst", "the hottest the room will be, in °C")
	flags.StringArrayVar(&o.rules, "rule", nil, "settling rule by `name`, shown in full; repeat it for more, or all")
	flags.StringArrayVar(&o.read.Probes, "probe", nil, "`HEADER` of a probe's column; repeat it for more (else all of temperatures)")
	flags.StringVar(&o.read.Time, "time", "", "`HEADER` of the column of times (else found)")
	flags.Var(newParsed("FORM", o.readForm), "time-form", "how the times are written: s, min, h, hh:mm or mm:ss (else found)")
	flags.Var(readInto(&format.Delimiter, tabular.ParseDelimiter), "delimiter", "`name` of the delimiter: comma, semicolon, tab, bar, or the character")
	flags.Var(readInto(&format.Decimal, tabular.ParseMark), "decimal", "decimal `mark`: . or ,")
	return cmd
}

func knownTemperature(text string) (quantity.Known[quantity.Temperature], error) {
	t, err := readTemperature(text)
	return quantity.Stated(t), err
}

func (o *heatOptions) readLimit(text string) error {
	limit := probeLimit{}
	number := text
	if at := strings.LastIndex(text, "="); at >= 0 {
		limit.probe, number = strings.TrimSpace(text[:at]), text[at+1:]
	}
	var err error
	limit.limit, err = readTemperature(number)
	o.limits = append(o.limits, limit)
	return err
}

func (o *heatOptions) readForm(text string) error {
	var form trial.TimeForm
	err := newChoice(&form, trial.TimeForms).Set(text)
	o.read.Unit = form + trial.FormSeconds
	return err
}

// name tells the log from the device file.
func (o *heatOptions) name(args []string) error {
	for _, arg := range args {
		target := &o.log
		if isDeviceFile(arg) {
			target = &o.file
		}
		if *target != "" {
			return usagef("name one log and at most one device file", "heat does not know what to do with %q", arg)
		}
		*target = arg
	}
	if o.log == "" {
		return usagef("a CSV with a column of times and one for each probe", "heat needs a log")
	}
	return nil
}

func (o *heatOptions) check() error {
	for _, name := range o.rules {
		if _, ok := thermal.RuleNamed(name); !ok && name != "all" {
			return usagef(rulesHint(name), "no settling rule is called %q", name)
		}
	}
	switch {
	case o.ambient.Known() != o.worst.Known() && o.file == "":
		return usagef("the difference of the two is what counts", "--ambient and --ambient-worst need each other")
	case o.margin.Known() && len(o.limits) == 0 && o.file == "":
		return usagef("give it: --limit 75C", "--margin needs a limit")
	case o.margin.Or(0) < 0:
		return usagef("", "--margin is below 0")
	}
	return nil
}

// rulesHint names the rule that is meant where one alone is near, and all rules,
// one a line: their names hold commas.
func rulesHint(name string) string {
	valid := "valid are all, or\n  \"" + strings.Join(ruleNames(), "\"\n  \"") + "\""
	if near := catalog.Nearest(name, ruleNames()); near != "" {
		return near + " " + valid
	}
	return valid
}

func ruleNames() []string {
	var names []string
	for _, r := range thermal.Rules() {
		names = append(names, r.Name)
	}
	return names
}

func runHeat(ctx context.Context, o *heatOptions) error {
	log, err := o.open(ctx)
	if err != nil {
		return err
	}
	spots, other, err := o.spots(ctx)
	if err != nil {
		return err
	}
	doc := &view.Heat{File: o.log, Log: log, Rules: o.shown(), Device: o.file, Carried: other.Known, Unchecked: unchecked(spots, log)}
	for i := range log.Probes {
		probe, err := o.judge(&log.Probes[i], spots, other)
		if err != nil {
			return err
		}
		doc.Probes = append(doc.Probes, probe)
	}
	if err := o.strangers(log); err != nil {
		return err
	}
	return o.session.print(doc)
}

// open reads the log.
func (o *heatOptions) open(ctx context.Context) (*trial.Log, error) {
	if o.log == "-" {
		data, err := io.ReadAll(o.session.env.Stdin)
		if err != nil {
			return nil, fmt.Errorf("read standard input: %w", err)
		}
		return trial.ReadLog(ctx, "standard input", bytes.NewReader(data), int64(len(data)), o.read)
	}
	file, err := os.Open(o.log)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, failf("", "there is no log %q", o.log)
	case err != nil:
		return nil, fmt.Errorf("read log: %w", err)
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, fmt.Errorf("read log: %w", err)
	}
	if info.IsDir() {
		return nil, failf("name a file in it", "%q is a folder", o.log)
	}
	return trial.ReadLog(ctx, o.log, file, info.Size(), o.read)
}

// shown lists the rules to be shown in full.
func (o *heatOptions) shown() []thermal.Rule {
	if slices.Contains(o.rules, "all") {
		return thermal.Rules()
	}
	var rules []thermal.Rule
	for _, name := range o.rules {
		if rule, ok := thermal.RuleNamed(name); ok {
			rules = append(rules, rule)
		}
	}
	return rules
}
