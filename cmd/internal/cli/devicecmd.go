package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
	"lowsone/match"
	"lowsone/match/devicefile"
)

const deviceLong = `A device file holds what you know of a device: its air paths and fans, the space
and the supply at each, what it watches, heat, temperatures found, other noise.
The commands system, rank, shortlist and slow take it as their argument.

new writes an empty one to fill in; check says what is known, assumed and
missing, and what each missing thing is good for; schema prints its JSON Schema.`

const deviceExample = `  lowsone device new new.yaml
  lowsone device check amplifier.yaml
  lowsone rank amplifier.yaml`

func newDeviceCmd(s *session, check func(context.Context, *deviceCheckOptions) error) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "device COMMAND",
		Short:   "make and check a device file",
		Long:    deviceLong,
		Example: deviceExample,
		Args:    knownCommand,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newDeviceNewCmd(s), newDeviceCheckCmd(s, check), newDeviceSchemaCmd(s))
	return cmd
}

const deviceNewLong = `Write an empty device file with a comment at every line. A file that is there
already is never touched; - is standard output. What stays blank is not known;
fill in what you can.`

func newDeviceNewCmd(s *session) *cobra.Command {
	return &cobra.Command{
		Use:         "new FILE",
		Short:       "write an empty device file to fill in",
		Long:        deviceNewLong,
		Example:     `  lowsone device new new.yaml`,
		Annotations: noListForm(),
		Args:        exactly(1, "name the file, such as amplifier.yaml"),
		RunE:        func(_ *cobra.Command, args []string) error { return s.newDeviceFile(args[0]) },
	}
}

// newDeviceFile writes the template where no file is.
func (s *session) newDeviceFile(name string) error {
	var text bytes.Buffer
	if err := devicefile.Template(&text); err != nil {
		return err
	}
	switch name {
	case "":
		return usagef("such as amplifier.yaml", "the file to write has no name")
	case "-":
		_, err := s.out.Write(text.Bytes())
		return err
	}
	if err := checkFolder(filepath.Dir(name)); err != nil {
		return err
	}
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	switch {
	case errors.Is(err, fs.ErrExist):
		return failf("name another file", "%q is there already", name)
	case err != nil:
		return fmt.Errorf("write device file: %w", err)
	}
	_, err = file.Write(text.Bytes())
	if err = errors.Join(err, file.Close()); err != nil {
		os.Remove(name) // half a file helps nobody
		return fmt.Errorf("write device file: %w", err)
	}
	return s.print(&view.DeviceNew{File: name})
}

const deviceCheckLong = `Say of everything a device file can hold whether it is known, assumed or
missing, and what the answer is good for, what most hangs on first. What is
wrong with the file is shown where it stands; then the exit code is 1.

Fans named by part are looked up in the catalogue, where there is one; then it
also says whether the file is enough for lowsone rank.`

// deviceCheckOptions are what device check is asked for.
type deviceCheckOptions struct {
	session *session
	file    string
	all     bool
}

func newDeviceCheckCmd(s *session, run func(context.Context, *deviceCheckOptions) error) *cobra.Command {
	o := &deviceCheckOptions{session: s}
	cmd := &cobra.Command{
		Use:         "check FILE",
		Short:       "say what a device file knows, assumes and lacks",
		Long:        deviceCheckLong,
		Example:     `  lowsone device check amplifier.yaml`,
		Annotations: noListForm(),
		Args:        exactly(1, "name one device file; lowsone device new makes one"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.file = args[0]
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().BoolVar(&o.all, "all", false, "show what is known too, not only what is open")
	return cmd
}

func runDeviceCheck(ctx context.Context, o *deviceCheckOptions) error {
	file, err := readDeviceFile(ctx, o.file)
	if err != nil {
		return o.wrong(err)
	}
	doc := &view.DeviceCheck{File: o.file, All: o.all || o.session.verbose}
	if doc.NotLooked, err = o.look(ctx, file, doc); err != nil {
		return o.wrong(err)
	}
	doc.Device, doc.Report = &file.Device, file.Report()
	return o.session.print(doc)
}

// wrong gives programs what is wrong as an object; people read it as an error.
func (o *deviceCheckOptions) wrong(err error) error {
	var problems *devicefile.Error
	if errors.As(err, &problems) && !o.session.forPeople() {
		return errors.Join(o.session.print(&view.DeviceProblems{File: o.file, Error: problems}), err)
	}
	return err
}

// look looks the fans of a file up, and tries whether it is enough to rank by.
// Without a catalogue it says why it did not.
func (o *deviceCheckOptions) look(ctx context.Context, file *devicefile.File, doc *view.DeviceCheck) (notLooked string, err error) {
	named := false
	for _, fan := range file.Fans {
		named = named || fan.Part != ""
	}
	cat, err := o.session.openCatalog(ctx)
	if errors.Is(err, store.ErrNone) {
		for i := range file.Device.Paths {
			doc.Paths = append(doc.Paths, view.DeviceReady{Path: i, Unknown: true})
		}
		if named {
			notLooked = err.Error()
		}
		return notLooked, nil
	}
	if err != nil {
		return "", err
	}
	defer cat.Close()
	if err := file.Resolve(lookIn(ctx, cat)); err != nil {
		return "", err
	}
	doc.Paths, err = ready(ctx, cat, file)
	return "", err
}

// ready tries for each path of a file what lowsone rank begins with.
func ready(ctx context.Context, cat *store.Catalogue, file *devicefile.File) ([]view.DeviceReady, error) {
	twins, err := cat.Twins(ctx)
	if err != nil {
		return nil, err
	}
	var all []view.DeviceReady
	for i := range file.Device.Paths {
		dev := described{file: &file.Device}
		req := dev.request(file.Device.Paths[i], i, &choiceFlags{})
		one := view.DeviceReady{Path: i}
		if seated, err := match.Sit(ctx, cat.View(twins), req, req.Path.Row); err != nil {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			one.Lacks, one.Hint = err.Error(), hintOf(err)
		} else if seated.NoFlow != nil {
			one.Lacks, one.Hint = seated.NoFlow.Error(), seated.NoFlow.Hint()
		}
		all = append(all, one)
	}
	return all, nil
}

func newDeviceSchemaCmd(s *session) *cobra.Command {
	return &cobra.Command{
		Use:         "schema",
		Short:       "print the JSON Schema of a device file",
		Long:        "Print the JSON Schema of a device file, for editors that check and complete.",
		Example:     `  lowsone device schema > schema.json`,
		Annotations: noListForm(),
		Args:        exactly(0, "schema takes nothing"),
		RunE: func(*cobra.Command, []string) error {
			_, err := s.out.Write(devicefile.Schema())
			return err
		},
	}
}
