package cli

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"

	"github.com/google/renameio/v2"
	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/cmd/internal/demo"
	"lowsone/cmd/internal/view"
)

const demoLong = `Try the whole job on an invented amplifier and an invented parts list: import,
search, system, rank, order list. The commands are shown as they are run, and
can be run again by hand. Everything is kept in one folder.`

const demoExample = `  lowsone demo`

// demoDir is the folder of the demo unless one is named.
const demoDir = ".demo"

// demoOptions are what demo is asked for.
type demoOptions struct {
	session *session
	files   demo.Files
}

func newDemoCmd(s *session, run func(context.Context, *demoOptions) error) *cobra.Command {
	o := &demoOptions{session: s, files: demo.Files{Dir: demoDir}}
	return &cobra.Command{
		Use:         "demo [DIR]",
		Short:       "try the whole job on invented data",
		Long:        demoLong,
		Example:     demoExample,
		Annotations: noListForm(),
		Args:        atMostOne("name one folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				o.files.Dir = filepath.Clean(args[0])
			}
			return run(cmd.Context(), o)
		},
	}
}

// atMostOne lets a command have no or one argument.
func atMostOne(hint string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return exactly(1, hint)(cmd, args)
		}
		return nil
	}
}

func runDemo(ctx context.Context, o *demoOptions) error {
	if err := o.lay(); err != nil {
		return err
	}
	s := o.session
	inner := o.inner()
	fmt.Fprintf(inner.out, "An invented amplifier, an invented parts list; all of it is kept in %s.\n\n", quoted(o.files.Dir))
	fmt.Fprintf(inner.out, "   $ export LOWSONE_CATALOG=%s\n", quoted(o.files.Catalogue()))
	var ranked *view.Ranking
	for i, step := range o.files.Steps() {
		fmt.Fprintf(inner.out, "\n%d. %s\n   $ lowsone %s\n\n", i+1, step.Title, commandLine(step.Args))
		got, err := inner.run(ctx, step.Args)
		if err != nil {
			return err
		}
		if got != nil {
			ranked = got
		}
	}
	fmt.Fprintln(inner.out)
	if err := inner.out.Flush(); err != nil {
		return err
	}
	cat, err := inner.openCatalog(ctx)
	if err != nil {
		return err
	}
	defer cat.Close()
	cols, err := cat.Columns(ctx, catalog.FieldMaker, catalog.FieldPart, catalog.FieldAirflow, catalog.FieldNoise)
	if err != nil {
		return err
	}
	return s.print(&view.Story{Sentences: demo.Sentences(cols, ranked.Ranking), File: o.files.Order()})
}

// lay writes the parts list into the demo's folder. Another file of that name
// is not replaced.
func (o *demoOptions) lay() error {
	if err := os.MkdirAll(o.files.Dir, 0o755); err != nil {
		return fmt.Errorf("make the demo's folder: %w", err)
	}
	path, parts := o.files.Parts(), demo.Parts()
	switch there, err := os.ReadFile(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return fmt.Errorf("write the demo's parts list: %w", err)
	case bytes.Equal(there, parts):
		return nil
	default:
		return failf("name another folder: lowsone demo DIR", "%q is there already and is not the demo's parts list", path)
	}
	if err := renameio.WriteFile(path, parts, 0o644); err != nil {
		return fmt.Errorf("write the demo's parts list: %w", err)
	}
	return nil
}

// inner is the session in which the commands of the demo run: on the demo's
// catalogue, always for people, and silent where a program reads the result.
func (o *demoOptions) inner() *session {
	inner := *o.session
	catalogue, getenv := o.files.Catalogue(), inner.env.Getenv
	inner.catalog, inner.format = "", view.FormatTable
	inner.env.Getenv = func(name string) string {
		if name == "LOWSONE_CATALOG" {
			return catalogue
		}
		return getenv(name)
	}
	if !o.session.forPeople() {
		inner.out, inner.quiet = bufio.NewWriter(io.Discard), true
	}
	return &inner
}

// run runs one command line as the program itself would, and keeps the answer
// of a ranking.
func (s *session) run(ctx context.Context, args []string) (*view.Ranking, error) {
	one := *s
	root := newRootCmd(&one)
	one.quiet, one.verbose = s.quiet, s.verbose // flags begin with their defaults
	var got *view.Ranking
	replace(root, newImportCmd(&one, importBriefly))
	replace(root, newRankCmd(&one, func(ctx context.Context, o *rankOptions) (err error) {
		o.weak = math.MaxInt32 // the story looks for a certain one
		if got, err = answer(ctx, o); err != nil {
			return err
		}
		return o.show(got)
	}))
	root.SetArgs(args)
	if err := root.ExecuteContext(ctx); err != nil {
		return nil, err
	}
	s.style.Cautioned = s.style.Cautioned || args[0] == "system" // once for all
	return got, one.out.Flush()
}

// replace puts a command in the place of the one of its name.
func replace(root, with *cobra.Command) {
	for _, cmd := range root.Commands() {
		if cmd.Name() == with.Name() {
			root.RemoveCommand(cmd)
		}
	}
	root.AddCommand(with)
}

// importBriefly is runImport with a short account.
func importBriefly(ctx context.Context, o *importOptions) error {
	account, err := o.carryOut(ctx)
	if err != nil {
		return err
	}
	return o.session.print(&view.ImportBrief{Import: view.Import{Account: account}})
}

// commandLine writes arguments as they would be typed.
func commandLine(args []string) string {
	words := make([]string, len(args))
	for i, arg := range args {
		words[i] = quoted(arg)
	}
	return strings.Join(words, " ")
}
