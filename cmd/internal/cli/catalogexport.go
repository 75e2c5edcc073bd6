package cli

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/google/renameio/v2"
	"github.com/spf13/cobra"

	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/store"
	"lowsone/cmd/internal/view"
)

// exportOptions are what catalog export is asked for.
type exportOptions struct {
	session *session
	file    string
	source  string
}

const catalogExportLong = `Export writes the fans of the catalogue as the tool's own CSV, and behind its
columns those that no field stands for, as extra:NAME. Text that a spreadsheet
would run is defused. The file is written whole or not at all; a file that is no
export is never replaced.

Importing an export gives the same fans, in the same order: every value to ten
digits and whether a cell stated it or it is estimated, and the other columns.
Not kept are the line of each fan in its first file and what was remarked when
that was read. An export is one source: --source NAME exports one, and importing
it with --source NAME puts it back in its place. Without it the fans of all
sources become one; a part that several list stands there once, as the one
imported last has it.`

func newCatalogExportCmd(s *session, run func(context.Context, *exportOptions) error) *cobra.Command {
	o := &exportOptions{session: s}
	cmd := &cobra.Command{
		Use:   "export FILE|-",
		Short: "write the catalogue to a CSV that import reads",
		Long:  catalogExportLong,
		Example: `  lowsone catalog export fans.csv
  lowsone catalog export branch-copy.csv --source branch.csv`,
		Annotations: noListForm(),
		Args:        exactly(1, "name one file, or - for standard output"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.file = args[0]
			if o.file == "" {
				return usagef("such as fans.csv", "the file to write has no name")
			}
			if isWorkbookName(o.file) {
				return usagef("such as fans.csv, which a spreadsheet opens too", "export writes a CSV, and %q is the name of a workbook", o.file)
			}
			if o.file == "-" && s.format == view.FormatJSON {
				return usagef("leave one of them out", "- writes CSV, --format json asks for JSON")
			}
			return run(cmd.Context(), o)
		},
	}
	cmd.Flags().StringVar(&o.source, "source", "", "`name` of the one source to export (else all)")
	return cmd
}

func runCatalogExport(ctx context.Context, o *exportOptions) error {
	if o.file != "-" {
		file := outputFile{path: o.file, what: "export", one: "an export", stdout: "-", ours: isExport}
		if err := file.check(); err != nil {
			return err
		}
	}
	c, err := o.session.openCatalog(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	done, err := o.write(ctx, c)
	if err != nil {
		return asNoSource(err)
	}
	if o.file != "-" {
		if err := o.session.print(&view.CatalogExport{File: o.file, Exported: done}); err != nil {
			return err
		}
	}
	if done.Fans == 0 {
		return nothingf("lowsone import FILE", "the catalogue holds no fan: nothing is written")
	}
	o.tell(done)
	return nil
}

// isWorkbookName says whether programs take a file for a workbook by its name.
func isWorkbookName(file string) bool {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".xlsx", ".xlsm", ".xlsb", ".xls", ".ods":
		return true
	}
	return false
}

func isExport(r io.Reader) bool {
	head := make([]byte, partscsv.IsExportHead)
	n, _ := io.ReadFull(r, head)
	return partscsv.IsExport(head[:n])
}

// tell says what the file leaves out.
func (o *exportOptions) tell(done intake.Exported) {
	s := o.session
	if done.Aside > 0 {
		s.say("left out: %s of parts that another source lists too, imported later", rowsOf(done.Aside))
	}
	if len(done.Sources) > 1 {
		s.say("the fans of %d sources are one source in it; --source NAME exports each by itself", len(done.Sources))
	}
}

func rowsOf(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}

// write writes the export where it is wanted, whole or not at all.
func (o *exportOptions) write(ctx context.Context, c *store.Catalogue) (done intake.Exported, err error) {
	if o.file == "-" {
		return intake.Export(ctx, c, o.source, o.session.out)
	}
	if c.Rows() == 0 {
		return done, nil
	}
	pending, err := renameio.NewPendingFile(o.file, renameio.WithPermissions(0o644), renameio.WithExistingPermissions())
	if err != nil {
		return done, fmt.Errorf("write export: %w", err)
	}
	defer pending.Cleanup()
	out := bufio.NewWriterSize(pending, 1<<18)
	if done, err = intake.Export(ctx, c, o.source, out); err != nil {
		return done, err
	}
	if err = out.Flush(); err == nil {
		err = pending.CloseAtomicallyReplace()
	}
	if err != nil {
		err = fmt.Errorf("write export: %w", err)
	}
	return done, err
}
