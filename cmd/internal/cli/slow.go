package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"lowsone/catalog/quantity"
	"lowsone/match/drive"
)

const slowLong = `Show what each means of running one fan slower comes to, side by side: linear
regulator, series resistor, diodes, step-down converter, its own PWM input: the
part, its heat, whether the fan still starts, its tach, its level; and what is
refused, and why.

PART is a fan of the catalogue; --with adds what its row lacks, or describes a
fan that is in no list. With a device (a device file, or the flags of lowsone
system) the flow, the level where people sit and the temperatures are told as
well. Where a device alone is given, its own fan is slowed.

The supply is to be measured at the plug with the fan running. The target is a
voltage, a speed, or a flow; with a device, without any, the flow it needs.`

const slowExample = `  lowsone slow W60A25-12.63-3 --supply 12V --to 9V
  lowsone slow W60A25-12.63-3 --supply 12V --speed 70% --with start_voltage_v=5
  lowsone slow W60A25-12.63-3 --replace OMB-625B56B3 --heat 90W --air-rise 9K`

// slowOptions are what slow is asked for.
type slowOptions struct {
	session   *session
	part      string
	with      fittedFlags // values of PART
	rail      quantity.Known[drive.Rail]
	pulsed    bool
	regulated bool
	partAir   quantity.Known[quantity.Temperature]
	to        target
	device    deviceFlags
	choice    choiceFlags
}

func newSlowCmd(s *session, run func(context.Context, *slowOptions) error) *cobra.Command {
	o := &slowOptions{session: s}
	cmd := &cobra.Command{
		Use:         "slow [PART] [DEVICE.yaml] [flags]",
		Short:       "show what each means of running a fan slower comes to",
		Long:        slowLong,
		Example:     slowExample,
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
	flags := cmd.Flags()
	flags.SortFlags = false
	o.to.register(flags)
	flags.Var(newParsed("V", o.readRail), "supply", "supply at the plug, in V: 12, or the least and the most of it, 11.6-12.4 (else the device's)")
	flags.BoolVar(&o.pulsed, "pulsed", false, "the device pulses the supply")
	flags.Var(newParsed("FIELD=VALUE", o.with.readField), "with", "a value of the fan that is slowed, such as start_voltage_v=5; repeat it for more; overrules catalogue and device file")
	flags.BoolVar(&o.regulated, "regulated", false, "the fan sets its own speed, by a thermistor or a controller in it")
	flags.Var(newParsed("°C", o.readPartAir), "part-air", "temperature of the air around resistors, in °C (else below 70)")
	flags.Var(newMeasure(&o.choice.listener, listenerBounds()), "listener", "distance at which levels are told, in m (else the device's, else 1)")
	o.device.registerFor(flags)
	return cmd
}

// registerFor registers what describes the device a fan is slowed in.
func (d *deviceFlags) registerFor(flags *pflag.FlagSet) {
	d.registerPath(flags)
	d.fitted.register(flags)
	d.way.register(flags)
	d.seat.registerWatch(flags)
}

func (o *slowOptions) readPartAir(text string) error {
	t, err := readTemperature(text)
	o.partAir = quantity.Stated(t)
	return err
}

// readRail reads a voltage, or the least and the most of it.
func (o *slowOptions) readRail(text string) error {
	low, high, ranged := cutRange(text)
	most, err := voltageBounds().parse(high)
	if err != nil {
		return err
	}
	least := most
	if ranged {
		if least, err = voltageBounds().parse(low); err != nil {
			return err
		}
	}
	if least > most {
		return usagef("write the least first: 11.6-12.4V", "%q falls", text)
	}
	o.rail = quantity.Stated(drive.Rail{Low: least, High: most})
	return nil
}

// cutRange parts a range as people write it: 11.6-12.4V, 11.6..12.4V, 11.6 to
// 12.4 V.
func cutRange(text string) (low, high string, ok bool) {
	for _, between := range []string{"..", " to ", "–", "-"} {
		if low, high, ok := strings.Cut(text, between); ok && strings.TrimSpace(low) != "" {
			return low, high, true
		}
	}
	return "", text, false
}

// name tells a part from a device file.
func (o *slowOptions) name(args []string) error {
	for _, arg := range args {
		target := &o.part
		if isDeviceFile(arg) {
			target = &o.device.file
		}
		if *target != "" {
			return usagef("name one fan and at most one device file", "slow does not know what to do with %q", arg)
		}
		*target = arg
	}
	return nil
}

// described says whether a device is.
func (o *slowOptions) described() bool {
	return o.device.given() || len(o.device.way.given()) > 0
}

func (o *slowOptions) check() error {
	switch {
	case o.part == "" && len(o.with.values) == 0 && !o.described():
		return usagef("name a fan of the catalogue, or describe one: --with voltage_v=12 --with current_a=0.2", "which fan is to be slowed?")
	case !o.rail.Known() && !o.described():
		return usagef("measure it at the plug with the fan running: --supply 12V, or its range: --supply 11.6-12.4V", "which supply does it run on?")
	}
	if err := o.to.check(o.described()); err != nil {
		return err
	}
	if !o.described() {
		return nil
	}
	if !o.device.given() {
		o.device.fitted.replace = o.part // the fan that is slowed is the one fitted
	}
	return o.device.check()
}

func runSlow(ctx context.Context, o *slowOptions) error {
	doc, err := o.work(ctx)
	if err != nil {
		return err
	}
	if err := o.session.print(doc); err != nil {
		return err
	}
	if doc.Refused() {
		return nothingf(doc.Mend, "no means of slowing this fan is offered")
	}
	return nil
}
